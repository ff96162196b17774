// web/bench/log_words.js: entries of the log in words, and what can be wrong with one.

/// <reference path="./types.d.ts" />
import { lengthWords } from '../text/numbers.js';
import { sentence } from '../text/violations.js';
import { logOf, standing } from './log.js';
import { fingeringWords, noteOf, noteWords, shiftAt } from './words.js';

/** @param {LogEntry[]} log @param {number} index @param {Doc} doc @param {NextStep | null} next
 * @param {State} s @param {Engine} engine @returns {string} */
export function entryWords(log, index, doc, next, s, engine) {
  const entry = log[index];
  const shift = shiftAt(doc, index);
  /** @param {number | undefined} mm */
  const size = (mm) => (mm === undefined ? '' : lengthWords(mm, s, engine));
  /** @param {number} mm */
  const place = (mm) => lengthWords(mm + shift, s, engine);
  if (entry.read) {
    const { open, hz, sigma_cents: sigma } = entry.read;
    const cut = standing({ ...doc, log }, index).holes.size;
    const name = noteOf(next, open) === null ? '' : `${noteWords(next, open)}, `;
    return `Heard ${hz.toFixed(1)} Hz${sigma === undefined ? '' : ` ± ${Math.round(sigma * 10) / 10} cents`}: ${
      name}${fingeringWords(open, cut)}`;
  }
  if (entry.foot) return `Foot ${entry.note === 'sleeve' ? 'made longer' : 'cut'} to ${place(entry.foot.at_mm)}`;
  if (entry.hole) {
    const { number, at_mm, diameter_mm: wide } = entry.hole;
    const again = log.slice(0, index).some((e) => e.hole?.number === number);
    if (again) return `Hole ${number} opened${wide === undefined ? ' a little' : ` to ${size(wide)}`}`;
    return `Hole ${number} drilled at ${place(at_mm)}${wide === undefined ? '' : `, ${size(wide)} wide`}`;
  }
  if (entry.undercut) return `Hole ${entry.undercut.number} undercut`;
  if (entry.narrow) {
    const { number, diameter_mm: wide } = entry.narrow;
    return `Hole ${number} ${entry.note ? entry.note : `narrowed${wide === undefined ? '' : ` to ${size(wide)}`}`}`;
  }
  if (entry.sound_hole) {
    const { length_mm: length, width_mm: width } = entry.sound_hole;
    return `Sound hole now ${size(length)} long, ${size(width)} wide`;
  }
  if (entry.foot_plug) return `Disc in the foot, opening ${size(entry.foot_plug.opening_mm)}`;
  if (entry.block) return 'Block moved';
  return 'Finished and dry';
}

/** @param {number} seconds since 1970 @param {Date} now */
export function timeWords(seconds, now) {
  const at = new Date(seconds * 1000);
  const time = at.toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' });
  return at.toDateString() === now.toDateString() ? time
    : `${at.toLocaleDateString([], { day: 'numeric', month: 'short' })}, ${time}`;
}

/** What is wrong with an entry, in the maker's own measures.
 * @param {Violation} violation @param {Doc} doc with the entry @param {State} s
 * @param {Engine} engine @returns {string} */
export function logSentence(violation, doc, s, engine) {
  const { code, path } = violation;
  const index = Number(/^log\[(\d+)\]/.exec(path)?.[1] ?? 0);
  const shift = shiftAt(doc, index);
  const limit = typeof violation.limit === 'number' ? violation.limit : null;
  const place = limit === null ? '' : lengthWords(limit + shift, s, engine);
  const wide = limit === null ? '' : lengthWords(limit, s, engine);
  if (path.endsWith('.hole.at_mm')) {
    if (code === 'out_of_order') {
      const number = logOf(doc)[index]?.hole?.number ?? 0;
      return `Hole ${number} would lie beyond its neighbour at ${place}. Holes count from the sound `
        + 'hole: is it another one?';
    }
    if (code === 'too_large') return `That is beyond the tube’s end at ${place}.`;
    if (code === 'too_small') return 'That is above the sound hole’s edge. Measure towards the foot.';
  }
  if (path.endsWith('.foot.at_mm')) {
    if (code === 'too_small') return `The foot cannot lie above a hole, at ${place}.`;
  }
  if (code === 'bad_hole_number') return 'That hole is not cut yet.';
  if (code === 'too_large' && /diameter_mm|width_mm|opening_mm/.test(path)) {
    return `That is wider than this tube lets it be; at most ${wide}.`;
  }
  return sentence(violation, s, engine);
}

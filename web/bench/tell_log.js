// web/bench/tell_log.js: an entry of the log as a line to read, and what is wrong with one.

/// <reference path="./types.d.ts" />
import { lengthWords } from '../text/numbers.js';
import { sentence } from '../text/violations.js';
import { logOf, standing } from './log.js';
import { fingeringWords, noteOf, noteWords, shiftAt } from './notes.js';
import { ABOVE_EDGE, BLOCK_MOVED, FINISHED_AND_DRY, NARROWED, NOT_CUT_YET, OPENED_A_LITTLE, UNDERCUT,
  beyondNeighbour, beyondTube, blownTo, discInFoot, drilledAt, footAboveHole, footCut, footLonger, heardAs, holeWas, hzWithin,
  narrowedTo, openedTo, sizeWide, soundHoleNow, tooWide } from './words.js';

/** @param {LogEntry[]} log @param {number} index @param {Doc} doc @param {NextStep | null} next
 * @param {State} s @param {Engine} engine @returns {string} */
export function entryWords(log, index, doc, next, s, engine) {
  const entry = log[index];
  const shift = shiftAt(doc, index);
  /** @param {number} mm */
  const size = (mm) => lengthWords(mm, s, engine);
  /** @param {number} mm */
  const place = (mm) => lengthWords(mm + shift, s, engine);
  if (entry.read) {
    const { open, hz, sigma_cents: sigma } = entry.read;
    const held = fingeringWords(open, standing({ ...doc, log }, index).holes.size);
    return heardAs(sigma === undefined ? `${hz.toFixed(1)} Hz`
      : hzWithin(hz.toFixed(1), String(Math.round(sigma * 10) / 10)),
    noteOf(next, open) === null ? held : `${noteWords(next, open)}, ${held}`);
  }
  if (entry.foot) return (entry.note === 'sleeve' ? footLonger : footCut)(place(entry.foot.at_mm));
  if (entry.hole) {
    const { number, at_mm, diameter_mm: wide } = entry.hole;
    const again = log.slice(0, index).some((e) => e.hole?.number === number);
    if (again) return holeWas(number, wide === undefined ? OPENED_A_LITTLE : openedTo(size(wide)));
    return holeWas(number, `${drilledAt(place(at_mm))}${wide === undefined ? '' : `, ${sizeWide(size(wide))}`}`);
  }
  if (entry.undercut) return holeWas(entry.undercut.number, UNDERCUT);
  if (entry.narrow) {
    const { number, diameter_mm: wide } = entry.narrow;
    return holeWas(number, entry.note || (wide === undefined ? NARROWED : narrowedTo(size(wide))));
  }
  if (entry.sound_hole) return soundHoleNow(size(entry.sound_hole.length_mm), size(entry.sound_hole.width_mm));
  if (entry.foot_plug) return discInFoot(size(entry.foot_plug.opening_mm));
  if (entry.breath) {
    const { what, pa, water_mm: water } = entry.breath;
    return blownTo(what, water === undefined ? `${Math.round(pa ?? 0)} Pa` : `${water} mm of water`);
  }
  return entry.block ? BLOCK_MOVED : FINISHED_AND_DRY;
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
    if (code === 'out_of_order') return beyondNeighbour(logOf(doc)[index]?.hole?.number ?? 0, place);
    if (code === 'too_large') return beyondTube(place);
    if (code === 'too_small') return ABOVE_EDGE;
  }
  if (path.endsWith('.foot.at_mm') && code === 'too_small') return footAboveHole(place);
  if (code === 'bad_hole_number') return NOT_CUT_YET;
  if (code === 'too_large' && /diameter_mm|width_mm|opening_mm/.test(path)) return tooWide(wide);
  return sentence(violation, s, engine);
}

// web/bench/words.js: sentences of the bench: what to do now, why, and what to expect.

/// <reference path="./types.d.ts" />
import { datumShift } from '../state/desk.js';
import { bare, band } from '../text/sure.js';
import { centsWords, lengthWords, noteName, signed } from '../text/numbers.js';
import { standing } from './log.js';

/** @type {Record<string, string>} */
export const WHY = {
  saw_long: 'The voice is not known yet, so the foot stays long: what is sawn off cannot be put '
    + 'back.',
  hear_voice: 'One reading of the tube without holes tells most of what no ruler can.',
  hear_trimmed: 'Heard before and after a known cut, the tube tells the sound hole from the air in it.',
  trim_foot: 'Nearer to the foot’s mark by the ruler; the last cents come off by ear.',
  hear_again: 'The last reading does not fit what is known of this flute. Once more, before anything is cut.',
  warm_up: 'The last readings are all off alike: the flute is cold, or the block has moved. Warm '
    + 'the flute, look at the block, then read again.',
  drill_small: 'The next hole from the foot up, smaller than it will be: a hole only grows.',
  open_by_ear: 'A tenth of a millimetre is many cents here, so now the ear leads.',
  undercut_hole: 'It is as wide as it may be: widen it inside, under the wall.',
  hear_note: 'How far is this note now? Nothing is cut before that is known.',
  finish_foot: 'The last cents of the lowest note, by ear.',
  plan_moved: 'What was heard would move the next hole further than anything explains. Hear this '
    + 'note again, and look whether the places and sizes you entered are right.',
  let_dry: 'Finish and moisture move the pitch: the last cents wait for the dry flute.',
  too_sharp_hole: 'This hole’s note is too sharp. Choose one way; what can be taken back stands '
    + 'first.',
  too_sharp_foot: 'The lowest note is too sharp: the tube is too short for it. Choose one way; '
    + 'what can be taken back stands first.',
  finished: 'Every note is as near as cutting can bring it.',
};

/** @type {Record<string, string>} */
export const TROUBLE = {
  foot_short: 'The foot is too short for the lowest note.',
  hole_sharp: 'A hole is too large, or too near the sound hole.',
  sound_hole_large: 'The voice sounds much sharper than a sound hole of its size should: it is '
    + 'larger than entered, or more open.',
  all_flat: 'Everything heard of late is flat of what was heard before: the flute is cold, or the '
    + 'block has moved.',
  all_sharp: 'Everything heard of late is sharp of what was heard before: the room is warmer than '
    + 'entered, or the block has moved.',
  breath_lifts: 'High notes are blown much sharper than low ones.',
};

/** @param {Record<string, string>} texts @param {string} code */
export const textOf = (texts, code) => (Object.hasOwn(texts, code) ? texts[code]
  : code.replaceAll('_', ' '));

/** What a position is shown with, from the datum chosen, at that moment of the build.
 * @param {Doc} doc @param {number} [count] entries */
export const shiftAt = (doc, count) => datumShift({ show: doc.show,
  sound_hole: standing(doc, count).sound_hole });

/** "holes 4 and 5 open". @param {number[]} open @param {number} cut how many holes there are */
export function fingeringWords(open, cut) {
  if (cut === 0) return 'the tube without holes';
  if (open.length === 0) return cut === 1 ? 'its hole covered' : 'all holes covered';
  return open.length === 1 ? `hole ${open[0]} open`
    : `holes ${open.slice(0, -1).join(', ')} and ${open[open.length - 1]} open`;
}

/** @param {readonly number[]} a @param {readonly number[]} b */
export const sameOpen = (a, b) => a.length === b.length && [...a].sort().join() === [...b].sort().join();

/** @param {NextStep | null} next @param {number[]} open */
export const noteOf = (next, open) => next?.notes.find((n) => sameOpen(n.open, open)) ?? null;

/** @param {NextStep | null} next @param {number[]} open */
export function noteWords(next, open) {
  const note = noteOf(next, open);
  return note?.name ? noteName(note.name)
    : open.length === 0 ? 'the lowest note' : `the note with ${open.join(', ')} open`;
}

/** Where this fingering should be heard now, before it is heard. @param {NextStep | null} next
 * @param {number[]} open @returns {number} Hz, 0: not known */
export function expectedHz(next, open) {
  const note = noteOf(next, open);
  return note === null ? 0 : note.target_hz * 2 ** ((note.now_cents ?? 0) / 1200);
}

/** The bit to take, by its label if it has one; who has no set gets a size.
 * @param {number} mm @param {State} s @param {Engine} engine */
export function bitWords(mm, s, engine) {
  const bit = (s.doc.shop?.bits ?? []).find((b) => Math.abs(b.mm - mm) < 0.005);
  const size = bit?.label ?? lengthWords(mm, s, engine);
  return bit === undefined ? `${size} wide` : `with the ${size} bit`;
}

/** The step as words; `figures` are what a thumb has to find.
 * @param {NextStep} next @param {State} s @param {Engine} engine
 * @returns {{before: string, figure: string, after: string}} */
export function title(next, s, engine) {
  const { step } = next;
  const at = () => lengthWords((step.at_mm ?? 0) + shiftAt(s.doc), s, engine);
  const stop = `${(step.until?.hz ?? 0).toFixed(1)} Hz`;
  const open = step.open ?? step.until?.open ?? [];
  switch (step.do) {
    case 'foot': return step.until ? { before: 'Sand the foot until it sounds', figure: stop, after: '' }
      : { before: 'Saw the foot at', figure: at(), after: '' };
    case 'hole': return step.until
      ? { before: `Open hole ${step.number} until it sounds`, figure: stop, after: '' }
      : { before: `Drill hole ${step.number} at`, figure: at(), after: step.diameter_mm === undefined
        ? '' : bitWords(step.diameter_mm, s, engine) };
    case 'undercut': return { before: `Undercut hole ${step.number}${step.until ? ' until it sounds'
      : ''}`, figure: step.until ? stop : '', after: '' };
    case 'read': return { before: 'Blow', figure: noteWords(next, open),
      after: 'three times, and hold it' };
    case 'rescue': return { before: (step.number ?? 0) > 0 ? `Hole ${step.number} is cut too far`
      : 'The foot is too short', figure: '', after: '' };
    case 'wait': return { before: 'Finish it and let it dry', figure: '', after: '' };
    default: return { before: 'The flute is done', figure: '', after: '' };
  }
}

/** "Under 1 %". @param {number} chance */
export const chanceWords = (chance) => (chance < 0.005 ? 'under 1 %'
  : `${Math.round(chance * 100)} %`);

/** What the step does, with its band and its risk. @param {NextStep} next @returns {string} */
export function expectation({ step, expect_cents: cents, sigma_cents: sigma, overshoot }) {
  const about = sigma === null ? '' : ` ± ${bare(sigma)}`;
  const risk = overshoot === null || cents === null ? ''
    : ` Chance of too sharp: ${chanceWords(overshoot)}.`;
  if (step.do === 'read') return sigma === null ? '' : `Known to ${band(sigma)} before you blow.`;
  if (cents === null || step.do === 'wait' || step.do === 'done' || step.do === 'rescue') return '';
  if (step.until) return `About ${signed(cents)} cents to go, to ${band(sigma)}.${risk}`;
  if (step.do === 'hole') {
    return `Expect ${bare(Math.abs(cents))}${about} cents ${cents <= 0 ? 'flat: the rest by ear' : 'sharp'}.${risk}`;
  }
  return `Expect ${signed(cents)}${about} cents.${risk}`;
}

/** The amount of a cut by measure. @param {NextStep} next @param {State} s @param {Engine} engine */
export function amount({ step }, s, engine) {
  if (step.until || (step.do !== 'foot' && step.do !== 'hole')) return '';
  const datum = s.doc.show?.datum ?? 'centre';
  const from = `From the ${datum === 'splitting edge' ? datum : `sound hole’s ${datum}`}`;
  const off = standing(s.doc).foot_mm - (step.at_mm ?? 0);
  return step.do === 'foot' && off > 0 ? `${from}; ${lengthWords(off, s, engine)} off.` : `${from}.`;
}

/** @param {NonNullable<NextStep['step']['verdict']>[number]} v */
export function verdictWords(v) {
  const whole = Math.round(v.cents);
  const where = whole === 0 ? 'in tune' : `${centsWords(whole)} ${whole < 0 ? 'flat' : 'sharp'}`;
  return `${where}, known to ${band(v.sigma_cents)}${v.within ? '' : ': beyond what you allow'}`;
}

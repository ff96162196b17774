// web/bench/tell_step.js: what the card says of a step: its heading, its measures, what to expect of it.

/// <reference path="./types.d.ts" />
import { holeSize, noteOf as ownNote } from '../text/bits.js';
import { bare, band } from '../text/sure.js';
import { unitOf } from '../state/desk.js';
import { centsWords, lengthWords } from '../text/numbers.js';
import { UNSETTLED, willBeOff, willBeSilent, standsAt, willStandAt, BEYOND, BLOW, EDGE_LINE, FINISH_AND_DRY, FLUTE_DONE, FOOT_TOO_SHORT, FROM_EDGE,
  IN_TUNE, SAND_UNTIL, SAW_AT, THREE_TIMES, UNDER_1, cutTooFar, drillAt, fromLine, fromSoundHole, knownAs,
  knownBefore, maybeTooFar, moreSteps, offBy, openUntil, restByEar, sawnOff, sizeWide, thenSounds, tooSharp, undercutNow, undercutUntil,
  withBit } from './words.js';
import { standing } from './log.js';
import { expectedHz, noteWords, shiftAt, soundWords } from './notes.js';

/** @param {Record<string, string>} texts @param {string} code */
export const textOf = (texts, code) => (Object.hasOwn(texts, code) ? texts[code]
  : code.replaceAll('_', ' '));

/** The bit to take, by its label if it has one; who has no set gets a size, never rounded past what it costs.
 * @param {number} mm @param {number} hole whose it is @param {State} s @param {Engine} engine */
export function bitWords(mm, hole, s, engine) {
  const bit = (s.doc.shop?.bits ?? []).find((b) => Math.abs(b.mm - mm) < 0.005);
  const size = bit?.label ?? `${holeSize(mm, ownNote(hole, s.answer.notes)?.cents_per_tenth_mm, unitOf(s), engine)}${
    unitOf(s) === 'inch' ? '' : ' mm'}`;
  return bit === undefined ? sizeWide(size) : withBit(size);
}

/** The step as words; `figures` are what a thumb has to find.
 * @param {NextStep} next @param {State} s @param {Engine} engine
 * @returns {{before: string, figure: string, after: string}} */
export function title(next, s, engine) {
  const { step } = next;
  const { number = 0 } = step;
  const at = () => lengthWords((step.at_mm ?? 0) + shiftAt(s.doc), s, engine);
  const stop = `${(step.until?.hz ?? 0).toFixed(1)} Hz`;
  switch (step.do) {
    case 'foot': return step.until ? { before: SAND_UNTIL, figure: stop, after: '' }
      : { before: SAW_AT, figure: at(), after: '' };
    case 'hole': return step.until ? { before: openUntil(number), figure: stop, after: '' }
      : { before: drillAt(number), figure: at(), after: step.diameter_mm === undefined ? ''
        : bitWords(step.diameter_mm, number, s, engine) };
    case 'undercut': return step.until ? { before: undercutUntil(number), figure: stop, after: '' }
      : { before: undercutNow(number), figure: '', after: '' };
    case 'read': return blowing(next, step.open ?? step.until?.open ?? []);
    case 'rescue': return { before: next.why === 'likely_sharp_hole' ? maybeTooFar(number) : number > 0 ? cutTooFar(number) : FOOT_TOO_SHORT, figure: '', after: '' };
    case 'wait': return { before: FINISH_AND_DRY, figure: '', after: '' };
    default: return { before: FLUTE_DONE, figure: '', after: '' };
  }
}

/** The heading of a reading. @param {NextStep} next @param {number[]} open */
export const blowing = (next, open) => ({ before: BLOW, figure: noteWords(next, open), after: THREE_TIMES });

/** "Under 1 %". @param {number} chance */
const chanceWords = (chance) => (chance < 0.005 ? UNDER_1 : `${Math.round(chance * 100)} %`);

/** What it should sound like after the step, with its band and its risk. @param {NextStep} next
 * @returns {string} */
export function expectation(next) {
  const { step, expect_cents: cents, sigma_cents: sigma, overshoot } = next;
  const risk = overshoot === null || cents === null ? '' : ` ${tooSharp(chanceWords(overshoot))}`;
  if (step.do === 'read') {
    const open = step.open ?? [];
    return sigma === null ? '' : knownBefore(soundWords(next, open, expectedHz(next, open)), band(sigma));
  }
  // By ear the panel says it, and what was blown.
  if (step.until || step.do === 'wait' || step.do === 'done' || step.do === 'rescue') return '';
  if (cents === null || step.expect_hz === undefined || step.expect_hz === null) return '';
  const about = sigma === null ? '' : ` ± ${bare(sigma)}`;
  const sound = soundWords(next, step.of ?? [], step.expect_hz);
  return `${step.do === 'hole' ? restByEar(sound, about) : thenSounds(sound, about)}${risk}`;
}

/** The amount of a cut by measure. @param {NextStep} next @param {State} s @param {Engine} engine */
export function amount({ step }, s, engine) {
  if (step.until || (step.do !== 'foot' && step.do !== 'hole')) return '';
  const datum = s.doc.show?.datum ?? 'centre';
  // Before anything was heard there is no voice yet, only its line.
  const made = (s.doc.log ?? []).some((entry) => entry.read !== undefined);
  const from = datum === 'splitting edge' ? (made ? FROM_EDGE : EDGE_LINE)
    : made ? fromSoundHole(datum) : fromLine(datum);
  const off = standing(s.doc).foot_mm - (step.at_mm ?? 0);
  return step.do === 'foot' && off > 0 ? `${from}; ${sawnOff(lengthWords(off, s, engine))}.` : `${from}.`;
}

/** What stands against a cut for this plan: it has not settled, or a note that is still to be made will not speak or
 * ends out of tune; '' else. @param {NextStep} next */
export function planDoubt(next) {
  const { prospect, step, notes, converged } = next;
  if (prospect === undefined || prospect.all_cut || ['done', 'wait', 'rescue'].includes(step.do)) return '';
  const toMake = notes.filter((note) => note.now_cents === null);
  const ends = (/** @type {StepNote} */ note) => note.ends_cents ?? 0;
  const silent = toMake.find((note) => note.ends_cents === null);
  const [worst] = [...toMake].sort((a, b) => Math.abs(ends(b)) - Math.abs(ends(a)));
  const name = (/** @type {StepNote} */ { open }) => noteWords(next, open);
  const beyond = worst !== undefined && Math.abs(ends(worst)) > prospect.tolerance_cents;
  return [converged ? '' : UNSETTLED, silent ? willBeSilent(name(silent))
    : beyond ? willBeOff(name(worst), offBy(Math.round(ends(worst)))) : ''].filter((words) => words !== '').join(' ');
}

/** @param {NonNullable<NextStep['step']['verdict']>[number]} v */
export function verdictWords(v) {
  const whole = Math.round(v.cents);
  const known = knownAs(whole === 0 ? IN_TUNE : offBy(whole), band(v.sigma_cents));
  return v.within ? known : `${known}: ${BEYOND}`;
}

/** Where the flute stands: "Every note within 7 cents, probably; about six more steps for 5".
 * @param {NextStep} next @returns {string} */
export function standsWords(next) {
  const p = next.prospect;
  if (p === undefined || next.step.do === 'done') return '';
  if (p.within_cents === null) return moreSteps(p.steps_left);
  const within = centsWords(Math.max(1, Math.ceil(p.within_cents)));
  return p.all_cut ? standsAt(within, p.steps_left, String(Math.round(p.good_enough_cents)))
    : willStandAt(within, p.steps_left);
}

// web/suits/words.js: what is said of what a tube can be, and of what would put a layout right.

/// <reference path="./types.d.ts" />
import { countWord, inUnit, lengthWords, noteName } from '../text/numbers.js';
import { listed } from '../text/parts.js';

export const WHAT_IT_CAN_BE = 'What this tube can be';
export const LEAD = 'Every lowest note that it reaches, with every scale, is laid out on it with your bits and hands. The '
  + 'best stand first; a score is a judgement, its reasons are numbers.';
export const TRYING = 'Laying them out …';
export const TAKE_IT = 'Take it';
export const WOULD_DO = 'What would put it right';
export const NEARER = 'Nearest that this tube carries, with the same scale and holes:';

/** @param {Doc['song']['scale']} scale */
const scaleWords = (scale) => (typeof scale === 'string' ? scale : 'your own scale');
/** @param {{lowest: string, scale: Doc['song']['scale'], holes: number}} wish */
export const wishName = ({ lowest, scale, holes }) => `${noteName(lowest)}, ${scaleWords(scale)}, ${countWord(holes)} holes`;

/** @param {number} score */
export const scoreWords = (score) => (score >= 95 ? 'Very good' : score >= 75 ? 'Good' : score >= 45 ? 'Fair' : 'Poor');

/** What speaks against it, by its number. @type {Record<string, (value: string, limit: string) => string>} */
const AGAINST = {
  room_to_trim: (value) => `only ${value} to saw off: the first cut has to be near`,
  length_to_bore: (value, limit) => (Number(value) < Number(limit)
    ? `short for its bore (${value} bores long, ${limit} and more speak best): a weak lowest note`
    : `long for its bore (${value} bores, ${limit} and less speak best): it jumps up early`),
  lowest_quality: (value, limit) => `the lowest note rings little (quality ${value}, ${limit} is better): soft and slow`,
  octave: (value) => (value === '' ? 'the octave of the lowest note is not there' : `the octave of the lowest note is ${value} cents off`),
  stretch: (value, limit) => `fingers ${value} apart (${limit} is easy)`,
  crowded: (value, limit) => `fingers ${value} apart, which is near (${limit} is easy)`,
  smallest_hole: (value, limit) => `a small hole (${value} of the bore; below ${limit} notes are veiled)`,
  largest_hole: (value, limit) => `a hole of ${value} (a pad covers ${limit})`,
  evenness: (value) => `holes of uneven sizes (the widest ${value} times the narrowest)`,
  breath: (value, limit) => (Number(value) > Number(limit) ? `a hard breath (about ${value} Pa)` : `a very gentle breath (about ${value} Pa)`),
};
const LENGTHS = new Set(['room_to_trim', 'stretch', 'crowded', 'largest_hole']);
/** @param {string} code @param {number | null} value @param {State} s @param {Engine} engine */
function figure(code, value, s, engine) {
  if (value === null) return '';
  if (LENGTHS.has(code)) return lengthWords(value, s, engine);
  return code === 'breath' || code === 'octave' || code === 'lowest_quality' ? String(Math.round(value))
    : String(Math.round(value * 100) / 100);
}

/** @param {SuitsChoice} choice @param {State} s @param {Engine} engine */
export function choiceWords(choice, s, engine) {
  const against = choice.reasons.filter(({ ok, code }) => !ok && Object.hasOwn(AGAINST, code))
    .map(({ code, value, limit }) => AGAINST[code](figure(code, value, s, engine), figure(code, limit, s, engine)));
  const long = `${lengthWords(choice.layout.foot_mm, s, engine)} from sound hole to foot.`;
  return against.length === 0 ? `${scoreWords(choice.score)}: nothing speaks against it. ${long}`
    : `${scoreWords(choice.score)}, but ${listed(against)}. ${long}`;
}

/** What is said first. @param {SuitsAnswer} answer */
export function verdictWords({ choices, worth, carries, reaches }) {
  if (reaches === null) return 'This tube gives no note by itself: look at its sizes on Cane.';
  if (choices.length === 0) return `It reaches ${noteName(reaches.lowest)}, but carries no scale with your bits and hands. `
    + 'Without finger holes it is still a flute of overtones; or keep it for a shorter, higher one.';
  const count = `It carries ${carries === 1 ? 'one' : carries} of those tried.`;
  return worth ? count : `${count} None is good: it is hardly worth the work; another tube would be.`;
}

/** @param {NonNullable<SuitsAnswer['look_for']>} look @param {State} s @param {Engine} engine */
export function lookForWords(look, s, engine) {
  /** @param {MinMax} span */
  const span = ({ min, max }) => `${inUnit(min, s, engine)} to ${lengthWords(max, s, engine)}`;
  return `For the lowest note on Song, look for a tube with a bore of ${span(look.bore_mm)}, a wall of ${span(look.wall_mm)}, and `
    + `${span(look.length_mm)} below the node (the wider the bore, the shorter); above it ${lengthWords(look.above_mm, s, engine)} or more.`;
}

/** The mend, as on a button. @param {Mend} mend @param {State} s @param {Engine} engine */
export function mendName({ code, amount_mm: mm, lowest, holes }, s, engine) {
  const size = mm === undefined ? '' : lengthWords(mm, s, engine);
  switch (code) {
    case 'wider_spacing': return `Let fingers lie ${size} apart`;
    case 'closer_spacing': return `Let fingers lie as near as ${size}`;
    case 'larger_holes': return `Let holes be as wide as ${size}`;
    case 'smaller_holes': return `Let holes be as narrow as ${size}`;
    case 'one_more_bit': return `A bit of ${size} more`;
    case 'higher_lowest': return `Take ${noteName(lowest)} for the lowest note`;
    default: return `Take ${countWord(holes ?? 0)} holes`;
  }
}
/** @param {Mend} mend */
export function mendGain({ worst_cents: worst, gains_cents: gains, in_tune: fine }) {
  if (worst === null) return '';
  if (fine) return worst < 0.5 ? 'all in tune' : `all in tune, ${Math.round(worst * 10) / 10} cents at most`;
  return gains === null ? `then ${Math.round(worst)} cents at most` : `${Math.round(gains)} cents better, ${Math.round(worst)} still off`;
}
export const taken = (/** @type {string} */ name) => `Taken: ${name}.`;
export const FAILED = 'That could not be reckoned. Open it again to try once more.';
export const NOTHING = 'No single change would do.';

export const DRILLS = 'Tick the drills you own';
export const DRILLS_LEAD = 'As they are sold: halves of a millimetre, 64ths of an inch, numbers and letters. Marks and paper name each as '
  + 'it is called here. Other sizes, and a hot rod as wide as it burns, go into the line above.';
/** @param {number} count */
export const drillCount = (count) => (count === 0 ? 'None ticked: any size may be asked for.' : `${count} on the bench.`);
/** @param {string} name */
export const setName = (name) => ({ metric: 'Millimetres', 'inch fractions': 'Inches', numbers: 'Numbers', letters: 'Letters' })[name] ?? name;

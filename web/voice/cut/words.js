// web/voice/cut/words.js: the voice as it is cut, and what a little more of each size does.

/// <reference path="../types.d.ts" />
import { INCH_MM, unitOf } from '../../state/desk.js';
import { centsWords } from '../../text/numbers.js';
import { lower, partName, ruleOf, sizeWords } from '../../text/parts.js';

// As it is cut.
export const AS_CUT = 'As it is cut';
export const AS_CUT_LEAD = 'What you see is enough to begin with; what you measure narrows the bands of all '
  + 'notes.';
export const NOT_SAID = 'not said';
export const NONE = 'none';
export const MEASURED = 'measured';
export const RAMP = 'Ramp';
export const RAMP_SHORT = 'short';
export const RAMP_LONG = 'long';
export const BLOCK = 'Block';
export const THERE = 'there';
export const SIDE_WALLS = 'Side walls';
export const WALLS_LOW = 'low';
export const WALLS_HIGH = 'high';
/** The step that the maker's ruler has. @param {State} s @returns {[string, number]} words, and mm */
export const ruled = (s) => (unitOf(s) === 'inch' ? ['1/32 in', INCH_MM / 32] : ['1 mm', 1]);
/** @param {number} cents */
const change = (cents) => (Math.abs(cents) < 0.05 ? 'nothing'
  : `${centsWords(cents)} ${cents < 0 ? 'flatter' : 'sharper'}`);

/** What is taken for what is not measured, why so, and what more of it does. @param {CutPart} part
 * @param {Proposal | undefined} one what a maker might begin with @param {State} s @param {Engine} engine */
export function partWorth({ path, mm, known, cents_per_mm: slope }, one, s, engine) {
  const [step, size] = ruled(s);
  const none = path === 'block.front_mm' ? 'flush' : 'none';
  const why = one === undefined || mm === null ? ''
    : one.mm.toFixed(2) === mm.toFixed(2) ? `: ${ruleOf(one)}` : `; begin `
      + `with ${sizeWords(path, one.mm, s, engine)}: ${ruleOf(one)}`;
  const as = known === 'measured' || mm === null || (mm === 0 && known === 'seen') ? ''
    : `Reckoned as ${mm === 0 ? none : sizeWords(path, mm, s, engine)}${why}.`;
  return `${as}${slope === null ? '' : ` ${step} more: ${change(slope * size)}.`}`.trim();
}
/** @param {CutPart} front the block's @param {State} s */
export function slideWords({ back_1_mm_cents: back, over_1_mm_cents: over }, s) {
  const [step, size] = ruled(s);
  const words = [[back, 'back'], [over, 'over the hole']].flatMap(([cents,
    way]) => (typeof cents !== 'number' ? []
    : [`${step} ${way} is ${change(cents * size)}`]));
  return words.length === 0 ? '' : `Sliding the block tunes, and can be undone: ${words.join(', ')}.`;
}

// What a little more of each size does.
/** @param {string} path */
export const worthName = (path) => (path === 'block.front_mm' ? 'Front of the block, further back' : partName(path));
/** @param {string} step */
export const WORTH = (step) => `What ${step} more does`;
export const FLATTER = '← flatter';
export const SHARPER = 'sharper →';
/** @param {number} cents */
export const worthCents = (cents) => (Math.abs(cents) < 0.05 ? '0' : `${cents < 0 ? '−' : '+'}${Math.abs(cents).toFixed(1)} ¢`);
/** @param {{path: string, cents: number}[]} parts the largest first @param {string} step */
export function worthWords(parts, step) {
  const [most] = parts;
  const little = parts.filter(({ cents }) => Math.abs(cents) < 1);
  const which = little.map(({ path }) => lower(worthName(path))).join('; ');
  return `The ${lower(worthName(most.path))} counts most: with ${step} more the lowest note is ${change(most.cents)}.${
    little.length === 0 ? '' : ` Less than a cent: ${which}.`}`;
}

// web/text/rescue.js: ways to bring a note to its place, each with its amounts and what it costs. The bench and the
// shelf say them.

import { centsWords, lengthWords } from './numbers.js';
import { bare } from './sure.js';

/** In words; `size` is the label of what to measure after, `act` stands on its button where it is not a cut.
 * @typedef {{name: string, how: string, size?: string, act?: string}} Way */
/** Its amounts: lengths in mm, the pitch as it is written.
 * @typedef {{number: number, size: number, long: number, hz: string}} WayAt */

/** @param {string} text */
const capital = (text) => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

export const FOOT_NOW_AT = 'Foot now at', HOLE_NOW_WIDE = 'Hole now wide';

// The ways out of trouble: what each is, how, and what to measure after. `mm` writes a length.
/** @type {Record<string, (at: WayAt, mm: (mm: number) => string) => Way>} */
const WAYS = {
  read_again: () => ({ name: 'Warm it and read again',
    how: 'Blow it warm, look at the block and its tie, then make three attempts anew.', act: 'Read it again' }),
  foot_disc: ({ size }, mm) => ({ name: `A disc in the foot, opening ${mm(size)}`, how: `Cut a disc of cork or cane, ${
    mm(5)} thick, with an opening of ${mm(size)}, and press it into the foot.`, size: 'Opening made' }),
  foot_sleeve: ({ long }, mm) => ({ name: `A sleeve on the foot, ${mm(long)} longer`,
    how: `Slip a ring of the same bore over the end, so that the tube grows by ${mm(long)}. Seal it.`,
    size: FOOT_NOW_AT }),
  lowest_floats: ({ hz }) => ({ name: 'Let the lowest note float',
    how: `Nothing to cut: the scale stays, and stands on what the tube gives, ${hz} Hz.`, act: 'Let it float' }),
  next_key: ({ hz }) => ({ name: 'Build the next key up',
    how: `No hole is cut yet: the flute can still become one on ${hz} Hz. The marks follow.`, act: 'Take that key' }),
  narrow: ({ number, size }, mm) => ({ name: `Narrow hole ${number} to ${mm(size)}`,
    how: `Line it with wax down to ${mm(size)} (later with glue and dust), then open it by ear again.`,
    size: HOLE_NOW_WIDE }),
  one_side: ({ number, size, long }, mm) => ({ name: `Move hole ${number} ${mm(long)} towards the foot`,
    how: 'Fill its side towards the sound hole and open its side towards the foot, until its middle lies '
      + `${mm(long)} further down and it is ${mm(size)} wide again.`, size: HOLE_NOW_WIDE }),
  shade_sound_hole: ({ size, long }, mm) => ({ name: 'Shade the sound hole',
    how: `Stick a strip ${mm(long)} wide over its far end, so that ${mm(size)} stay open.`,
    size: 'Still open, along the tube' }),
  lay_out_anew: () => ({ name: 'Go on: nothing is lost',
    how: 'No hole is cut yet, and the marks already follow this voice.', act: 'Go on' }),
  breathe_evenly: () => ({ name: 'Blow evenly',
    how: 'The plan carries the lift of your breath. Blow the high notes no harder than now.', act: 'Go on' }),
  widen: ({ number, size }, mm) => ({ name: `Open hole ${number} to ${mm(size)}`,
    how: 'A little at a time; the last of it by ear.', size: HOLE_NOW_WIDE }),
  shorten: ({ long }, mm) => ({ name: `Take ${mm(long)} off the foot`, how: 'Saw less and sand the rest, by ear.',
    size: FOOT_NOW_AT }),
  accept: () => ({ name: 'Leave it', how: 'Nothing to cut. What counts as in tune grows until this note does; Song has '
    + 'it under ‘In tune within’.', act: 'Leave it' }),
};
/** @param {number} cents @param {string} [sure] "± 4" */
const lowersBy = (cents, sure = '') => `lowers it by ${centsWords(cents)}${sure}`;
/** @param {number} cents @param {string} [sure] */
const raisesBy = (cents, sure = '') => `raises it by ${centsWords(cents)}${sure}`;
const leavesSharp = (/** @type {number} */ cents) => `leaves a note ${centsWords(cents)} sharp`;
const leavesFlat = (/** @type {number} */ cents) => `leaves it ${centsWords(cents)} flat`;
const REVERSIBLE = 'can be taken back', FOR_GOOD = 'cannot be taken back';
const costOf = (/** @type {string[]} */ parts) => `${capital(parts.join('; '))}.`;

/** @param {RescueOption} option @param {State} s @param {Engine} engine
 * @returns {Way & {cost: string}} */
export function rescueWords(option, s, engine) {
  const { what, number = 0, size_mm: size = 0, length_mm: long = 0, target_hz: hz = 0 } = option;
  const { costs_cents: costs, shift_cents: shift } = option;
  const way = Object.hasOwn(WAYS, what) ? WAYS[what]({ number, size, long, hz: hz.toFixed(1) },
    (mm) => lengthWords(mm, s, engine)) : { name: what.replaceAll('_', ' '), how: '' };
  const sure = (option.sigma_cents ?? 0) >= 0.5 ? ` ± ${bare(option.sigma_cents ?? 0)}` : '';
  const parts = [
    typeof shift === 'number' && Math.abs(shift) >= 0.5 ? (shift < 0 ? lowersBy : raisesBy)(shift, sure) : '',
    typeof costs === 'number' && costs >= 0.5
      ? (what === 'widen' || what === 'shorten' ? leavesFlat : leavesSharp)(costs) : '',
    option.reversible ? REVERSIBLE : FOR_GOOD,
  ].filter((part) => part !== '');
  return { ...way, cost: costOf(parts) };
}

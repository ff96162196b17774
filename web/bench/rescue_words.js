// web/bench/rescue_words.js: the ways out of trouble, each with its amounts.

import { centsWords, lengthWords } from '../text/numbers.js';

/** @typedef {{name: string, how: string, size?: string}} Way  size: label of what to measure after */

/** @param {RescueOption} option @param {(mm: number) => string} length
 * @returns {Way} */
function way(option, length) {
  const { number = 0, size_mm: size = 0, length_mm: long = 0, target_hz: hz = 0 } = option;
  switch (option.what) {
    case 'read_again': return { name: 'Warm it and read again',
      how: 'Blow it warm, look at the block and its tie, then make three attempts anew.' };
    case 'foot_disc': return { name: `A disc in the foot, opening ${length(size)}`,
      how: `Cut a disc of cork or cane, ${length(5)} thick, with an opening of ${length(size)}, and press it into the foot.`,
      size: 'Opening made' };
    case 'foot_sleeve': return { name: `A sleeve on the foot, ${length(long)} longer`,
      how: `Slip a ring of the same bore over the end, so that the tube grows by ${length(long)}. Seal it.`,
      size: 'Foot now at' };
    case 'lowest_floats': return { name: 'Let the lowest note float',
      how: `Nothing to cut: the scale stays, and stands on what the tube gives, ${hz.toFixed(1)} Hz.` };
    case 'next_key': return { name: 'Build the next key up',
      how: `No hole is cut yet: the flute can still become one on ${hz.toFixed(1)} Hz. The marks follow.` };
    case 'narrow': return { name: `Narrow hole ${number} to ${length(size)}`,
      how: `Line it with wax down to ${length(size)} (later with glue and dust), then open it by ear again.`,
      size: 'Hole now wide' };
    case 'one_side': return { name: `Move hole ${number} ${length(long)} towards the foot`,
      how: `Fill its side towards the sound hole and open its side towards the foot, until its middle lies ${
        length(long)} further down and it is ${length(size)} wide again.`, size: 'Hole now wide' };
    case 'shade_sound_hole': return { name: 'Shade the sound hole',
      how: `Stick a strip ${length(long)} wide over its far end, so that ${length(size)} stay open.`,
      size: 'Still open, along the tube' };
    case 'lay_out_anew': return { name: 'Go on: nothing is lost',
      how: 'No hole is cut yet, and the marks already follow this voice.' };
    case 'breathe_evenly': return { name: 'Blow evenly',
      how: 'The plan carries the lift of your breath. Blow the high notes no harder than now.' };
    case 'accept': return { name: 'Leave it',
      how: 'Nothing to cut. What counts as in tune grows until this note does; Song has it under ‘In tune '
        + 'within’.' };
    default: return { name: option.what.replaceAll('_', ' '), how: '' };
  }
}

/** @param {RescueOption} option @param {State} s @param {Engine} engine
 * @returns {Way & {cost: string}} */
export function rescueWords(option, s, engine) {
  const { costs_cents: costs, shift_cents: shift } = option;
  const parts = [
    typeof shift === 'number' && Math.abs(shift) >= 0.5
      ? `${shift < 0 ? 'lowers' : 'raises'} it by ${centsWords(shift)}` : '',
    typeof costs === 'number' && costs >= 0.5 ? `leaves a note ${centsWords(costs)} sharp` : '',
    option.reversible ? 'can be taken back' : 'cannot be taken back',
  ].filter((part) => part !== '');
  const text = parts.join('; ');
  return { ...way(option, (mm) => lengthWords(mm, s, engine)),
    cost: `${text.charAt(0).toUpperCase()}${text.slice(1)}.` };
}

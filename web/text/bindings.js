// web/text/bindings.js: what holds a hole back, in a few words. The sentences are in limits.js.

import { steps } from '../state/path.js';
import { centsWords } from './numbers.js';

/** The number of the hole a path names, 1 nearest the sound hole; 0 for the foot.
 * @param {string} path */
export function holeOf(path) {
  const [list, index] = steps(path);
  return list === 'finger_holes' && typeof index === 'number' ? index + 1 : 0;
}

/** For the hole's own row. @param {Binding} binding */
export function bindingShort(binding) {
  /** @type {Record<string, string>} */
  const words = { spacing_min: 'spacing', spacing_max: 'reach', diameter_min: 'least size',
    diameter_max: 'largest size', bore_share: 'its bore', bits: 'your bits', edge: 'the next hole', sound_hole:
    'the sound hole', foot_clearance: 'the foot', tube_end: 'the tube’s end', fixed: 'being fixed',
    planned: 'its first plan' };
  const by = Object.hasOwn(words, binding.constraint) ? words[binding.constraint]
    : binding.constraint.replaceAll('_', ' ');
  return `held by ${by}${binding.costs_cents === null ? '' : `, ${centsWords(binding.costs_cents)}`}`;
}

// web/text/bindings.js: what holds the layout back, in a sentence, with what it costs.

import { steps } from '../state/path.js';
import { centsWords, lengthWords } from './numbers.js';

/** The number of the hole a path names, 1 nearest the sound hole; 0 for the foot.
 * @param {string} path */
export function holeOf(path) {
  const [list, index] = steps(path);
  return list === 'finger_holes' && typeof index === 'number' ? index + 1 : 0;
}

/** @param {Binding} binding @param {State} state @param {Engine} engine @returns {string} */
export function bindingSentence(binding, state, engine) {
  const { shop } = state.answer;
  const hole = holeOf(binding.path);
  const it = hole > 0 ? `Hole ${hole}` : binding.path === 'foot_mm' ? 'The foot'
    : 'One hole or another';
  const cents = binding.costs_cents ?? 0;
  /** @param {number | undefined} mm */
  const words = (mm) => (mm === undefined ? 'the limit' : lengthWords(mm, state, engine));
  /** @type {Record<string, string>} */
  const reasons = {
    spacing_min: `${it} may come no nearer to its neighbour than ${words(shop?.spacing_mm?.min)}`,
    spacing_max: `${it} may lie no farther from its neighbour than ${words(shop?.spacing_mm?.max)}`,
    diameter_min: `${it} may be no smaller than ${words(shop?.diameter_mm?.min)}`,
    diameter_max: `${it} may be no larger than ${words(shop?.diameter_mm?.max)}`,
    bits: `${it} takes the nearest of your bits`,
    edge: `${it} would run into its neighbour’s edge`,
    sound_hole: `${it} must keep clear of the sound hole`,
    foot_clearance: `${it} must keep clear of the foot`,
    tube_end: 'The tube ends before the foot’s mark',
    fixed: `${it} is held where it is`,
    planned: `${it} stays near its first plan, for the readings ask for no more than that`,
    fingerings: 'These fingerings cannot give these notes on this tube',
  };
  const reason = Object.hasOwn(reasons, binding.constraint) ? reasons[binding.constraint]
    : `${it} is held by ${binding.constraint.replaceAll('_', ' ')}`;
  if (binding.constraint === 'fingerings') return `${reason}.`;
  const cost = cents < 0.5 ? 'next to nothing lost' : `costs ${centsWords(cents)}`;
  // Dropping one of several alone would help little.
  return `${reason}: ${cost}${binding.together ? ', with the other limits' : ''}.`;
}

/** The same in a few words, for the hole's own row. @param {Binding} binding */
export function bindingShort(binding) {
  /** @type {Record<string, string>} */
  const words = { spacing_min: 'spacing', spacing_max: 'reach', diameter_min: 'least size',
    diameter_max: 'largest size', bits: 'your bits', edge: 'the next hole', sound_hole:
    'the sound hole', foot_clearance: 'the foot', tube_end: 'the tube’s end', fixed: 'being fixed',
    planned: 'its first plan' };
  const by = Object.hasOwn(words, binding.constraint) ? words[binding.constraint]
    : binding.constraint.replaceAll('_', ' ');
  return `held by ${by}, ${centsWords(binding.costs_cents ?? 0)}`;
}

// web/text/limits.js: what holds the layout back, in a sentence: which limit, what it costs, and which entry
// changes it. Loaded where something does.

import { holeOf } from './bindings.js';
import { centsWords, lengthWords } from './numbers.js';

/** Of the maker's own sizes and bits, the one that limits. @param {Doc['shop']} shop */
const most = (shop) => lesser(Math.min, shop?.diameter_mm?.max, shop?.bits);
/** @param {Doc['shop']} shop */
const least = (shop) => lesser(Math.max, shop?.diameter_mm?.min, shop?.bits);
/** Among the ends of both. @param {typeof Math.min} pick @param {number | undefined} mm @param {Bit[] | undefined} bits */
function lesser(pick, mm, bits) {
  const sizes = (bits ?? []).map((bit) => bit.mm);
  const end = sizes.length === 0 ? [] : [pick === Math.min ? Math.max(...sizes) : Math.min(...sizes)];
  const all = [...(mm === undefined ? [] : [mm]), ...end];
  return all.length === 0 ? undefined : pick(...all);
}

/** The entry that a limit can be changed with; '' where none is. @param {Binding} binding @param {State} state */
export function entryOf({ constraint }, { answer }) {
  /** @type {Record<string, string>} */
  const paths = { spacing_min: 'shop.spacing_mm.min', spacing_max: 'shop.spacing_mm.max',
    diameter_min: 'shop.diameter_mm.min', diameter_max: 'shop.diameter_mm.max', bits: 'shop.bits',
    tube_end: answer.song.lowest === 'free' ? '' : 'song.lowest', fingerings: 'song.fingerings' };
  return Object.hasOwn(paths, constraint) ? paths[constraint] : '';
}

/** @param {Binding} binding @param {State} state @param {Engine} engine @returns {string} */
export function bindingSentence(binding, state, engine) {
  const { shop, finger_holes: holes, tube } = state.answer;
  const hole = holeOf(binding.path);
  const it = hole > 0 ? `Hole ${hole}` : binding.path === 'foot_mm' ? 'The foot'
    : 'One hole or another';
  const own = holes?.[hole - 1]?.diameter_mm;  // a hole that is held by its bore is as wide as that allows
  const wide = own === undefined || own > 0.4 * tube.bore[0].diameter_mm;
  const cents = binding.costs_cents;
  /** @param {number | undefined} mm */
  const words = (mm) => (mm === undefined ? 'the limit' : lengthWords(mm, state, engine));
  /** @type {Record<string, string>} */
  const reasons = {
    spacing_min: `${it} may come no nearer to its neighbour than ${words(shop?.spacing_mm?.min)}`,
    spacing_max: `${it} may lie no farther from its neighbour than ${words(shop?.spacing_mm?.max)}`,
    diameter_min: `${it} may be no smaller than ${words(least(shop))}`,
    diameter_max: `${it} may be no larger than ${words(most(shop))}`,
    bore_share: `${it} may be no ${wide ? 'larger' : 'smaller'} than ${words(own)}, the ${wide ? 'largest' : 'least'
    } share of its bore that was checked`,
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
  if (cents === null) return `${reason}.`;  // what it costs was not reckoned
  const cost = cents < 0.5 ? 'next to nothing lost' : `costs ${centsWords(cents)}`;
  // Dropping one of several alone would help little.
  return `${reason}: ${cost}${binding.together ? ', with the other limits' : ''}.`;
}

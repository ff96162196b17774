// web/text/sure.js: sentences on how sure the notes are, and what would make them surer.

import { centsWords, noteName } from './numbers.js';

/** "± 9 cents": whole, but for less than two. @param {number | null | undefined} sigma */
export function band(sigma) {
  if (typeof sigma !== 'number') return '';
  return `± ${bare(sigma)} ${bare(sigma) === '1' ? 'cent' : 'cents'}`;
}

/** @param {number} sigma */
export const bare = (sigma) => (sigma < 1.95 ? String(Math.round(sigma * 10) / 10)
  : String(Math.round(sigma)));

/** What to do about each cause, in the maker's hands.
 * @type {Record<string, (hole: number) => string>} */
const DO = {
  place: (hole) => `Mark hole ${hole} with the most care`,
  foot: () => 'Saw the foot with the most care',
  diameter: (hole) => `Take the most care with the size of hole ${hole}`,
  wall: () => 'Measure the wall once more',
  bore: () => 'Measure the bore once more',
  taper: () => 'Measure the bore at both ends once more',
  sound_hole_length: () => 'Measure the sound hole’s length once more',
  sound_hole_width: () => 'Measure the sound hole’s width once more',
  temperature: () => 'Read the room’s temperature once more',
};

/** @type {Record<string, (hole: number) => string>} */
const NAMES = {
  place: (hole) => `place of hole ${hole}`,
  foot: () => 'place of the foot',
  diameter: (hole) => `size of hole ${hole}`,
  wall: () => 'wall',
  bore: () => 'bore',
  taper: () => 'taper of the bore',
  sound_hole_length: () => 'sound hole’s length',
  sound_hole_width: () => 'sound hole’s width',
  temperature: () => 'room’s temperature',
  voice: () => 'voice: edge, block and ramp',
  breath_share: () => 'warmth of the air inside',
  breath: () => 'breath',
  hole_size: () => 'edges of the holes',
  each_note: () => 'each note by itself',
};

/** @param {Cause} cause */
export const causeName = ({ cause, hole }) => (Object.hasOwn(NAMES, cause) ? NAMES[cause](hole ?? 0)
  : cause.replaceAll('_', ' '));

/** The one thing most worth doing, and what it is worth. @param {Spread} sure */
export function worthRepeating({ worth_repeating: worst, notes }) {
  const known = notes.filter((note) => note.sigma_cents !== null);
  if (known.length === 0) return '';
  if (worst === null) return 'Nothing you measure is worth repeating: what is left is the voice.';
  const all = meanSquare(known.map((note) => note.sigma_cents ?? 0));
  const shop = meanSquare(known.map((note) => note.shop_cents ?? 0));
  const rest = Math.sqrt(Math.max(0, shop - worst.share * all));
  const act = Object.hasOwn(DO, worst.cause) ? DO[worst.cause](worst.hole ?? 0)
    : `Measure once more: ${causeName(worst)}`;
  return `${act}: it alone puts the notes off by ± ${centsWords(worst.cents)}. Without that, the `
    + `shop’s ± ${oneDecimal(Math.sqrt(shop))} would be ± ${oneDecimal(rest)}.`;
}

/** @param {number[]} values */
const meanSquare = (values) => values.reduce((sum, v) => sum + v * v, 0) / values.length;

/** @param {number} cents */
const oneDecimal = (cents) => (Math.round(cents * 10) / 10).toFixed(1);

/** @param {number} share */
function ofTen(share) {
  const count = Math.round(share * 10);
  return { all: share > 0.95, none: count === 0, words: count === 10 ? '9 of 10' : `${count} of 10` };
}

/** "7 of 10 flutes made so have every note within 10 cents." @param {Shares} within
 * @param {Shares} [shop] the same, were the voice known */
export function flutesWithin(within, shop) {
  const { all, none, words } = ofTen(within['10']);
  const how = all ? 'Nearly every flute made so has' : none ? 'Hardly a flute made so has'
    : `${words} flutes made so ${words.startsWith('1 ') ? 'has' : 'have'}`;
  const then = shop === undefined || all ? null : ofTen(shop['10']);
  const better = then === null || shop === undefined || shop['10'] - within['10'] < 0.05 ? ''
    : `; once the voice is known, ${then.all ? 'nearly every one' : then.none ? 'still hardly one'
      : then.words}`;
  return `${how} every note within 10 cents${better}.`;
}

/** @param {string | null | undefined} name @param {number[]} open */
export const noteOrFingering = (name, open) => noteName(name)
  || (open.length === 0 ? 'all covered' : `${open.map(String).join(', ')} open`);

// web/song/shop/words.js: hands and bits.

export const HANDS = 'Hands';
export const PER_HAND = 'Holes per hand';
export const NOT_SAID = 'not said';
export const ONE_HAND = 'all one hand';
/** @param {number} upper @param {number} lower */
export const twoHands = (upper, lower) => `${upper} upper, ${lower} lower`;
export const APART_LEAST = { label: 'Apart, at least', full: 'Holes apart, at least',
  note: 'centre to centre' };
export const APART_MOST = { label: 'Apart, at most', full: 'Holes apart, at most',
  note: 'within one hand' };
export const BITS = 'Bits';
export const WHICH = 'Which diameters';
export const ONLY_MINE = 'Only my bits';
export const ANY = 'Any diameter';
export const MY_BITS = { label: 'My bits', note: 'a comma and a space between' };
export const HOLE_LEAST = 'Hole, at least';
export const HOLE_MOST = 'Hole, at most';

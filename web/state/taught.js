// web/state/taught.js: what the tube in hand starts from: one flute's pattern, or what several of the maker's taught
// (a hand). A hand is never lost: where a pattern takes its place it is put aside, and comes back.

import { isObject } from './keep.js';

/** @typedef {Pick<State, 'doc' | 'aside'>} InHand */

/** Whether it is several flutes' teaching, not one flute's pattern. @param {any} pattern */
export const isHand = (pattern) => isObject(pattern) && 'between' in pattern;

/** Of several flutes, also while one flute's pattern has its place. @param {InHand} s @returns {any} */
export const handOf = ({ doc, aside }) => (isHand(doc.pattern) ? doc.pattern : aside.hand);

/** One flute's pattern in the place of what there is; its marks are not shown. @param {InHand} s
 * @param {unknown} pattern @returns {InHand} */
export function withPattern(s, pattern) {
  const { pattern: _, ...aside } = s.aside;
  const hand = handOf(s);
  return { doc: { ...s.doc, pattern }, aside: { ...aside, ...(hand === undefined ? {} : { hand }) } };
}

/** The hand in its place again, where there is one; else nothing. @param {InHand} s @returns {InHand} */
export function withHand(s) {
  const { pattern: _, ...doc } = s.doc;
  const { pattern: _marks, hand: _hand, ...aside } = s.aside;
  const hand = handOf(s);
  return { doc: hand === undefined ? doc : { ...doc, pattern: hand }, aside };
}

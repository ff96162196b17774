// web/widgets/cannot.js: what is wrong with a song that cannot be had, what would do, and one tap to it.

import { h } from './dom.js';
import { withValue } from '../state/path.js';
import { LET_IT_FLOAT, takeLowest, unmetWords } from '../text/unmet.js';

/** @param {State} s @param {Desk} desk @returns {Node[]} */
export function cannot(s, desk) {
  const { wrong, would, lowest, floats } = unmetWords(s, desk.engine);
  /** @param {string} words @param {string} to */
  const take = (words, to) => h('button', { type: 'button', class: 'inline',
    onclick: () => desk.edit((now) => ({ doc: withValue(now.doc, 'song.lowest', to) }), ['song.lowest']) }, words);
  return [h('p', {}, h('strong', {}, wrong)), h('p', {}, would),
    ...(lowest === null && !floats ? [] : [h('p', {}, ...(lowest === null ? [] : [take(takeLowest(lowest), lowest)]),
      ' ', ...(floats ? [take(LET_IT_FLOAT, 'free')] : []))])];
}

// web/widgets/cannot.js: what is wrong with a song that cannot be had, what would do, and one tap to it.

import { h } from './dom.js';
import { withValue } from '../state/path.js';
import { LET_IT_FLOAT, unmetWords } from '../text/unmet.js';

/** @param {State} s @param {Desk} desk @returns {Node[]} */
export function cannot(s, desk) {
  const { wrong, would, floats } = unmetWords(s, desk.engine);
  return [h('p', {}, h('strong', {}, wrong)), h('p', {}, would),
    ...(floats ? [h('p', {}, h('button', { type: 'button', class: 'inline', onclick: () => desk.edit((now) =>
      ({ doc: withValue(now.doc, 'song.lowest', 'free') }), ['song.lowest']) }, LET_IT_FLOAT))] : [])];
}

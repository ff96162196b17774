// web/marks/how_known.js: "How do you know?", loaded for whoever asks.

import { h, say } from '../widgets/dom.js';
import { KNOWN, unknown } from '../text/known.js';
import { warning } from '../text/verdict.js';
import { TAKE_CARE } from './words.js';

/** Warnings that are about the reckoning, not about the tube. */
const RANGE = ['sound_hole_outside_range', 'bore_outside_range', 'wall_thick'];

/** @param {Desk} desk @returns {Node[]} */
export function howKnown(desk) {
  const care = h('div');
  const open = h('p');
  let shown = '';
  desk.store.subscribe((s) => {
    say(open, unknown(s.sure));
    const outside = s.answer.cane.warnings.filter((code) => RANGE.includes(code));
    if (outside.join() === shown) return;
    shown = outside.join();
    care.replaceChildren(...outside.map((code) => h('p', {}, h('strong', {}, TAKE_CARE),
      warning(code))));
  });
  return [care, h('dl', {}, ...KNOWN.flatMap(([what, how]) => [h('dt', {}, what), h('dd', {}, how)])), open];
}

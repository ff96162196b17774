// web/cane/ridge.js: what a node knocked out badly has left in the bore. Loaded when opened.

import { h } from '../widgets/dom.js';
import { lengthField } from '../widgets/field.js';
import { OPENING, RIDGE_AT, RIDGE_NOTE, THICKNESS } from './words.js';

/** @param {Desk} desk @returns {Node[]} */
export function ridge(desk) {
  const lines = [
    lengthField(desk, 'tube.ridge.at_mm', { ...RIDGE_AT, optional: true, steps: false }),
    lengthField(desk, 'tube.ridge.opening_mm', { ...OPENING, optional: true }),
    lengthField(desk, 'tube.ridge.thickness_mm', { ...THICKNESS, optional: true, steps: false }),
  ];
  return [
    h('p', { class: 'note' }, RIDGE_NOTE),
    ...lines.map((line) => line.element),
  ];
}

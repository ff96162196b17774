// web/cane/ridge.js: what a node knocked out badly has left in the bore. Loaded when opened.

import { h } from '../widgets/dom.js';
import { lengthField } from '../widgets/field.js';

/** @param {Desk} desk @returns {Node[]} */
export function ridge(desk) {
  const lines = [
    lengthField(desk, 'tube.ridge.at_mm', { label: 'Ridge at', optional: true, steps: false,
      note: 'below the line' }),
    lengthField(desk, 'tube.ridge.opening_mm', { label: 'Its opening', full: 'Opening of the ridge',
      optional: true, note: 'the thickest drill shank that passes' }),
    lengthField(desk, 'tube.ridge.thickness_mm', { label: 'Its thickness', full: 'Thickness of the ridge',
      optional: true, steps: false, note: 'along the tube; 2 mm where not said' }),
  ];
  return [
    h('p', { class: 'note' }, 'A ring that stays in the bore flattens some notes more than others. '
      + 'Filing it away is best; what is left is reckoned with. Empty lines: no ridge.'),
    ...lines.map((line) => line.element),
  ];
}

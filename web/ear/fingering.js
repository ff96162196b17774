// web/ear/fingering.js: a fingering as it is held: the holes that are there, open or covered.

import { s } from '../widgets/dom.js';

const STEP = 20;

/** @param {number[]} open @param {number} holes planned @param {Map<number, unknown>} cut */
export function pattern(open, holes, cut) {
  return s('svg', { width: holes * STEP, height: 18, viewBox: `0 0 ${holes * STEP} 18`, class: 'pattern',
    'aria-hidden': 'true' },
  ...Array.from({ length: holes }, (_, i) => s('circle', { cx: i * STEP + 9, cy: 9,
    r: cut.has(i + 1) ? 7 : 1.5, class: open.includes(i + 1) ? 'ring' : 'dot' })));
}

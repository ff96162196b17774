// web/cane/measuring.js: ways to measure a tube, for whoever asks.

import { h } from '../widgets/dom.js';
import { HOW_TO_MEASURE } from '../text/measuring.js';

/** @returns {Node[]} */
export const measuring = () => [h('dl', {}, ...HOW_TO_MEASURE.flatMap(([what, how]) => [h('dt', {}, what),
  h('dd', {}, how)]))];

// web/guide/pictures.js: a small picture of each thing to measure: the tube, the tool, and what is measured
// between two arrows. Drawn here, in the page's own colours; said in words beside it.

import { s } from '../widgets/dom.js';
import { MOUTH } from './words.js';

/** @param {...Node} parts */
const picture = (...parts) => s('svg', { viewBox: '0 0 320 140', class: 'guide-picture', 'aria-hidden': 'true',
  focusable: 'false' }, ...parts);
/** @param {string} kind @param {string} d */
const path = (kind, d) => s('path', { class: kind, d });
/** @param {number} x @param {number} y @param {number} width @param {number} height @param {string} [kind] */
const box = (x, y, width, height, kind = 'cane') => s('rect', { class: kind, x, y, width, height });
/** @param {number} x @param {number} y @param {string} text */
const word = (x, y, text) => s('text', { x, y, class: 'word' }, text);
/** @param {number} x @param {number} y */
const mouth = (x, y) => word(x, y, `← ${MOUTH}`);

const HEAD = 7;  // of an arrow

/** Between two points, on a level or upright. @param {number} x1 @param {number} y1 @param {number} x2 @param {number} y2 */
function arrow(x1, y1, x2, y2) {
  const level = y1 === y2;
  /** @param {number} x @param {number} y @param {number} way */
  const head = (x, y, way) => (level ? `M${x + way * HEAD} ${y - HEAD}L${x} ${y}l${way * HEAD} ${HEAD}`
    : `M${x - HEAD} ${y + way * HEAD}L${x} ${y}l${HEAD} ${way * HEAD}`);
  return path('size', `M${x1} ${y1}L${x2} ${y2}${head(x1, y1, 1)}${head(x2, y2, -1)}`);
}

/** Two arrows that point at each other across something thin. @param {number} x @param {number} top
 * @param {number} bottom */
const pinch = (x, top, bottom) => path('size', `M${x} ${top - 22}V${top}m${-HEAD} ${-HEAD}l${HEAD} ${HEAD}l${HEAD} ${-HEAD}`
  + `M${x} ${bottom + 22}V${bottom}m${-HEAD} ${HEAD}l${HEAD} ${-HEAD}l${HEAD} ${HEAD}`);

/** A tube cut open along its middle, its open end to the right. */
const opened = () => [box(20, 24, 200, 18), box(20, 98, 200, 18), path('axis', 'M14 70H232')];

export const ruler = () => picture(box(20, 30, 280, 80, 'tool'),
  path('fine', Array.from({ length: 53 }, (_, i) => `M${30 + i * 5} 30v${i % 10 === 0 ? 24 : i % 5 === 0 ? 18 : 11}`).join('')),
  path('fine', Array.from({ length: 33 }, (_, i) => `M${30 + i * 8} 110v${-(i % 16 === 0 ? 26 : i % 8 === 0 ? 20
    : i % 4 === 0 ? 15 : 9)}`).join('')), word(268, 68, 'mm'), word(272, 84, 'in'));

/** Inside jaws that spread against the bore. */
export const bore = () => picture(...opened(), box(252, 8, 20, 124, 'tool'),
  path('tool', 'M252 42H176l-10 4 10 8h76zM252 98H176l-10-4 10-8h76z'), arrow(110, 42, 110, 98));

/** Jaws over the cut edge. */
export const wall = () => picture(...opened(), box(252, 2, 20, 80, 'tool'),
  path('tool', 'M252 4h-72l-8 20h14l6-8h60zM252 62h-72l-8-20h14l6 8h60z'), pinch(110, 24, 42));

/** Jaws round the tube. */
export const outside = () => picture(box(20, 40, 200, 60), path('axis', 'M14 70H232'), box(252, 4, 20, 132, 'tool'),
  path('tool', 'M252 12h-90l-10 28h14l10-14h76zM252 128h-90l-10-28h14l10 14h76z'), arrow(90, 40, 90, 100));

/** The line round the tube, and the ruler's way from it. */
export const end = () => picture(box(10, 34, 300, 44), box(92, 48, 16, 16, 'cut'), path('line-round', 'M92 28V84'),
  arrow(92, 104, 310, 104), path('fine', 'M92 90v26M310 84v32'), mouth(12, 22));

/** The sound hole from above. @param {Node[]} sizes */
const above = (...sizes) => picture(box(10, 22, 300, 92), box(110, 46, 76, 44, 'cut'), path('line-round', 'M110 14V122'),
  ...sizes, mouth(14, 40));
export const holeLength = () => above(arrow(110, 104, 186, 104), path('fine', 'M186 90v22'));
export const holeWidth = () => above(arrow(204, 46, 204, 90), path('fine', 'M186 46h26M186 90h26'));

/** The plug in the tube cut open, the line and the sound hole over it. */
export const plug = () => picture(box(10, 24, 130, 16), box(204, 24, 106, 16), box(10, 100, 300, 16),
  box(34, 40, 70, 60, 'wood'), path('line-round', 'M140 12V128'), arrow(104, 70, 140, 70), mouth(14, 17));

/** Every hole covered, and the saw at the foot. */
export const lowest = () => picture(box(10, 40, 262, 44), box(40, 54, 14, 16, 'cut'),
  ...[110, 140, 170, 200, 230].map((x) => s('circle', { class: 'covered', cx: x, cy: 62, r: 7 })),
  path('line-round', 'M272 30V96'), path('tool', 'M262 100h20v8l-4 5-3-5-4 5-3-5-3 5-3-5z'),
  s('ellipse', { class: 'tone', cx: 150, cy: 124, rx: 9, ry: 6.5, transform: 'rotate(-20 150 124)' }),
  path('tone', 'M158.5 121V96'));

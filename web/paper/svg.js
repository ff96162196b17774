// web/paper/svg.js: a sheet as an SVG of its true size. Nothing depends on a style sheet.

import { s } from '../widgets/dom.js';
import { CAPS_APART, DASHES, PENS, SHEET, widthOf } from './sheet.js';

const SANS = 'Helvetica, Arial, "Liberation Sans", sans-serif';
const SERIF = 'Palatino, "Iowan Old Style", Georgia, "Times New Roman", serif';

/** @param {import('./sheet.js').Sheet} sheet @returns {SVGSVGElement} */
export function svgOf({ label, parts }) {
  const { width, height } = SHEET;
  return s('svg', { width: `${width}mm`, height: `${height}mm`, viewBox: `0 0 ${width} ${height}`,
    class: 'sheet', role: 'img', 'aria-label': label, fill: 'none', stroke: '#000' },
  ...parts.map(element));
}

/** @param {import('./sheet.js').Part} part @returns {SVGElement} */
function element(part) {
  if (part.is === 'line') {
    const { x1, y1, x2, y2, pen } = part;
    return s('line', { x1, y1, x2, y2, ...stroke(pen) });
  }
  if (part.is === 'circle') {
    const { x, y, r, pen, filled } = part;
    return s('circle', { cx: x, cy: y, r, fill: filled ? '#000' : null, ...stroke(pen) });
  }
  if (part.is === 'block') {
    const { x, y, width, height } = part;
    // Neighbouring blocks must not let the paper through where the screen's grid splits them.
    return s('rect', { x, y, width, height, fill: '#000', stroke: 'none',
      'shape-rendering': 'crispEdges' });
  }
  const { text, x, y, size, anchor, bold, serif, caps, turned, own } = part;
  return s('text', { x, y, 'font-size': size, 'font-family': serif ? SERIF : SANS,
    'font-weight': bold ? 700 : null, 'text-anchor': anchor === 'start' ? null : anchor,
    'letter-spacing': caps ? size * CAPS_APART : null, fill: '#000', stroke: 'none',
    // Where the reader's sans-serif is wider than the one reckoned with, it is set closer; names of
    // any script keep their own width.
    textLength: own || serif || text.length < 3 ? null : widthOf(text, size, part),
    lengthAdjust: own || serif ? null : 'spacingAndGlyphs',
    transform: turned ? `rotate(-90 ${x} ${y})` : null }, text);
}

/** @param {import('./sheet.js').Pen} pen */
const stroke = (pen) => ({ 'stroke-width': PENS[pen],
  'stroke-dasharray': pen === 'dash' || pen === 'chain' ? DASHES[pen].join(' ') : null });

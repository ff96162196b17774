// web/widgets/qr.js: a text as a QR code, black on white whatever the scheme.

import { correction, generate } from 'lean-qr';
import { s } from './dom.js';

export const LARGEST_VERSION = 15;  // beyond it the modules get too fine for a phone across a bench
export const QUIET = 4;             // modules of white around it, as the standard asks (ISO/IEC 18004)

/** @param {string} text @returns {{size: number, get(x: number, y: number): boolean} | null} null: too long */
export function code(text) {
  try {
    return generate(text, { minCorrectionLevel: correction.M, maxCorrectionLevel: correction.M,
      maxVersion: LARGEST_VERSION });
  } catch {
    return null;
  }
}

/** @param {string} text @returns {SVGSVGElement | null} null: too long */
export function qr(text) {
  const drawn = code(text);
  if (drawn === null) return null;
  let path = '';
  for (let y = 0; y < drawn.size; y += 1) {
    for (let x = 0; x < drawn.size; x += 1) {
      if (!drawn.get(x, y)) continue;
      let end = x + 1;
      while (end < drawn.size && drawn.get(end, y)) end += 1;
      path += `M${x} ${y}h${end - x}v1h-${end - x}z`;
      x = end;
    }
  }
  const side = drawn.size + 2 * QUIET;
  return s('svg', { class: 'qr', viewBox: `${-QUIET} ${-QUIET} ${side} ${side}`, role: 'img',
    'aria-label': 'QR code of the link', 'shape-rendering': 'crispEdges', 'data-modules': drawn.size },
  s('rect', { x: -QUIET, y: -QUIET, width: side, height: side, fill: '#fff' }),
  s('path', { d: path, fill: '#000' }));
}

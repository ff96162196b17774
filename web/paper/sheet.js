// web/paper/sheet.js: a sheet of paper as a list of parts, in mm from its upper left corner: what the
// two writers (svg.js, pdf.js) can draw, and the frame that every sheet has.

import { INCH_MM } from '../state/desk.js';
import { PRINT_AT_100, checkRules, sheetOf } from './words.js';

/** Common to A4 and Letter with margins of 10 mm: what is wider or higher would be shrunk without a
 * word by the browser's print dialogue. */
export const SHEET = { width: 190, height: 259 };
/** What the frame leaves free. */
export const BODY = { x: 0.5, y: 17, width: 176.5, height: 224 };

/** Line widths [mm]; 'dash' and 'chain' are broken. */
export const PENS = { hair: 0.1, fine: 0.16, line: 0.25, bold: 0.5, dash: 0.14, chain: 0.12 };
export const DASHES = { dash: [1.6, 1.1], chain: [5, 1, 0.8, 1] };

/**
 * @typedef {keyof typeof PENS} Pen
 * @typedef {{is: 'line', x1: number, y1: number, x2: number, y2: number, pen: Pen}} LinePart
 * @typedef {{is: 'circle', x: number, y: number, r: number, pen: Pen, filled?: boolean}} CirclePart
 * @typedef {{is: 'block', x: number, y: number, width: number, height: number}} BlockPart black
 * @typedef {'start' | 'middle' | 'end'} Anchor
 * @typedef {{is: 'text', text: string, x: number, y: number, size: number, anchor: Anchor,
 *   bold?: boolean, serif?: boolean, caps?: boolean, turned?: boolean, own?: boolean}} TextPart
 *   `size` of the type [mm], `turned` reads upwards, `own`: typed by the maker, as it is
 * @typedef {LinePart | CirclePart | BlockPart | TextPart} Part
 * @typedef {{label: string, parts: Part[]}} Sheet
 */

/** @param {number} x1 @param {number} y1 @param {number} x2 @param {number} y2 @param {Pen} [pen]
 * @returns {LinePart} */
export const line = (x1, y1, x2, y2, pen = 'fine') => ({ is: 'line', x1, y1, x2, y2, pen });

/** @param {number} x @param {number} y @param {number} r @param {Pen} [pen] @param {boolean} [filled]
 * @returns {CirclePart} */
export const circle = (x, y, r, pen = 'line', filled = false) => ({ is: 'circle', x, y, r, pen,
  filled });

/** @param {number} x1 @param {number} y1 @param {number} x2 @param {number} y2 @param {Pen} [pen]
 * @returns {LinePart[]} */
export const frameOf = (x1, y1, x2, y2, pen = 'fine') => [line(x1, y1, x2, y1, pen),
  line(x2, y1, x2, y2, pen), line(x2, y2, x1, y2, pen), line(x1, y2, x1, y1, pen)];

/** @param {string} words @param {number} x @param {number} y of the base line @param {number} size
 * @param {Partial<TextPart>} [more] @returns {TextPart} */
export const text = (words, x, y, size, more = {}) => ({ is: 'text', text: words, x, y, size,
  anchor: 'start', ...more });

/** Small capitals: set as capitals, smaller and apart. @param {string} words @param {number} x
 * @param {number} y @param {Partial<TextPart>} [more] @returns {TextPart} */
export const caps = (words, x, y, more = {}) => text(words.toUpperCase(), x, y, 2,
  { caps: true, ...more });

export const CAPS_APART = 0.07;  // of the size, between capitals

// Widths of the sans-serif type in 1/1000 of its size, characters 32 to 126: the tables of the PDF
// standard's Helvetica, upright and bold (Adobe font metrics, Core 14), from memory; the test asks
// jsPDF's own copy.
const UPRIGHT = [278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,
  556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
  1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
  667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
  333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
  556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584];
const BOLD = [278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278,
  556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611,
  975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833, 722, 778,
  667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556,
  333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611,
  611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584];
/** Signs above 126 that our own words have; the same table where it has them.
 * @type {Record<string, number>} */
const MORE = { '·': 278, '’': 222, '“': 333, '”': 333, '×': 584, '°': 400, '±': 584, '−': 584, '–': 556,
  '…': 1000, '″': 355, '⌀': 778, '♯': 556, '♭': 500 };
const OTHER = 600;     // any other letter
const SQUARE = 1000;   // signs of scripts whose letters fill a square, from U+1100 on
const PICTURE = 1300;

/** @param {string} words @param {number} size @param {Partial<TextPart>} [style]
 * @returns {number} about how wide it will be [mm] */
export function widthOf(words, size, { bold = false, caps: apart = false } = {}) {
  const signs = [...words];
  const sum = signs.reduce((all, sign) => {
    const code = sign.codePointAt(0) ?? 0;
    return all + ((bold ? BOLD : UPRIGHT)[code - 32] ?? (Object.hasOwn(MORE, sign) ? MORE[sign]
      : code > 0xFFFF ? PICTURE : code >= 0x1100 && !(code >= 0x2000 && code < 0x2E80) ? SQUARE : OTHER));
  }, 0);
  return size * (sum / 1000 + (apart ? CAPS_APART * (signs.length - 1) : 0));
}

/** Breaks a text into lines no wider than this; a word too long for a line is cut.
 * @param {string} words @param {number} size @param {number} width @param {number} [most] lines
 * @returns {string[]} */
export function wrapped(words, size, width, most = 99) {
  /** @type {string[]} */
  const lines = [];
  let now = '';
  for (const word of words.split(/\s+/).filter(Boolean)) {
    let rest = word;
    const longer = now === '' ? rest : `${now} ${rest}`;
    if (widthOf(longer, size) <= width) {
      now = longer;
      continue;
    }
    if (now !== '') lines.push(now);
    while (widthOf(rest, size) > width) {
      const signs = [...rest];
      let count = signs.length - 1;
      while (count > 1 && widthOf(signs.slice(0, count).join(''), size) > width) count -= 1;
      lines.push(signs.slice(0, count).join(''));
      rest = signs.slice(count).join('');
    }
    now = rest;
  }
  if (now !== '') lines.push(now);
  return lines.length > most ? [...lines.slice(0, most - 1), `${lines[most - 1]}…`] : lines;
}

/** Lines at 45 degrees, a surface that goes or is covered. @param {number} x1 @param {number} y1
 * @param {number} x2 @param {number} y2 @param {number} apart @returns {LinePart[]} */
export function hatch(x1, y1, x2, y2, apart) {
  const lines = [];
  for (let c = x1 - (y2 - y1) + apart; c < x2; c += apart) {
    const left = Math.max(x1, c);
    const right = Math.min(x2, c + (y2 - y1));
    if (right - left > 0.05) lines.push(line(left, y2 - (left - c), right, y2 - (right - c), 'hair'));
  }
  return lines;
}


/** A rule of 100 mm, or of 4 inches, to check the print with, lying or upright.
 * @param {number} x @param {number} y where it begins @param {boolean} upright @param {boolean} [inches]
 * @returns {Part[]} */
export function checkRule(x, y, upright, inches = false) {
  /** @param {number} along @param {number} out @param {Pen} pen */
  const tick = (along, out, pen) => (upright ? line(x - out, y + along, x, y + along, pen)
    : line(x + along, y - out, x + along, y, pen));
  const [all, step, named] = inches ? [4 * INCH_MM, INCH_MM / 16, 32] : [100, 1, 50];
  /** How far a tick reaches. @param {number} i */
  const out = (i) => (i % named === 0 ? 4 : inches ? (i % 16 === 0 ? 3.2 : i % 8 === 0 ? 2.4 : i % 4 === 0 ? 1.8 : 1.1)
    : i % 10 === 0 ? 2.6 : i % 5 === 0 ? 1.8 : 1.1);
  const parts = [upright ? line(x, y, x, y + all, 'fine') : line(x, y, x + all, y, 'fine')];
  for (let i = 0; i * step <= all + 1e-9; i += 1) parts.push(tick(i * step, out(i), i % named === 0 ? 'fine' : 'hair'));
  const words = (inches ? [0, 2, 4] : [0, 50, 100]).map((at, i) => {
    const mm = i * all / 2;
    return upright ? text(String(at), x - 4.8, y + mm + 0.75, 2.1, { anchor: 'end' })
      : text(i === 2 ? `${at} ${inches ? 'in' : 'mm'}` : String(at), x + mm, y - 4.8, 2.1, { anchor: 'middle' });
  });
  return [...parts, ...words];
}

/** Names are set in the reader's own serif, which may be wider than what is reckoned with. */
export const SERIF_ROOM = 0.8;

/** Where every sheet's rules begin. */
export const RULES = { lying: { x: 2, y: 254 }, upright: { x: 189.5, y: 20 } };

/** Just inside the sheet's four corners: where one is missing, the printer has cut the sheet. */
export const CORNERS = { x1: 0.3, y1: 0.3, x2: 189.7, y2: 258.7 };
const CORNER_MM = 1.8;

/** @returns {Part[]} */
function corners() {
  const { x1, y1, x2, y2 } = CORNERS;
  return [[x1, y1, 1, 1], [x2, y1, -1, 1], [x1, y2, 1, -1], [x2, y2, -1, -1]].flatMap(
    ([x, y, right, down]) => [line(x, y, x + right * CORNER_MM, y, 'hair'),
      line(x, y, x, y + down * CORNER_MM, 'hair')]);
}

/**
 * Head and foot of every sheet: what it is, of which flute, and how to print it.
 * @param {{title: string, name: string, about: string, imprint: string, inches?: boolean}} job
 * @param {number} number @param {number} count @returns {Part[]}
 */
export function frame({ title, name, about, imprint, inches = false }, number, count) {
  const [shown = ''] = wrapped(name, 4.6, 125 * SERIF_ROOM, 1);
  const { lying, upright } = RULES;
  return [
    ...corners(),
    text(shown, 0, 6.3, 4.6, { bold: true, serif: true, own: true }),
    caps(title, 190, 5, { anchor: 'end' }),
    text(about, 0, 10.6, 2.8),
    text(count > 1 ? sheetOf(number, count) : '', 190, 10.6, 2.8, { anchor: 'end' }),
    line(0, 13, 190, 13, 'hair'),
    line(0, 243.5, 190, 243.5, 'hair'),
    ...checkRule(lying.x, lying.y, false, inches),
    ...checkRule(upright.x, upright.y, true, inches),
    text(PRINT_AT_100, 110, 249, 2.7, { bold: true }),
    text(checkRules(inches), 110, 252.8, 2.3),
    text(imprint, 110, 257.6, 2),
  ].filter((part) => part.is !== 'text' || part.text !== '');
}

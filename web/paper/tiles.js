// web/paper/tiles.js: cuts the strip into pieces that fit on a sheet, each with an overlap and marks
// to join them by, and lays the pieces on sheets.

import { BODY, circle, frame, line, text, widthOf } from './sheet.js';
import { strip } from './strip.js';
import { CUT_HERE, ENDS_ABOVE, ENDS_LEFT, STRIP_ALONG, STRIP_WRAP, TO_THE_MOUTH, stripAbout, stripSheet }
  from './words.js';

/** @typedef {import('./sheet.js').Part} Part */
/** @typedef {import('./sheet.js').Sheet} Sheet */
/** @typedef {import('./facts.js').Facts} Facts */
/** @typedef {{x0: number, x1: number, y0: number, y1: number}} Window a part of the strip [mm] */
/** @typedef {Window & {sheet: number, x: number, y: number}} Piece with the place of its window's
 *   corner on the sheet */

export const OVERLAP_MM = 12;  // more than any label is high: each stands whole on one piece
const ACROSS_MM = 8;           // where a wide tube's strip is cut lengthwise
const BETWEEN_MM = 6;

/**
 * Windows over [from, to], each sharing an overlap with the next: as few as there can be, near equal,
 * joined where no mark is near.
 * @param {number} from @param {number} to @param {number} most @param {number[]} [marks]
 * @param {number} [overlap] @returns {[number, number][]}
 */
export function spans(from, to, most, marks = [], overlap = OVERLAP_MM) {
  const count = Math.max(1, Math.ceil((to - from - overlap) / (most - overlap) - 1e-9));
  /** @type {[number, number][]} */
  const found = [];
  let start = from;
  for (let left = count; left > 1; left -= 1) {
    const equal = (to - start + (left - 1) * overlap) / left;
    const last = to - (left - 1) * (most - overlap);  // further up, the rest would need one more
    const [low, high] = [Math.max(start + 2 * overlap, last), start + most];
    let best = { end: start + equal, clear: -1, off: 0 };
    for (let end = low; end <= high + 1e-9; end += 1) {
      const clear = Math.min(overlap, ...marks.map((mm) => Math.abs(mm - end + overlap / 2)));
      const off = Math.abs(end - start - equal);
      if (clear > best.clear || (clear === best.clear && off < best.off)) best = { end, clear, off };
    }
    found.push([start, best.end]);
    start = best.end - overlap;
  }
  return [...found, [start, to]];
}

/** Across the tube: as few as there can be, the words round the centre line on one of them.
 * @param {number} from @param {number} to @param {number} most @param {number} words to either side
 * @returns {[number, number][]} */
export function spansAcross(from, to, most, words) {
  if (to - from <= most) return [[from, to]];
  /** @type {[number, number][] | null} */
  let best = null;
  const room = Math.min(words + ACROSS_MM / 2, most / 2);
  for (let start = room - most; start <= -room + 1e-9; start += 1) {
    const middle = /** @type {[number, number]} */ ([Math.max(from, start), Math.min(to, start + most)]);
    const all = [
      ...(middle[0] > from ? spans(from, middle[0] + ACROSS_MM, most, [], ACROSS_MM) : []), middle,
      ...(middle[1] < to ? spans(middle[1] - ACROSS_MM, to, most, [], ACROSS_MM) : [])];
    if (best === null || all.length < best.length) best = all;
  }
  return best ?? [[from, to]];
}

/** @param {Window & {words: number}} strip @param {number[]} [marks] along it @returns {Piece[]} */
export function piecesOf({ x0, x1, y0, y1, words }, marks = []) {
  const across = spansAcross(x0, x1, BODY.width, words);
  const along = spans(y0, y1, BODY.height, marks);
  /** @type {Piece[]} */
  const pieces = [];
  let sheet = 0;
  let x = BODY.x;
  let right = 0;  // of what is on the sheet already
  for (const [left, end] of across) {
    for (const [top, bottom] of along) {
      const width = end - left;
      if (pieces.length > 0 && right + BETWEEN_MM + width > BODY.x + BODY.width + 1e-9) {
        sheet += 1;
        right = 0;
      }
      x = right === 0 ? BODY.x : right + BETWEEN_MM;
      right = x + width;
      pieces.push({ x0: left, x1: end, y0: top, y1: bottom, sheet, x, y: BODY.y });
    }
  }
  return pieces;
}

/** @param {Facts} facts @param {'wrap' | 'edge'} way @returns {{sheets: Sheet[], pieces: Piece[]}} */
export function stripSheets(facts, way) {
  const whole = strip(facts, way);
  const pieces = piecesOf(whole, whole.marks.map((mark) => mark.at_mm));
  const seams = [...new Set(pieces.map((piece) => piece.y0))].sort((a, b) => a - b);
  const count = pieces[pieces.length - 1].sheet + 1;
  const { name, about, imprint, datumWords } = facts;
  const title = way === 'wrap' ? STRIP_WRAP : STRIP_ALONG;
  const sheets = Array.from({ length: count }, (_, i) => ({
    label: stripSheet(title, i + 1, count),
    parts: [
      ...frame({ title, name, about: stripAbout(about, datumWords, facts.proposals.size > 0), imprint, inches: facts.inches }, i + 1, count),
      ...pieces.filter((piece) => piece.sheet === i).flatMap((piece) => [
        ...whole.parts.flatMap((part) => cut(part, piece)), ...joints(piece, whole, seams),
        ...(piece.y0 === whole.y0 ? [] : mouthward(piece, way === 'edge' ? piece.x1 - 6
          : piece.x0 + (piece.x0 === whole.x0 ? 3 : 14))),
      ].map((part) => moved(part, piece.x - piece.x0, piece.y - piece.y0))),
    ],
  }));
  return { sheets, pieces };
}

/** Where a piece joins the next: a line to cut along, in the middle of the overlap, with two crosses
 * and a letter, the same on both.
 * @param {Window} piece @param {import('./strip.js').Strip} whole
 * @param {number[]} tops of the pieces along @returns {Part[]} */
function joints(piece, whole, tops) {
  /** @type {Part[]} */
  const parts = [];
  const place = tops.indexOf(piece.y0);
  for (const [edge, sign] of /** @type {[number, number][]} */ ([[piece.y0, 1], [piece.y1, -1]])) {
    if (edge === whole.y0 || edge === whole.y1) continue;
    const y = edge + sign * OVERLAP_MM / 2;
    const right = Math.min(piece.x1, whole.end);
    parts.push(line(piece.x0, y, right, y, 'dash'));
    for (const x of [piece.x0 + 6, right - 5]) {
      parts.push(line(x, y - 2.5, x, y + 2.5, 'line'), circle(x, y, 1.5, 'hair'));
    }
    const letter = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ'[place + (sign < 0 ? 0 : -1)];
    parts.push(text(letter, piece.x0 + 9, y + sign * 3.1 + 1, 3, { bold: true }),
      text(sign < 0 ? CUT_HERE : ENDS_ABOVE, piece.x0 + 13, y + sign * 3 + 0.9, 2));
  }
  for (const [edge, sign] of /** @type {[number, number][]} */ ([[piece.x0, 1], [piece.x1, -1]])) {
    if (edge === whole.x0 || edge === whole.x1) continue;
    const x = edge + sign * ACROSS_MM / 2;
    parts.push(line(x, piece.y0, x, piece.y1, 'dash'), text(sign < 0 ? CUT_HERE : ENDS_LEFT,
      x + sign * 2 + 0.7, piece.y0 + 70, 2, { turned: true }));
    for (const y of [piece.y0 + 20, piece.y1 - 20]) {
      parts.push(line(x - 2.5, y, x + 2.5, y, 'line'), circle(x, y, 1.5, 'hair'));
    }
  }
  return parts;
}

/** An arrow, so that no piece is laid upside down. @param {Window} piece
 * @param {number} x @returns {Part[]} */
function mouthward({ y0 }, x) {
  const y = y0 + OVERLAP_MM + 6;
  return [line(x, y, x, y + 14, 'fine'), line(x, y, x - 1.2, y + 3, 'fine'),
    line(x, y, x + 1.2, y + 3, 'fine'), text(TO_THE_MOUTH, x + 3, y + 14, 2, { turned: true })];
}

/** What of a part lies in a window. @param {Part} part @param {Window} w @returns {Part[]} */
export function cut(part, w) {
  if (part.is === 'line') return lineIn(part, w);
  if (part.is === 'block') return [part];
  if (part.is === 'text') {
    const { x0, x1, y0, y1 } = boxOf(part);
    return x0 > w.x0 - 3.2 && x1 < w.x1 + 1 && y0 > w.y0 - 0.01 && y1 < w.y1 + 0.01 ? [part] : [];
  }
  const { x, y, r } = part;
  if (x - r >= w.x0 && x + r <= w.x1 && y - r >= w.y0 && y + r <= w.y1) return [part];
  // 180 chords: off the circle by less than a thousandth of a millimetre where r is below 6 mm.
  const at = (/** @type {number} */ i) => [x + r * Math.cos(i * Math.PI / 90),
    y + r * Math.sin(i * Math.PI / 90)];
  return Array.from({ length: 180 }, (_, i) => {
    const [[x1, y1], [x2, y2]] = [at(i), at(i + 1)];
    return lineIn({ is: 'line', x1, y1, x2, y2, pen: part.pen }, w);
  }).flat();
}

/** Liang and Barsky's clipping. @param {import('./sheet.js').LinePart} part @param {Window} w
 * @returns {Part[]} */
function lineIn(part, w) {
  const { x1, y1, x2, y2 } = part;
  const [dx, dy] = [x2 - x1, y2 - y1];
  let [from, to] = [0, 1];
  for (const [step, room] of [[-dx, x1 - w.x0], [dx, w.x1 - x1], [-dy, y1 - w.y0], [dy, w.y1 - y1]]) {
    if (step === 0 && room < 0) return [];
    if (step < 0) from = Math.max(from, room / step);
    if (step > 0) to = Math.min(to, room / step);
  }
  if (from > to) return [];
  return [{ ...part, x1: x1 + from * dx, y1: y1 + from * dy, x2: x1 + to * dx, y2: y1 + to * dy }];
}

/** @param {import('./sheet.js').TextPart} part */
function boxOf({ text: words, x, y, size, anchor, turned, ...style }) {
  const wide = widthOf(words, size, style);
  const before = anchor === 'end' ? wide : anchor === 'middle' ? wide / 2 : 0;
  return turned ? { x0: x - size, x1: x, y0: y - wide, y1: y }
    : { x0: x - before, x1: x - before + wide, y0: y - size * 0.8, y1: y + size * 0.25 };
}

/** @template {Part} P @param {P} part @param {number} dx @param {number} dy @returns {P} */
function moved(part, dx, dy) {
  if (part.is === 'line') {
    return { ...part, x1: part.x1 + dx, x2: part.x2 + dx, y1: part.y1 + dy, y2: part.y2 + dy };
  }
  return { ...part, x: part.x + dx, y: part.y + dy };
}

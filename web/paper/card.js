// web/paper/card.js: the card that goes with a flute to whoever plays it.

import { SERIF_ROOM, caps, circle, frame, frameOf, line, text, widthOf, wrapped } from './sheet.js';
import { lowestOf, named } from './facts.js';
import { noteName } from '../text/numbers.js';
import { BESIDE_CODE, CARD_TITLE, CARE, CARE_CANE, CARE_PLASTIC, DATE, FILLED, FINGERING, KEY, MAKER,
  cardAbout, intervalWords, pitchInRoom, pitchWords } from './words.js';

/** @typedef {import('./sheet.js').Part} Part */
/** @typedef {import('./facts.js').Facts} Facts */

const CARD = { x: 1, y: 20, width: 174, height: 124 };  // folds to 87 x 124
const MIDDLE = CARD.x + CARD.width / 2;
const INSET = 7;
/** A module at least so large and the whole at least so wide [mm]: what phones' cameras are said to
 * need (figures of guides on the web, no standard). */
const MODULE_MM = 0.4;
const QR_MM = 32;
const QUIET = 4;  // modules left white around (ISO/IEC 18004)

/** @param {string} material */
export const care = (material) => (/plastic|pipe|pvc|abs/i.test(material) ? CARE_PLASTIC : CARE_CANE);

/** @typedef {{size: number, get: (x: number, y: number) => boolean}} Code a QR code, true is black */

/** Black runs of a code's rows. @param {Code} code @param {number} x @param {number} y
 * @param {number} module [mm] @returns {Part[]} */
export function codeParts(code, x, y, module) {
  const { size } = code;
  /** @type {Part[]} */
  const parts = [];
  for (let row = 0; row < size; row += 1) {
    for (let from = 0; from < size; from += 1) {
      let to = from;
      while (to < size && code.get(to, row)) to += 1;
      if (to === from) continue;
      parts.push({ is: 'block', x: x + from * module, y: y + row * module, width: (to - from) * module,
        height: module });
      from = to;
    }
  }
  return parts;
}

/** Width of a printed code with its white border, and of a module [mm]. @param {Code} code */
export function codeSize({ size }) {
  const modules = size + 2 * QUIET;
  const wide = Math.max(QR_MM, modules * MODULE_MM);
  return { wide, module: wide / modules, inset: QUIET * wide / modules };
}

/** @param {Facts} facts @param {Code | null} code of the link @param {string} why there is none
 * @returns {import('./sheet.js').Sheet[]} */
export function cardSheets(facts, code, why) {
  const { name, about, imprint } = facts;
  const { x, y, width, height } = CARD;
  const title = CARD_TITLE;
  return [{ label: title, parts: [
    ...frame({ title, name, about: cardAbout(about), imprint, inches: facts.inches }, 1, 1),
    ...frameOf(x, y, x + width, y + height, 'hair'),
    line(MIDDLE, y - 3, MIDDLE, y, 'fine'), line(MIDDLE, y + height, MIDDLE, y + height + 3, 'fine'),
    line(MIDDLE, y, MIDDLE, y + height, 'chain'),
    ...front(facts, code, why), ...inside(facts),
  ] }];
}

/** Name, key, who made it and when, link. @param {Facts} facts @param {Code | null} code
 * @param {string} why @returns {Part[]} */
function front({ name, about, maker, today, flute }, code, why) {
  const left = CARD.x + INSET;
  const room = CARD.width / 2 - 2 * INSET;
  const bottom = CARD.y + CARD.height - INSET;
  const lowest = named(lowestOf(flute.notes));
  let y = CARD.y + 14;
  /** @type {Part[]} */
  const parts = [];
  for (const words of wrapped(name, 6, room * SERIF_ROOM, 3)) {
    parts.push(text(words, left, y, 6, { serif: true, bold: true, own: true }));
    y += 7.4;
  }
  const { a4_hz: a4 = 440, play_c: room_c } = flute.song;
  parts.push(line(left, y - 3, left + room, y - 3, 'hair'), caps(KEY, left, y + 3.4),
    text(lowest, left, y + 13, 9, { serif: true, bold: true }));
  // Beside the key, whatever width its name has in this reader's type.
  const beside = Math.max(21, widthOf(lowest, 9, { bold: true }) + 5);
  wrapped(about.replace(/^\S+\s/, ''), 3, room - beside).forEach((words, i) =>
    parts.push(text(words, left + beside, y + 8 + i * 4.2, 3)));
  const hz = Math.round(a4 * 10) / 10;
  parts.push(text(room_c === undefined ? pitchWords(hz) : pitchInRoom(hz, room_c), left, y + 19, 2.6));
  y += 28;
  parts.push(caps(MAKER, left, y));
  const makers = wrapped(maker, 3.2, room - 22, 2);
  makers.forEach((words, i) => parts.push(text(words, left + 20, y + i * 4.2, 3.2, { own: true })));
  if (maker === '') parts.push(line(left + 20, y + 0.6, left + room, y + 0.6, 'hair'));
  y += 7 + 4.2 * Math.max(0, makers.length - 1);
  parts.push(caps(DATE, left, y), text(today, left + 20, y, 3.2));
  if (code === null) {
    wrapped(why, 2.4, room).reverse().forEach((words, i) =>
      parts.push(text(words, left, bottom - i * 3.4, 2.4)));
  } else {
    const { wide, module, inset } = codeSize(code);
    const top = bottom - wide + inset;
    parts.push(...codeParts(code, left, top, module));
    BESIDE_CODE.forEach((words, i) =>
      parts.push(text(words, left + wide - inset + 3, bottom - 10 + i * 3.6, 2.5)));
  }
  return parts.filter((part) => part.is !== 'text' || part.text !== '');
}

/** Fingering chart and care. @param {Facts} facts @returns {Part[]} */
function inside({ flute }) {
  const left = MIDDLE + INSET;
  const right = CARD.x + CARD.width - INSET;
  const notes = [...flute.notes].sort((a, b) => b.target_hz - a.target_hz);
  const lines = care(flute.tube.material ?? '').flatMap((words) => wrapped(words, 2.5, right - left - 3)
    .map((w, i) => ({ w, first: i === 0 })));
  const careTop = CARD.y + CARD.height - INSET - lines.length * 3.6 - 2;
  const chartTop = CARD.y + 16;
  const step = Math.min(7, (careTop - chartTop - 8) / Math.max(1, notes.length));
  const holes = flute.song.holes;
  const apart = Math.min(7, (right - left - 34) / Math.max(1, holes));
  const r = Math.min(1.9, step * 0.36, apart * 0.4);
  /** @type {Part[]} */
  const parts = [caps(FINGERING, left, CARD.y + 9),
    text(FILLED, right, CARD.y + 9, 2.1, { anchor: 'end' })];
  notes.forEach((note, i) => {
    const y = chartTop + i * step;
    parts.push(text(noteName(note.name), left, y + 1, Math.min(3.4, step * 0.62), { bold: true }));
    for (let hole = 1; hole <= holes; hole += 1) {
      parts.push(circle(left + 14 + (hole - 0.5) * apart, y, r, 'fine', !note.open.includes(hole)));
    }
    parts.push(text(intervalWords(Math.round(note.interval_cents)), right, y + 0.9, 2.2, { anchor: 'end' }));
  });
  parts.push(line(left, careTop - 4.6, right, careTop - 4.6, 'hair'), caps(CARE, left, careTop - 0.6));
  lines.forEach(({ w, first }, i) => {
    const y = careTop + 4 + i * 3.6;
    if (first) parts.push(circle(left + 0.7, y - 0.8, 0.35, 'fine', true));
    parts.push(text(w, left + 3, y, 2.5));
  });
  return parts.filter((part) => part.is !== 'text' || (part.text !== ''
    && widthOf(part.text, part.size) < 200));
}

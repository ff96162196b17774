// web/paper/voice.js: a sheet with everything above the finger holes: cut open to scale, each part's
// size with what it comes from, how to measure it, and how to make a plug.

import { caps, circle, frame, line, text, wrapped } from './sheet.js';
import { A_MADE_PLUG, MADE_PLUG, MEASURING, NO_NODE, TERMS, isThin, partName, whereFrom } from '../text/parts.js';
import { aboveSizes } from '../state/above.js';
import { sectionOf, spaced } from '../widgets/section.js';
import { misfitWords } from './list.js';
import { MEASURE, PART_HEADS, PROPOSED_HOW, VOICE_TITLE, voiceAbout } from './words.js';

/** @typedef {import('./sheet.js').Part} Part */
/** @typedef {import('./facts.js').Facts} Facts */

const DRAWN = { x: 2, y: 21, width: 66, height: 124 };  // the place of the section [mm]
const SCALES = [1, 1.5, 2, 2.5, 3, 4, 5, 6, 8];
const TABLE_X = 74;
const WIDE = 102;        // of the table
const SIZE_X = TABLE_X + 38;
const WHERE_X = TABLE_X + 58;
const ROW_MM = 2.9;      // of a line

/** @param {Facts} facts @returns {{path: string, size: string, where: string}[]} */
export function partsOf(facts) {
  /** @param {string} path @param {number} mm */
  const write = (path, mm) => (isThin(path) ? facts.thin(mm) : facts.one(mm));
  return aboveSizes(facts.flute, facts.proposals).map((of) => ({ path: of.path,
    size: of.mm === null ? '' : write(of.path, of.mm), where: whereFrom(of, write) }));
}

/** @param {Facts} facts @returns {import('./sheet.js').Sheet[]} */
export function voiceSheets(facts) {
  const { state, voice, name, about, imprint } = facts;
  const section = sectionOf(state.answer, voice);  // which tells what is entered from what is not
  const room = Math.min((DRAWN.width - 26) / (section.high - section.low), DRAWN.height / (section.to - section.from));
  const scale = [...SCALES].reverse().find((one) => one <= room) ?? 1;
  /** @type {Part[]} */
  const parts = [...frame({ title: VOICE_TITLE, name, about: voiceAbout(about, scale), imprint, inches: facts.inches }, 1, 1),
    ...drawn(section, scale),
    caps(PART_HEADS.part, TABLE_X, 22), caps(PART_HEADS.size, SIZE_X, 22), caps(PART_HEADS.where, WHERE_X, 22),
    line(TABLE_X, 24, TABLE_X + WIDE, 24, 'fine')];
  let y = 24;
  for (const { path, size, where } of partsOf(facts)) {
    const lines = wrapped(where, 2.3, WIDE - (WHERE_X - TABLE_X));
    y += 4;
    parts.push(text(partName(path), TABLE_X, y, 2.7), text(size, SIZE_X, y, 2.8, { bold: true }),
      ...(size === '' ? [line(SIZE_X, y + 0.6, SIZE_X + 17, y + 0.6, 'hair')] : []),
      ...lines.map((words, i) => text(words, WHERE_X, y + i * ROW_MM, 2.3)));
    y += (Math.max(1, lines.length) - 1) * ROW_MM + 1.8;
    parts.push(line(TABLE_X, y, TABLE_X + WIDE, y, 'hair'));
  }
  y = Math.max(y + 5, DRAWN.y + (section.to - section.from) * scale + 6);
  for (const note of [PROPOSED_HOW, ...misfitWords(facts)]) {
    for (const words of wrapped(note, 2.5, 174)) {
      parts.push(text(words, 0, y, 2.5));
      y += 3.6;
    }
  }
  y += 1.5;
  /** @param {string} head @param {[string, string][]} told */
  const tell = (head, told) => {
    parts.push(caps(head, 0, y));
    y += 4;
    for (const [what, how] of told) {
      wrapped(`${what}: ${how}`, 2.4, 172).forEach((words, i) => {
        if (i === 0) parts.push(circle(0.7, y - 0.8, 0.35, 'fine', true));
        parts.push(text(words, 3, y, 2.4));
        y += 3.3;
      });
    }
    y += 2;
  };
  tell(MEASURE, MEASURING);
  tell(`${A_MADE_PLUG}. ${NO_NODE}`, MADE_PLUG);
  return [{ label: VOICE_TITLE, parts: parts.filter((part) => part.is !== 'text' || part.text !== '') }];
}

/** Upright, mouth at the top. @param {import('../widgets/section.js').Section} section @param {number} scale
 * @returns {Part[]} */
function drawn({ from, to, low, bodies, terms, high, broken }, scale) {
  /** @param {number} up */
  const x = (up) => DRAWN.x + (up - low) * scale;
  /** @param {number} at */
  const y = (at) => DRAWN.y + (at - from) * scale;
  const right = x(high);
  const rows = spaced(terms.map((term) => y(term.at)), 3.4, DRAWN.y + (to - from) * scale);
  return [
    ...bodies.flatMap(({ what, points, dashed }) => points.map(([at, up], i) => {
      const [next, nextUp] = points[(i + 1) % points.length];
      return line(x(up), y(at), x(nextUp), y(next), dashed ? 'dash' : what === 'wall' ? 'line' : 'fine');
    })),
    // The tube goes on.
    ...[...(broken ? [from] : []), to].flatMap((at) => [line(x(low) - 1.5, y(at), x(-low) + 1.5, y(at), 'chain')]),
    ...terms.flatMap((term, i) => [line(x(term.up), y(term.at), right + 2, rows[i] - 0.8, 'hair'),
      circle(x(term.up), y(term.at), 0.4, 'fine', true), text(TERMS[term.what], right + 2.6, rows[i], 2.5)]),
  ];
}

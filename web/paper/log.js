// web/paper/log.js: the bench log on paper, to be typed in later: a row for each thing done or heard,
// with the columns that the page's own log asks for.

import { caps, circle, frame, line, text } from './sheet.js';
import { sawFirst } from './cuts.js';
import { endNow } from './facts.js';
import { FOOT_BACK, FOOT_LONG, LOG_HEADS, LOG_TITLE, TUBE_AS_IT_IS, VOICE_MADE, holeStep, logAbout }
  from './words.js';

/** @typedef {import('./sheet.js').Part} Part */
/** @typedef {import('./facts.js').Facts} Facts */

const ROW_MM = 8.2;
const TOP_MM = 25;
const ROWS = 26;
const STEP = 0;
const PLAN = 46;
const MEASURED = 70;
const FINGERS = 94;
const LAST = 176;

/** The steps as planned, in the order of the work: the voice first, then from the foot upwards, so
 * that no later hole lies below a note already tuned (common practice, no source).
 * @param {Facts} facts @returns {{step: string, plan: string, reads: boolean}[]} */
export function stepsOf(facts) {
  const { flute, size, shift } = facts;
  const saw = sawFirst(flute, facts.next);
  // Sawn long in any case where there is more of the tube; how long is the Bench's to say.
  const long = saw > 0 || endNow(flute) - flute.foot_mm >= 1;
  const first = saw > 0 ? size(flute.foot_mm + saw + shift) : long ? '' : size(flute.foot_mm + shift);
  const holes = flute.finger_holes.map((hole, i) => ({ hole, number: i + 1 })).reverse();
  return [
    { step: long ? FOOT_LONG : TUBE_AS_IT_IS, plan: first, reads: false },
    { step: VOICE_MADE, plan: '', reads: true },
    ...(long ? [{ step: FOOT_BACK, plan: size(flute.foot_mm + shift), reads: true }] : []),
    ...holes.map(({ hole, number }) => ({ step: holeStep(number, facts.bit(hole).split(' · ')[0]),
      plan: size(hole.at_mm + shift), reads: true })),
  ];
}

/** @param {Facts} facts @returns {import('./sheet.js').Sheet[]} */
export function logSheets(facts) {
  const { name, imprint, flute, datumWords } = facts;
  const title = LOG_TITLE;
  const holes = flute.song.holes;
  const apart = Math.min(4.4, 24 / holes);
  const heard = FINGERS + holes * apart + 4;
  const room = heard + 20;
  const note = room + 13;
  const steps = stepsOf(facts);
  /** @type {Part[]} */
  const parts = [
    ...frame({ title, name, about: logAbout(datumWords, facts.inches), imprint, inches: facts.inches }, 1, 1),
    ...[STEP, PLAN, MEASURED, FINGERS, heard, room, note].map((x, i) => caps(LOG_HEADS[i], x, TOP_MM - 3)),
    line(0, TOP_MM - 1, LAST, TOP_MM - 1, 'fine'),
  ];
  for (let i = 0; i < ROWS; i += 1) {
    const y = TOP_MM - 1 + (i + 1) * ROW_MM;
    const step = steps[i];
    parts.push(line(0, y, LAST, y, 'hair'));
    if (step !== undefined) {
      parts.push(text(step.step, STEP, y - 2.6, 2.8),
        text(step.plan, PLAN, y - 2.6, 2.8, { bold: true }));
    }
    for (let hole = 0; hole < holes; hole += 1) {
      parts.push(circle(FINGERS + (hole + 0.5) * apart, y - ROW_MM / 2, Math.min(1.6, apart * 0.38),
        'hair'));
    }
  }
  const bottom = TOP_MM - 1 + ROWS * ROW_MM;
  for (const x of [MEASURED, FINGERS, heard, room, note]) {
    parts.push(line(x - 2, TOP_MM - 6.5, x - 2, bottom, 'hair'));
  }
  return [{ label: title, parts: parts.filter((part) => part.is !== 'text' || part.text !== '') }];
}

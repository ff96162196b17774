// web/text/built.js: a flute as it stands by its log and by what the Bench makes of it, and what is left to
// do. Loaded when a maker is at work.

import { logOf, standing } from '../state/build.js';
import { datumShift } from '../state/desk.js';
import { lengthWords, noteName } from './numbers.js';
import { listed } from './parts.js';

/** @param {string} at @param {string} longer @param {string} note */
const sawLong = (at, longer, note) => `Saw at ${at} first, ${longer} longer than the foot’s mark: no voice is `
  + 'known before it is blown, and what is sawn off cannot be put back. Make the voice and blow the tube without '
  + `holes; the Bench leads back to the mark until it gives ${note}. Drill only then.`;
const NOTHING_SAWN = 'Nothing is sawn first. Make the voice and blow the tube without holes: every sound hole '
  + 'pulls the pitch its own way. Drill only when you like what it gives.';
const DONE = 'Nothing is left to cut: by all that was heard this flute is finished. The marks are those of the '
  + 'flute as it stands.';
/** @param {string} all */
const leftToDo = (all) => `Left to do: ${all}. `;
/** @param {string} much */
const footLeft = (much) => `${much} off the foot`;
/** @param {string} holes @param {boolean} one */
const holesLeft = (holes, one) => `${one ? 'hole' : 'holes'} ${holes} to drill`;
/** @param {string} step */
const onTheBench = (step) => (step === '' ? '' : `Next, on the Bench: ${step}. `);
const READ = 'blow, and tell what it gives';
const RESCUE = 'what was cut too far';
const DRY = 'let it dry';
const TUNE = 'by ear, to the pitch it names';
/** @param {string} at */
const sawAt = (at) => `saw at ${at}`;
/** @param {number} number */
const drill = (number) => `drill hole ${number}`;
const NOW = 'Each note is told as it stands; one whose hole is not cut yet, as it will be.';

/** @param {State} s @param {NextStep} next @param {Engine} engine @returns {Built} */
export function builtFrom(s, next, engine) {
  const { holes } = standing(s.good);
  const cut = s.answer.finger_holes.map((_, i) => (holes.has(i + 1) ? holes.get(i + 1)?.diameter_mm ?? null : undefined));
  return { of: s.answer, next, cut, left: leftWords(s, next, cut, engine) };
}

/** What is left to do, and with what the Bench goes on. @param {State} s @param {NextStep} next
 * @param {Built['cut']} cut @param {Engine} engine */
export function leftWords(s, next, cut, engine) {
  const { answer } = s;
  const { step } = next;
  /** @param {number | undefined} mm */
  const at = (mm) => lengthWords((mm ?? 0) + datumShift({ show: s.doc.show, sound_hole: answer.sound_hole }), s, engine);
  const note = noteName(answer.notes.find((one) => one.open.length === 0)?.name) || 'the lowest note';
  if (logOf(s.good).length === 0) {
    if (step.do !== 'foot' || step.at_mm === undefined) return NOTHING_SAWN;
    return sawLong(at(step.at_mm), lengthWords(step.at_mm - answer.foot_mm, s, engine), note);
  }
  if (step.do === 'done') return DONE;
  const spare = answer.cane.spare_mm;
  const open = cut.flatMap((wide, i) => (wide === undefined ? [String(i + 1)] : [])).reverse();
  const left = [...(spare >= 0.05 ? [footLeft(lengthWords(spare, s, engine))] : []),
    ...(open.length > 0 ? [holesLeft(listed(open), open.length === 1)] : [])];
  /** @type {Record<string, string>} */
  const words = { read: READ, rescue: RESCUE, wait: DRY, foot: step.until ? TUNE : sawAt(at(step.at_mm)),
    hole: step.until ? TUNE : drill(step.number ?? 0), undercut: TUNE };
  return `${left.length === 0 ? '' : leftToDo(left.join(', '))}${onTheBench(words[step.do] ?? '')}${NOW}`;
}

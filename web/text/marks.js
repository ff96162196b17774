// web/text/marks.js: sentences of the station Marks.

import { datumShift, unitOf } from '../state/desk.js';
import { centsWords, countWord, inUnit, lengthWords, noteName } from './numbers.js';

/** @param {State} state */
function lowestName(state) {
  const note = state.answer.notes.find((n) => n.open.length === 0);
  return noteName(note?.name) || 'the lowest note';
}

/** @param {State} state */
export function about(state) {
  const { song } = state.answer;
  const scale = typeof song.scale === 'string' ? song.scale : 'own scale';
  return `${lowestName(state)} ${scale}, ${countWord(song.holes)} holes`;
}

/** What to do before the first hole. @param {State} state @param {Engine} engine */
export function before(state, engine) {
  const spare = state.answer.tube.end_mm - state.answer.foot_mm;
  const name = lowestName(state);
  // About two per cent of the length is a third of a semitone: room to come back from.
  const allowance = Math.min(spare, state.answer.foot_mm * 0.02);
  const rough = Math.max(1, Math.round(allowance));
  const blow = 'blow the tube without holes: every sound hole pulls the pitch its own way.';
  if (spare < 1) return `Make the voice first and ${blow} Drill only when you like what it gives.`;
  const words = unitOf(state) === 'inch' ? lengthWords(rough, state, engine) : `${rough} mm`;
  return `Saw about ${words} longer first. Make the voice and ${blow} Come back to the foot’s mark `
    + `until it gives ${name}; drill only then.`;
}

/** @param {State} state @param {Engine} engine @returns {[string, string][]} */
export function totals(state, engine) {
  const { tube, foot_mm: foot, worst_cents: worst } = state.answer;
  const above = tube.above_mm;
  const spare = tube.end_mm - foot;
  /** @type {[string, string | null][]} */
  const lines = [
    ['Sawn off at the foot', spare >= 0.05 ? lengthWords(spare, state, engine) : 'nothing'],
    ['Kept above the sound hole', above === undefined ? null : lengthWords(above, state, engine)],
    ['Whole flute', above === undefined ? null : lengthWords(above + foot, state, engine)],
    ['Note farthest off', worst === null ? 'a note does not speak'
      : worst < 0.5 ? 'all in tune' : centsWords(worst)],
  ];
  return lines.flatMap(([what, much]) => (much === null ? [] : [[what, much]]));
}

/** For a screen reader, after a change. @param {State} state @param {Engine} engine */
export function summary(state, engine) {
  const { answer } = state;
  const shift = datumShift({ show: state.doc.show, sound_hole: answer.sound_hole });
  const marks = answer.finger_holes.map((hole, i) => `hole ${i + 1} at ${
    inUnit(hole.at_mm + shift, state, engine)}`);
  return `Marks changed: ${[...marks, `foot at ${lengthWords(answer.foot_mm + shift, state, engine)}`]
    .join(', ')}.`;
}

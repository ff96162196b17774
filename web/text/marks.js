// web/text/marks.js: sentences of the station Marks.

import { builtOf, datumShift } from '../state/desk.js';
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

/** What is to be done, in the Bench's words once it has been asked: one figure, one reason. @param {State} state */
export function before(state) {
  const built = builtOf(state);
  if (built !== null) return built.left;
  if (state.answer.log?.length) return '';
  const blow = 'blow the tube without holes: every sound hole pulls the pitch its own way.';
  if (state.answer.cane.spare_mm < 1) return `Make the voice first and ${blow} Drill only when you like what it gives.`;
  return `Saw it long first; the Bench says how long. Make the voice and ${blow} Come back to the foot’s mark `
    + `until it gives ${lowestName(state)}; drill only then.`;
}

/** @param {State} state @param {Engine} engine @returns {[string, string][]} */
export function totals(state, engine) {
  const { tube, foot_mm: foot, worst_cents: worst, log, cane: { spare_mm: spare } } = state.answer;
  const above = tube.above_mm;
  /** @type {[string, string | null][]} */
  const lines = [
    [log?.length ? 'Still to come off the foot' : 'Sawn off at the foot', spare >= 0.05 ? lengthWords(spare, state, engine) : 'nothing'],
    ['Kept above the sound hole', above === undefined ? null : lengthWords(above, state, engine)],
    ['Whole flute', above === undefined ? null : lengthWords(above + foot, state, engine)],
    [log?.length ? 'Farthest off when done' : 'Note farthest off', worst === null ? 'a note does not speak'
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

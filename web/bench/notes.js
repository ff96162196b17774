// web/bench/notes.js: a fingering, the note it gives and where it is expected; places from the maker's datum.

/// <reference path="./types.d.ts" />
import { datumShift } from '../state/desk.js';
import { noteName, signed } from '../text/numbers.js';
import { standing } from './log.js';
import { ALL_COVERED, COVERED, LOWEST_NOTE, NO_HOLES, holeOpen, holesOpen, noteWithOpen } from './words.js';

/** What a position is shown with, from the datum chosen, at that moment of the build.
 * @param {Doc} doc @param {number} [count] entries */
export const shiftAt = (doc, count) => datumShift({ show: doc.show,
  sound_hole: standing(doc, count).sound_hole });

/** "holes 4 and 5 open". @param {number[]} open @param {number} cut how many holes there are */
export function fingeringWords(open, cut) {
  if (cut === 0) return NO_HOLES;
  if (open.length === 0) return cut === 1 ? COVERED : ALL_COVERED;
  return open.length === 1 ? holeOpen(open[0]) : holesOpen(open.slice(0, -1), open[open.length - 1]);
}

/** A sign of the way in which notes are said: each has another name for this one. */
export const namesNow = () => noteName('B4');

/** @param {readonly number[]} a @param {readonly number[]} b */
const sameOpen = (a, b) => a.length === b.length && [...a].sort().join() === [...b].sort().join();

/** @param {NextStep | null} next @param {number[]} open */
export const noteOf = (next, open) => next?.notes.find((n) => sameOpen(n.open, open)) ?? null;

/** @param {NextStep | null} next @param {number[]} open */
export function noteWords(next, open) {
  const note = noteOf(next, open);
  return note?.name ? noteName(note.name) : open.length === 0 ? LOWEST_NOTE : noteWithOpen(open);
}

/** Where this fingering should be heard now, before it is heard. @param {NextStep | null} next
 * @param {number[]} open @returns {number} Hz, 0: not known */
export function expectedHz(next, open) {
  const note = noteOf(next, open);
  return note === null ? 0 : note.target_hz * 2 ** ((note.now_cents ?? 0) / 1200);
}

/** What something should sound like: "380.2 Hz, G4 −52 cents", from the name of the note it is tuned to.
 * @param {NextStep | null} next @param {number[]} open @param {number} hz */
export function soundWords(next, open, hz) {
  return `${hz.toFixed(1)} Hz, ${centsFrom(next, open, hz)}`;
}

/** "G4 −52 cents". @param {NextStep | null} next @param {number[]} open @param {number} hz */
export function centsFrom(next, open, hz) {
  const note = noteOf(next, open);
  const name = noteWords(next, open);
  const cents = note === null ? 0 : 1200 * Math.log2(hz / note.target_hz);
  return Math.abs(cents) < 0.5 || note === null ? name : `${name} ${signed(cents)} cents`;
}

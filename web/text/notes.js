// web/text/notes.js: note names one semitone up or down, for the picker. What a name means is the
// core's business.

// The accidentals one sees most (common practice, no source).
const NAMES = ['C', 'C♯', 'D', 'E♭', 'E', 'F', 'F♯', 'G', 'A♭', 'A', 'B♭', 'B'];
const LETTERS = /** @type {Record<string, number>} */ ({ C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 });

/** @param {string} name @param {number} direction @returns {string | undefined} */
export function nextNote(name, direction) {
  const parts = /^\s*([A-Ga-g])([#♯b♭♮]?)(\d)\s*$/.exec(name);
  if (parts === null) return undefined;
  const bend = '#♯'.includes(parts[2] || ' ') ? 1 : 'b♭'.includes(parts[2] || ' ') ? -1 : 0;
  const note = LETTERS[parts[1].toUpperCase()] + bend + 12 * Number(parts[3]) + direction;
  const octave = Math.floor(note / 12);
  return octave < 0 || octave > 9 ? undefined : `${NAMES[note - 12 * octave]}${octave}`;
}

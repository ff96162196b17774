// web/bench/typed_pitch.js: a pitch typed from any other meter: hertz, or cents from a note.

const LOWEST_HZ = 150;   // as far as the page's own ear goes
const HIGHEST_HZ = 3000;
const FARTHEST_CENTS = 600;
const LETTERS = /** @type {Record<string, number>} */ ({ C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 });
const NUMBER = String.raw`\d+(?:[.,]\d+)?|[.,]\d+`;
const HERTZ = new RegExp(`^(${NUMBER})\\s*(?:hz|hertz)?$`, 'i');
const CENTS = new RegExp(`^(?:([A-Ga-g])([#♯b♭]?)(\\d))?\\s*([+-]?)\\s*(${NUMBER})?\\s*(cents?|ct|¢)?\\s*(flat|sharp)?$`);

/** Of a note's name in equal temperament; null: not a name. @param {string | null} name
 * @param {number} a4_hz */
export function noteHz(name, a4_hz) {
  const parts = /^([A-Ga-g])([#♯b♭]?)(-?\d)$/.exec((name ?? '').trim());
  if (parts === null) return null;
  const bend = '#♯'.includes(parts[2] || ' ') ? 1 : 'b♭'.includes(parts[2] || ' ') ? -1 : 0;
  const above = LETTERS[parts[1].toUpperCase()] + bend + 12 * (Number(parts[3]) - 4) - 9;
  return a4_hz * 2 ** (above / 12);
}

export const EXAMPLE = 'Write what the meter shows: 587,3 Hz, or cents from the note such as +12, '
  + '−7 or G4 +12.';

/**
 * @param {string} text
 * @param {{name: string | null, from_hz: number, a4_hz: number, expected_hz: number}} note  which
 *   the cents count from where the text names none, and what the flute should give
 * @param {(text: string) => number | null} number the page's reader of numbers
 * @returns {{hz: number} | {wrong: string}}
 */
export function readPitch(text, note, number) {
  const plain = text.trim().replace(/[−–]/g, '-');
  if (plain === '') return { wrong: EXAMPLE };
  const hertz = HERTZ.exec(plain);
  const cents = CENTS.exec(plain);
  let hz = NaN;
  if (hertz !== null && (/h/i.test(plain) || !/^\d{1,2}([.,]\d+)?$/.test(hertz[1]))) {
    hz = number(hertz[1]) ?? NaN;
  } else if (cents !== null) {
    const [, letter, bend, octave, sign, amount, unit, word] = cents;
    const named = letter !== undefined;
    // A bare "12" could be sharp or flat, and 12 Hz is no flute.
    if (!named && sign === '' && word === undefined && Number(amount) !== 0) return { wrong: EXAMPLE };
    if (amount === undefined && (!named || sign !== '' || unit !== undefined)) return { wrong: EXAMPLE };
    if (sign !== '' && word !== undefined) return { wrong: EXAMPLE };
    const size = amount === undefined ? 0 : number(amount) ?? NaN;
    if (size > FARTHEST_CENTS) {
      return { wrong: `${amount} cents is more than a meter shows. ${EXAMPLE}` };
    }
    const from = named ? noteHz(letter + bend + octave, note.a4_hz)
      : noteHz(note.name, note.a4_hz) ?? note.from_hz;
    hz = (from ?? NaN) * 2 ** ((sign === '-' || word === 'flat' ? -size : size) / 1200);
  }
  if (!Number.isFinite(hz)) return { wrong: `“${text.trim()}” is not a pitch. ${EXAMPLE}` };
  if (hz < LOWEST_HZ || hz > HIGHEST_HZ) {
    return { wrong: `${Math.round(hz)} Hz is no note of such a flute; it takes ${LOWEST_HZ} to `
      + `${HIGHEST_HZ} Hz.` };
  }
  const apart = 1200 * Math.log2(hz / (note.expected_hz || hz));
  // Within a third of a semitone of an octave or a twelfth above: the second register.
  if ([1200, 1902].some((jump) => Math.abs(apart - jump) < 150)) {
    return { wrong: 'That is the second register: blow softer, or look at the octave the meter '
      + 'shows.' };
  }
  if (Math.abs(apart + 1200) < 150) return { wrong: 'That is an octave lower than this fingering '
    + 'gives: look at the octave the meter shows.' };
  return { hz };
}

// web/text/numbers.js: lengths, cents and the like as the page writes them.

import { INCH_MM, unitOf, fractionOf } from '../state/desk.js';
import { notes } from '../state/readers.js';

/** A length in the maker's unit, bare. @param {number} mm @param {State} state
 * @param {Engine} engine */
export const inUnit = (mm, state, engine) => engine.writeLength(mm, unitOf(state),
  fractionOf(state)).replace(/^-/, '−');

/** The same with its unit, for use in a sentence. @param {number} mm @param {State} state
 * @param {Engine} engine */
export function lengthWords(mm, state, engine) {
  const text = inUnit(mm, state, engine);
  return unitOf(state) === 'inch' ? text : `${text} mm`;
}

/** The same length in the unit that is not the maker's. @param {number} mm @param {State} state
 * @param {Engine} engine */
export function otherUnit(mm, state, engine) {
  return unitOf(state) === 'inch' ? `${engine.writeLength(mm, 'mm', 32)} mm`.replace(/^-/, '−')
    : engine.writeLength(mm, 'inch', fractionOf(state)).replace(/^-/, '−');
}

/** "+9" or "−3.5": below 10 cents one decimal, but no ".0". @param {number} value */
export function signed(value) {
  const size = Math.abs(value);
  const text = size < 9.95 ? String(Math.round(size * 10) / 10) : String(Math.round(size));
  return text === '0' ? '0' : `${value < 0 ? '−' : '+'}${text}`;
}

/** How far a note is off: "4 sharp"; the word is the sign. @param {number} cents @returns {string} */
export function offWords(cents) {
  const whole = Math.round(cents);
  return whole === 0 ? 'in tune' : `${Math.abs(whole)} ${whole < 0 ? 'flat' : 'sharp'}`;
}

/** "1 cent", "4 cents". @param {number} cents */
export function centsWords(cents) {
  const size = Math.abs(cents) < 9.95 ? Math.round(Math.abs(cents) * 10) / 10
    : Math.round(Math.abs(cents));
  return size === 1 ? '1 cent' : `${size} cents`;
}

/** A note by the core, as the maker says it and as sharps and flats are printed.
 * @param {string | null | undefined} name */
export const noteName = (name) => notes.say((name ?? '').replace(/#/g, '♯').replace(/^([A-Ga-g])b/, '$1♭'));

/** @param {number} count */
export const countWord = (count) => ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven',
  'eight'][count] ?? String(count);

/** An uncertainty, finer than any ruler. @param {number} mm @param {State} state */
export const fine = (mm, state) => (unitOf(state) === 'inch' ? String(Math.round(mm / INCH_MM * 1e4) / 1e4)
  : String(Math.round(mm * 1000) / 1000));

// web/text/naming.js: a note's name as the maker says it: in letters, in letters with H, or do re mi. What a name
// means is the core's business, which knows one spelling; this turns the others into that one and back. Loaded
// when notes are typed or the maker has a way of saying them; first of all where it was chosen before.
//
// Source of the names: common practice of the languages named, as in tests/web/naming.test.mjs.

import { notes } from '../state/readers.js';

const KEPT = 'canewright/notes';

/** How notes are said, what a B alone means and where La is 440 Hz: '' while nobody has said. `h`: an H was typed.
 * @typedef {{way: '' | 'letters' | 'h' | 'la4' | 'la3', b: '' | 'B' | 'B♭', la: '' | 'la4' | 'la3', h: boolean}} Naming */

/** @type {Naming} */
const own = { way: '', b: '', la: '', h: false };

/** Languages in which H is the note below C, so that a B may be meant as B flat (common practice, no source). */
const WITH_H = /^(de|da|nb|nn|no|sv|fi|is|et|lv|lt|pl|cs|sk|hu|hr|sl|sr|bs)\b/;
let speaksH = false;

/** In the order of the letters from C. */
const LETTERS = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];
const SYLLABLES = ['Do', 'Re', 'Mi', 'Fa', 'Sol', 'La', 'Si'];

// A name, what bends it, and an octave; signs and endings stand close to the name, words may stand off.
const NAME = '(sol|do|dó|dò|ut|ré|re|mi|fá|fa|lá|la|si|[a-h])';
const SHARP = 'sharp|di[eè]se|diesis|sostenido|sustenido';
const FLAT = 'flat|b[eé]moll?e?';
const NATURAL = 'natural|b[eé]carre|bequadro|becuadro';
const NOTE = `${NAME}([#♯b♭♮]|is|es|s|[ \\t-]*(?:${SHARP}|${FLAT}|${NATURAL}))?(-?\\d|[ \\t]+\\d(?!\\d))?`;
const AROUND = '\\p{L}\\p{N}#♯♭';
const NOTES = new RegExp(`(^|[^${AROUND}])${NOTE}(?![${AROUND}])`, 'giu');
const PLAIN = /^[A-G][#♯b♭♮]?(-?\d)?$/i;  // the core's own spelling

/** Whether a B alone could be meant otherwise than the core means it, and nobody has said. */
const doubtful = () => own.b === '' && (own.h || speaksH);

/** An octave where La3 is 440 Hz: there is no 0 between 1 and −1 (common practice, source in the test). @param {number} octave */
const toLow = (octave) => (octave > 1 ? octave - 1 : octave - 2);
/** @param {number} octave */
const fromLow = (octave) => (octave > 0 ? octave + 1 : octave + 2);

/** @typedef {'B' | 'La'} Asked  what has to be said before a name can be read */

/** One note as the core spells it; null: no such note. @param {string} name @param {string} bent @param {string} octave
 * @returns {{text: string} | {ask: Asked} | null} */
function one(name, bent, octave) {
  const syllable = SYLLABLES.indexOf(name === 'ut' ? 'Do' : name[0].toUpperCase()
    + name.slice(1).normalize('NFD').replace(/\p{M}/gu, ''));
  const isLetter = syllable < 0;
  let letter = isLetter ? name.toUpperCase() : LETTERS[syllable];
  let sign = { '#': '♯', b: '♭', is: '♯', es: '♭', s: '♭' }[bent]
    ?? (new RegExp(SHARP).test(bent) ? '♯' : new RegExp(FLAT).test(bent) ? '♭' : new RegExp(NATURAL).test(bent) ? '♮' : bent);
  if (/^(e?s|is)$/.test(bent) && (!isLetter || (bent === 's' && !'AE'.includes(letter)))) return null;
  if (letter === 'H') {
    if (!own.h) keep({ h: true });
    letter = 'B';
  } else if (isLetter && letter === 'B' && sign === '') {
    if (doubtful()) return { ask: 'B' };
    if (own.b === 'B♭') sign = '♭';
  } else if (isLetter && letter === 'B' && sign === '♯' && own.b === 'B♭') return null;  // who says H raises that
  if (isLetter || octave === '') return { text: letter + sign + octave };
  if (own.la === '') return { ask: 'La' };
  if (own.la === 'la4') return { text: letter + sign + octave };
  return Number(octave) === 0 ? null : { text: `${letter}${sign}${fromLow(Number(octave))}` };
}

/** What was typed, with every note in it as the core spells it; what is no note stays. `asks`: what has to be
 * said first. @param {string} typed @param {boolean} [first] only a note that begins it, and has an octave
 * @returns {{text: string, asks: Asked | null}} */
export function inLetters(typed, first = false) {
  /** @type {Asked | null} */
  let asks = null;
  const text = typed.trim().normalize('NFC').replace(NOTES, (whole, before, name, bent = '', octave = '', at = 0) => {
    if (first && (at > 0 || octave === '')) return whole;
    const spelt = `${name}${bent}${octave}`;
    const got = one(name.toLowerCase(), bent.trim().toLowerCase(), octave.trim());
    if (got === null) return `${whole}?`;  // which the core takes for no note either
    if ('ask' in got) {
      asks ??= got.ask;
      return whole;
    }
    return before + (PLAIN.test(spelt) && !/^b[\d-]*$/i.test(spelt) ? spelt : got.text);
  });
  return { text, asks };
}

/** A note's name by the core, as the maker says it; anything else as it is. @param {string} name */
export function said(name) {
  const parts = /^([A-G])([♯♭♮]?)(-?\d+)?$/.exec(name);
  if (parts === null) return name;
  const [, letter, sign, octave = ''] = parts;
  const natural = letter === 'B' && sign !== '♭';
  if (own.way === '') return natural && sign === '' && doubtful() ? `B♮${octave}` : name;
  if (own.way === 'h') return natural ? `H${sign}${octave}` : letter === 'B' ? `B${octave}` : name;
  if (own.way === 'letters') return name;
  return SYLLABLES[LETTERS.indexOf(letter)] + sign
    + (octave === '' || own.way === 'la4' ? octave : String(toLow(Number(octave))));
}

/** @param {Partial<Naming>} more */
function keep(more) {
  Object.assign(own, more);
  notes.say = (name) => said(name);  // another than before: what is shown is said anew
  try {
    localStorage.setItem(KEPT, JSON.stringify(own));
  } catch { /* it holds until the page is left */ }
}

/** The maker's way from now on. @param {Naming['way']} way */
export function choose(way) {
  if (way === 'letters' || way === 'h') keep({ way, b: way === 'h' ? 'B♭' : 'B' });
  else if (way !== '') keep({ way, la: way });
}

/** What was asked is answered; with it a way of saying notes, where none was chosen.
 * @param {'B' | 'B♭' | 'la4' | 'la3'} answer */
export function answer(answer) {
  if (answer === 'B' || answer === 'B♭') keep({ b: answer, way: own.way || (answer === 'B' ? 'letters' : 'h') });
  else keep({ la: answer, way: own.way || answer });
}

export const wayNow = () => own.way;
/** Whether what is shown leaves no doubt because nobody has said what a B is. */
export const undecided = () => own.way === '' && doubtful();

/** Notes are read and said in the maker's way from now on. @param {string} [language] of the browser */
export function useNaming(language = globalThis.navigator?.language ?? '') {
  speaksH = WITH_H.test(language);
  try {
    const kept = JSON.parse(localStorage.getItem(KEPT) ?? '{}');
    for (const key of /** @type {(keyof Naming)[]} */ (Object.keys(own))) {
      if (typeof kept?.[key] === typeof own[key]) Object.assign(own, { [key]: kept[key] });
    }
  } catch { /* nothing was kept */ }
  notes.say = said;
  notes.read = (typed) => {
    const { text, asks } = inLetters(typed);
    return asks === null ? { value: text } : { problem: { code: MEANS_TWO, path: '', value: typed } };
  };
}

/** A violation of the page's own, until it has been asked: said as it is spelt. */
export const MEANS_TWO = 'it_can_mean_two_notes';

// What is asked and offered.
export const NOTE_NAMES = 'Note names';
/** @type {[Naming['way'], string][]} */
export const WAYS = [['letters', 'C D E F G A B'], ['h', 'C D E F G A H'], ['la4', 'Do Re Mi, 440 Hz is La4'],
  ['la3', 'Do Re Mi, 440 Hz is La3']];
export const NOT_SAID = 'not said yet';
/** @type {Record<Asked, {asks: string, answers: ['B' | 'B♭' | 'la4' | 'la3', string][]}>} */
export const QUESTIONS = {
  B: { asks: 'Which note is your B?', answers: [['B', 'The one just below C'], ['B♭', 'B flat; the one below C is H']] },
  La: { asks: 'Octaves are counted in two ways. What do you call the A of 440 Hz?', answers: [['la4', 'La4'], ['la3', 'La3']] },
};
export const REMEMBERED = 'It is asked once; “Note names” on Song changes it.';

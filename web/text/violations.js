// web/text/violations.js: one sentence for every way an entry can be wrong: what is wrong, and
// what would be right.

import { lengthWords, noteName } from './numbers.js';
import { unitOf } from '../state/desk.js';

/** A value with the unit that the key of its path carries.
 * @param {unknown} value @param {string} path @param {State} state @param {Engine} engine */
function quantity(value, path, state, engine) {
  if (typeof value !== 'number') return typeof value === 'string' ? `“${path === 'song.lowest' ? noteName(value) : value}”` : '';
  const key = path.replace(/\.(min|max)$/, '').replace(/\[\d+\]$/, '');
  if (key.endsWith('_mm') || key.endsWith('.mm')) return lengthWords(value, state, engine);
  const unit = { _c: ' °C', _hz: ' Hz', hz: ' Hz', nt: ' %', ts: ' cents', pa: key.endsWith('.pa') ? ' Pa' : ' kPa' }[
    /(_c|_hz|hz|nt|ts|pa)$/.exec(key)?.[1] ?? ''] ?? '';
  return `${Math.round(value * 100) / 100}${unit}`;
}

/** @param {string} value as it is quoted */
const bare = (value) => value.slice(1, -1);

/** @type {Record<string, (value: string, limit: string, state: State) => string>} */
const SENTENCES = {
  not_a_length: (value, _limit, state) => `${value || 'This'} is not a length. Write for example ${
    unitOf(state) === 'inch' ? '2 1/8, 2.125 or 54 mm' : '53.5, 53,5 or 2 1/8 in'}.`,
  not_a_number: (value) => `${value || 'This'} is not a number. Write for example 20 or 20,5.`,
  not_finite: () => 'This is not a number that can be reckoned with.',
  not_a_bit: (value) => `${value} is not a bit. Put a comma and a space, or a semicolon, `
    + 'between bits: 4, 5, 5.5, 7/64 in.',
  whole_inches: (value) => `${value} would be whole inches. Write ${bare(value)} mm, ${bare(value)}/64 or ${bare(value)} in.`,
  no_bits: () => 'Name at least one bit, or choose ‘any diameter’.',
  not_cents: (value) => `${value} is not a step in cents. Write the steps upwards from 0: `
    + '0 300 500 700 1000 1200.',
  too_small: (value, limit) => `${value || 'This'} is too small${limit && `; it takes at least ${
    limit}`}.`,
  too_large: (value, limit) => `${value || 'This'} is too large${limit && `; it takes at most ${
    limit}`}.`,
  too_long: (_value, limit) => `This is too long${limit && `; it takes at most ${limit} bytes`}.`,
  missing: () => 'A figure is needed here.',
  needs: () => 'A figure is needed here.',
  not_a_note: (value) => `${value || 'This'} is not a note’s name. Write it with its octave: ${noteName('G4')}, ${
    noteName('B♭4')} or ${noteName('F♯5')}.`,
  out_of_order: () => 'This has to come in rising order, each one beyond the one before.',
  overlap: () => 'This is there twice, or lies where something else is already.',
  unknown_name: (value) => `${value || 'This'} is not a name known here; choose one of the list.`,
  wrong_type: (value) => `${value || 'This'} is not what belongs here.`,
  wrong_format: () => 'This was kept in a form that this page does not read.',
  not_json: () => 'This was kept in a form that this page does not read.',
  unknown_key: () => 'This entry has a name that this page does not know.',
  bad_hole_number: () => 'This names a finger hole that is not there.',
  missing_fingering: () => 'Some steps of the scale have no fingering. Take more holes, or a scale '
    + 'with fewer steps.',
  fault: () => 'The calculation could not read this. Your entry is kept.',
};

/** Where the general sentence would not tell a maker what to do. */
/** @type {Record<string, string>} */
const HERE = {
  'out_of_order song.fingerings': 'A step opens fewer holes than a lower step does, so it cannot '
    + 'sound higher. Open more holes, or others.',
  'overlap song.fingerings': 'Two steps have the same fingering. Change one of them.',
  'out_of_order song.scale': 'The steps have to rise, beginning with 0.',
  'out_of_order tube.bore': 'Stations go from the line towards the foot, each farther than the one '
    + 'before.',
  'out_of_order measure.no_go_mm': 'The shank that does not go in has to be the thicker one.',
  'too_small measure.amount': 'So little water in that length would be no flute’s bore. Check both.',
  'too_large measure.amount': 'So much water in that length would be no flute’s bore. Check both.',
  'overlap tube.bore': 'Two stations lie at the same place.',
};

/** Paths of whole lists: what is too large there is their number. */
const LISTS = /(scale\.cents|bits|bore|fingerings|hands)$/;

/** @param {Violation} violation @param {State} state @param {Engine} engine @returns {string} */
export function sentence(violation, state, engine) {
  const { code, path } = violation;
  const value = quantity(violation.value, path, state, engine);
  const limit = quantity(violation.limit, path, state, engine);
  const here = Object.keys(HERE).find((key) => key.startsWith(`${code} `)
    && path.startsWith(key.slice(code.length + 1)));
  if (here !== undefined) return HERE[here];
  if (LISTS.test(path) && (code === 'too_small' || code === 'too_large')) {
    return `${violation.value} entries are too ${code === 'too_small' ? 'few; it takes at least'
      : 'many; it takes at most'} ${violation.limit}.`;
  }
  const known = Object.hasOwn(SENTENCES, code) ? SENTENCES[code] : null;
  if (known !== null) return upper(known(value, limit, state));
  const plain = code.replaceAll('_', ' ');
  return upper(`${value ? `${value} does` : 'this does'} not work here: ${plain}${
    limit && ` (limit ${limit})`}.`);
}

/** @param {string} text */
const upper = (text) => text.charAt(0).toUpperCase() + text.slice(1);

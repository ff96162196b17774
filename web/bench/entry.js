// web/bench/entry.js: a line to type a measure into that is no part of the document yet.

/// <reference path="./types.d.ts" />
import { h, newId, say } from '../widgets/dom.js';
import { fractionOf, unitOf } from '../state/desk.js';
import { lengthReader, numberReader } from '../state/readers.js';
import { otherUnit } from '../text/numbers.js';
import { sentence } from '../text/violations.js';
import { shiftAt } from './notes.js';
import { ROOM, WHERE_BLOWN, roomRange } from './words.js';

/**
 * @param {{label: string, note?: string, suffix?: string, text: string, words?: boolean,
 *   read: (text: string) => {value: any} | {wrong: string}, aside?: (value: any) => string,
 *   changed?: () => void, enter?: () => void}} how
 */
export function entry(how) {
  const id = newId('b');
  const wrong = h('p', { class: 'wrong', id: `${id}-wrong`, role: 'alert', 'aria-live': 'polite' });
  const beside = h('span', { class: 'aside', id: `${id}-aside` }, how.suffix ?? '');
  const input = h('input', { type: 'text', id, autocomplete: 'off', spellcheck: 'false', enterkeyhint: 'done',
    inputmode: how.words ? 'text' : 'decimal', autocapitalize: 'off', class: how.words ? 'words' : 'figure',
    'aria-describedby': `${id}-note ${id}-aside ${id}-wrong`,
    oninput: () => {
      fail('');
      fit();
      tell();
      how.changed?.();
    },
    onkeydown: (/** @type {KeyboardEvent} */ event) => {
      if (event.key === 'Enter') how.enter?.();
    } });
  const fit = () => input.classList.toggle('long', !how.words && input.value.length > 6);
  input.value = how.text;
  fit();
  /** @param {string} words */
  function fail(words) {
    say(wrong, words);
    input.setAttribute('aria-invalid', String(words !== ''));
  }
  function tell() {
    const got = how.read(input.value);
    if (how.aside) say(beside, 'value' in got && got.value !== undefined ? how.aside(got.value) : '');
  }
  tell();
  return {
    element: h('div', { class: 'line' }, h('div', { class: 'what' }, h('label', { for: id }, how.label),
      h('span', { class: 'note', id: `${id}-note` }, how.note ?? '')),
    h('div', { class: 'control' }, h('span', { class: 'entry' }, input, beside)), wrong),
    input, fail,
    touched: () => input.value !== how.text,
    /** What was typed, or undefined with its sentence shown. @returns {{value: any} | undefined} */
    get() {
      const got = how.read(input.value);
      if ('value' in got) return got;
      fail(got.wrong);
      input.focus();
      return undefined;
    },
    clear() {
      input.value = '';
      fail('');
      tell();
    },
  };
}

/**
 * A length in the maker's unit. What was not touched comes back as exact as it was asked.
 * @param {Session} session
 * @param {{label: string, note?: string, mm?: number, place?: boolean, optional?: boolean,
 *   changed?: () => void}} how  place: counted from the maker's datum
 */
export function length(session, how) {
  const { desk } = session;
  const s = desk.store.get();
  const shift = how.place ? shiftAt(s.doc) : 0;
  const reader = lengthReader(desk.engine, { optional: how.optional });
  const text = how.mm === undefined ? ''
    : desk.engine.writeLength(how.mm + shift, unitOf(s), fractionOf(s));
  return entry({ label: how.label, note: how.note, text, changed: how.changed,
    aside: (mm) => otherUnit(mm + shift, s, desk.engine),
    read: (typed) => {
      if (typed === text && how.mm !== undefined) return { value: how.mm };
      const got = reader(typed, unitOf(s));
      if ('problem' in got) return { wrong: sentence(got.problem, s, desk.engine) };
      return { value: typeof got.value === 'number' ? got.value - shift : undefined };
    } });
}

const COLDEST_C = -10;
const WARMEST_C = 50;

/** The room's temperature, kept from the last time. @param {Session} session
 * @param {() => void} [changed] */
export function room(session, changed) {
  const { desk } = session;
  const reader = numberReader(desk.engine);
  /** @param {string} text @returns {{value: number} | {wrong: string}} */
  const read = (text) => {
    const minus = /^\s*[-−]/.test(text);
    const got = reader(text.replace(/^\s*[-−]/, ''), 'mm');
    const c = 'value' in got && typeof got.value === 'number' ? (minus ? -got.value : got.value) : NaN;
    return c >= COLDEST_C && c <= WARMEST_C ? { value: c } : { wrong: roomRange(COLDEST_C, WARMEST_C) };
  };
  const line = entry({ label: ROOM, note: WHERE_BLOWN, suffix: '°C',
    text: String(Math.round(session.room() * 10) / 10), read, changed: () => {
      const got = read(line.input.value);
      if ('value' in got) session.keep({ room_c: got.value });
      changed?.();
    } });
  return line;
}

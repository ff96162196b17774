// web/marks/notes.js: every note: its fingering, its pitch, how far it is off and in which way.

import { h, s } from '../widgets/dom.js';
import { standsAt, unitOf } from '../state/desk.js';
import { bandOf } from '../state/sure.js';
import { bare } from '../text/sure.js';
import { noteName, offWords, signed } from '../text/numbers.js';
import { ALL_COVERED, HOLES, LAID_OUT, NOTE, NOTES, OFF_BY, REGISTER, SILENT, WILL_SOUND, notSettled,
  openWords, perWider } from './words.js';

const WIDEST_CENTS = 25;  // as far as the needle goes
const HALF_PX = 26;

/** @param {Desk} desk */
export function notes(desk) {
  const body = h('tbody');
  const table = h('table', { class: 'notes' },
    h('caption', { class: 'unseen' }, LAID_OUT),
    h('thead', {}, h('tr', {}, h('th', { scope: 'col' }, NOTE), h('th', { scope: 'col' }, HOLES),
      h('th', { scope: 'col', class: 'right' }, 'Hz'),
      h('th', { scope: 'col', class: 'right' }, OFF_BY))), body);
  /** @type {unknown[]} */
  let shown = [];
  desk.store.subscribe((state) => {
    const now = [state.answer, state.built, unitOf(state), state.sure, state.trial?.running === false && state.trial.result];
    if (now.every((part, i) => part === shown[i])) return;
    shown = now;
    const { holes, tolerance_cents: tolerance } = state.answer.song;
    body.replaceChildren(...[...state.answer.notes].reverse()
      .map((note) => noteLine(asItStands(note, state), holes, tolerance ?? 10, bandOf(state, note.open), unitOf(state) === 'inch')));
  });
  return h('section', { 'aria-label': NOTES }, h('h3', {}, WILL_SOUND), table,
    h('p', { class: 'note' }, REGISTER));
}

/** With what is believed of it now, where it can be played. @param {Note} note @param {State} state */
function asItStands(note, state) {
  const now = standsAt(state, state.answer.notes.indexOf(note));
  return typeof now !== 'number' ? note : { ...note, cents: now, hz: note.target_hz * 2 ** (now / 1200) };
}

/** @param {Note} note @param {number} holes @param {number} tolerance
 * @param {number | null} sigma how sure the note is [cents] @param {boolean} inches */
function noteLine(note, holes, tolerance, sigma, inches) {
  const off = note.cents === null || note.hz === null ? SILENT
    : note.converged ? offWords(note.cents) : notSettled(offWords(note.cents));
  const wider = note.cents_per_tenth_mm === null || note.cents_per_tenth_mm === undefined ? ''
    : inches ? perWider('1/64″', signed(note.cents_per_tenth_mm * 254 / 64)) : perWider('0.1 mm', signed(note.cents_per_tenth_mm));
  const far = Math.abs(note.cents ?? 99) > tolerance;
  return h('tr', {},
    h('th', { scope: 'row' }, noteName(note.name)),
    h('td', {}, pattern(note.open, holes), h('span', { class: 'unseen' }, note.open.length === 0
      ? ALL_COVERED : openWords(note.open)),
    wider === '' ? null : h('span', { class: 'small under' }, wider)),
    h('td', { class: 'right' }, note.hz === null ? '' : note.hz.toFixed(1)),
    h('td', { class: far ? 'right far' : 'right' }, off, needle(note.cents, sigma),
      sigma === null || note.hz === null ? null : h('span', { class: 'small under' }, `± ${bare(sigma)}`)));
}

/** @param {number[]} open @param {number} holes */
function pattern(open, holes) {
  return s('svg', { width: holes * 15, height: 14, viewBox: `0 0 ${holes * 15} 14`,
    class: 'pattern', 'aria-hidden': 'true' },
  ...Array.from({ length: holes }, (_, i) => s('circle', { cx: i * 15 + 7, cy: 7, r: 5,
    class: open.includes(i + 1) ? 'ring' : 'dot' })));
}

/** Left of the middle is flat, right of it sharp; the bar is the band.
 * @param {number | null} cents @param {number | null} sigma */
function needle(cents, sigma) {
  if (cents === null) return null;
  /** @param {number} c */
  const px = (c) => Math.max(-1, Math.min(1, c / WIDEST_CENTS)) * (HALF_PX - 3);
  const at = px(cents);
  const from = px(cents - (sigma ?? 0));
  return s('svg', { width: 2 * HALF_PX, height: 10, viewBox: `${-HALF_PX} 0 ${2 * HALF_PX} 10`,
    class: 'needle', 'aria-hidden': 'true' },
  s('line', { x1: -HALF_PX, y1: 5, x2: HALF_PX, y2: 5, class: 'tick' }),
  s('line', { x1: 0, y1: 1, x2: 0, y2: 9, class: 'tick' }),
  s('rect', { x: from, y: 3.5, width: px(cents + (sigma ?? 0)) - from, height: 3, class: 'band' }),
  s('circle', { cx: at, cy: 5, r: 3, class: 'dot' }));
}

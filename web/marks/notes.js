// web/marks/notes.js: every note: its fingering, its pitch, how far it is off and in which way.

import { h, s, say } from '../widgets/dom.js';
import { standsAt, unitOf } from '../state/desk.js';
import { onChange } from '../state/store.js';
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
  let shape = '';
  /** From the highest note down. @type {ReturnType<typeof noteLine>[]} */
  let lines = [];
  desk.store.subscribe(onChange(({ answer, built, doc, sure, trial }) => [answer, built, doc.show?.unit, sure,
    trial?.running === false && trial.result], (state) => {
    const { notes: all, song: { holes, tolerance_cents: tolerance } } = state.answer;
    // What is fingered alike is only told anew: a line costs a phone as much as its note's pitch.
    const fingered = JSON.stringify([holes, all.map(({ open }) => open)]);
    if (fingered !== shape) {
      shape = fingered;
      lines = all.map(({ open }) => noteLine(open, holes)).reverse();
      body.replaceChildren(...lines.map(({ element }) => element));
    }
    lines.forEach(({ tell }, i) => {
      const note = all[all.length - 1 - i];
      tell(asItStands(note, state), tolerance ?? 10, bandOf(state, note.open), unitOf(state) === 'inch');
    });
  }));
  return h('section', { 'aria-label': NOTES }, h('h3', {}, WILL_SOUND), table,
    h('p', { class: 'note' }, REGISTER));
}

/** With what is believed of it now, where it can be played. @param {Note} note @param {State} state */
function asItStands(note, state) {
  const now = standsAt(state, state.answer.notes.indexOf(note));
  return typeof now !== 'number' ? note : { ...note, cents: now, hz: note.target_hz * 2 ** (now / 1200) };
}

/** @param {number[]} open @param {number} holes */
function noteLine(open, holes) {
  const name = h('th', { scope: 'row' });
  const wider = h('span', { class: 'small under' });
  const hz = h('td', { class: 'right' });
  const words = h('span');
  const band = h('span', { class: 'small under' });
  const { picture, point } = needle();
  const off = h('td', {}, words, picture, band);
  return {
    element: h('tr', {}, name, h('td', {}, pattern(open, holes), h('span', { class: 'unseen' }, open.length === 0
      ? ALL_COVERED : openWords(open)), wider), hz, off),
    /** @param {Note} note @param {number} tolerance @param {number | null} sigma how sure the note is [cents]
     * @param {boolean} inches */
    tell(note, tolerance, sigma, inches) {
      const { cents, cents_per_tenth_mm: per } = note;
      say(name, noteName(note.name));
      say(wider, typeof per !== 'number' ? '' : inches ? perWider('1/64″', signed(per * 254 / 64))
        : perWider('0.1 mm', signed(per)));
      say(hz, note.hz === null ? '' : note.hz.toFixed(1));
      say(words, cents === null || note.hz === null ? SILENT : note.converged ? offWords(cents) : notSettled(offWords(cents)));
      off.className = Math.abs(cents ?? 99) > tolerance ? 'right far' : 'right';
      point(cents, sigma);
      say(band, sigma === null || note.hz === null ? '' : `± ${bare(sigma)}`);
    },
  };
}

/** @param {number[]} open @param {number} holes */
function pattern(open, holes) {
  return s('svg', { width: holes * 15, height: 14, viewBox: `0 0 ${holes * 15} 14`,
    class: 'pattern', 'aria-hidden': 'true' },
  ...Array.from({ length: holes }, (_, i) => s('circle', { cx: i * 15 + 7, cy: 7, r: 5,
    class: open.includes(i + 1) ? 'ring' : 'dot' })));
}

/** Left of the middle is flat, right of it sharp; the bar is the band. */
function needle() {
  const bar = s('rect', { y: 3.5, height: 3, class: 'band' });
  const dot = s('circle', { cy: 5, r: 3, class: 'dot' });
  const picture = s('svg', { width: 2 * HALF_PX, height: 10, viewBox: `${-HALF_PX} 0 ${2 * HALF_PX} 10`,
    class: 'needle', 'aria-hidden': 'true' },
  s('path', { d: `M${-HALF_PX} 5H${HALF_PX}M0 1V9`, class: 'tick' }), bar, dot);
  /** @param {number} c [cents] */
  const px = (c) => Math.max(-1, Math.min(1, c / WIDEST_CENTS)) * (HALF_PX - 3);
  return { picture,
    /** @param {number | null} cents @param {number | null} sigma */
    point(cents, sigma) {
      picture.toggleAttribute('hidden', cents === null);
      const from = px((cents ?? 0) - (sigma ?? 0));
      bar.setAttribute('x', String(from));
      bar.setAttribute('width', String(px((cents ?? 0) + (sigma ?? 0)) - from));
      dot.setAttribute('cx', String(px(cents ?? 0)));
    } };
}

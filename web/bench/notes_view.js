// web/bench/notes_view.js: every note as it is believed to come out, and what the readings have told.

/// <reference path="./types.d.ts" />
import { h, s as svg } from '../widgets/dom.js';
import { bare } from '../text/sure.js';
import { noteName, offWords } from '../text/numbers.js';
import { namesNow } from './notes.js';
import { shrunk, toldWords } from './tell_readings.js';
import { BARS, BELIEVED_NOW, COLUMNS, NOTES, NOT_YET, SILENT, WHAT_READINGS_TELL } from './words.js';

/** @param {Session} session */
export function notesView(session) {
  const { bench } = session;
  const body = h('tbody');
  const words = h('p', { class: 'shrunk' });
  const told = h('div');
  const element = h('section', { 'aria-label': NOTES, hidden: true }, h('h3', {}, NOTES), words,
    h('table', { class: 'notes belief' }, h('caption', { class: 'unseen' }, BELIEVED_NOW),
      h('thead', {}, h('tr', {}, ...COLUMNS.map((name, i) =>
        h('th', { scope: 'col', class: i === 0 ? null : 'right' }, name)))), body),
    h('p', { class: 'note' }, BARS),
    h('details', {}, h('summary', {}, WHAT_READINGS_TELL), told));
  let shown = '';
  bench.subscribe(({ next }) => {
    if (next === null) return;
    const text = JSON.stringify([next.notes, next.unknowns, next.readings, namesNow()]);
    if (text === shown) return;
    shown = text;
    element.hidden = false;
    words.replaceChildren(shrunk(next));
    const widest = Math.max(1, ...next.notes.map((n) => Math.max(n.before_cents ?? 0, n.sigma_cents ?? 0)));
    body.replaceChildren(...[...next.notes].reverse().flatMap((note) => lines(note, widest)));
    told.replaceChildren(...toldWords(next).map((t) => h('p', {}, t)));
  });
  return element;
}

/** @param {StepNote} note @param {number} widest cents @returns {Node[]} */
function lines(note, widest) {
  const now = note.now_cents === null ? NOT_YET : offWords(note.now_cents);
  const name = noteName(note.name) || note.open.join(' ');
  return [h('tr', {}, h('th', { scope: 'row', rowspan: 2 }, name),
    h('td', { class: 'right' }, note.target_hz.toFixed(1)),
    h('td', { class: 'right' }, note.hz === null ? SILENT : note.hz.toFixed(1)),
    h('td', { class: 'right' }, now)),
  h('tr', { class: 'bars' }, h('td', { colspan: 3 }, h('div', {}, bars(note, widest),
    h('span', { class: 'small' }, note.sigma_cents === null ? '' : `± ${bare(note.sigma_cents)}`))))];
}

/** @param {StepNote} note @param {number} widest */
function bars(note, widest) {
  /** @param {number | null} cents @param {string} kind */
  const bar = (cents, kind) => {
    const share = Math.max(0.6, (cents ?? 0) / widest * 50);
    return svg('rect', { x: 50 - share, y: kind === 'after' ? 3 : 0, width: 2 * share,
      height: kind === 'after' ? 6 : 12, class: kind });
  };
  return svg('svg', { viewBox: '0 0 100 12', preserveAspectRatio: 'none', class: 'bands-bar', 'aria-hidden': 'true' },
    bar(note.before_cents, 'before'), bar(note.sigma_cents, 'after'));
}

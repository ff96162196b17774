// web/song/chart.js: the fingering chart: each note's holes, covered or open, changed by a touch.

import { h, say } from '../widgets/dom.js';
import { notes } from '../state/readers.js';
import { unchanged } from '../state/store.js';
import { noteName } from '../text/numbers.js';
import { sentence } from '../text/violations.js';
import { withValue } from '../state/path.js';
import { CENTS, CHART, CHART_NOTE, COVERED, FINGERING, NOTE, OPEN, TO_USUAL, holeOfNote, stepName }
  from './words.js';

/** The chart as it stands: the maker's own where there is one, else the default.
 * @param {State} s @returns {ChartRow[]} */
function rows(s) {
  const own = s.doc.song.fingerings;
  if (own === undefined) return s.chart;
  const scale = s.doc.song.scale;
  const byCents = new Map(s.chart.map((row) => [row.cents, row.name]));
  const cents = typeof scale === 'object' ? scale.cents : s.chart.map((row) => row.cents);
  return own.map((open, i) => ({ open, cents: cents[i] ?? 0, name: byCents.get(cents[i] ?? -1)
    ?? stepName(i + 1) }));
}

/** @param {Desk} desk */
export function chart(desk) {
  const body = h('tbody');
  const head = h('tr');
  const table = h('table', { class: 'chart' },
    h('caption', { class: 'unseen' }, CHART),
    h('thead', {}, head), body);
  const wrong = h('p', { class: 'wrong', role: 'alert', 'aria-live': 'polite' });
  const reset = h('button', { type: 'button', class: 'plain',
    onclick: () => desk.set('song.fingerings', undefined) }, TO_USUAL);
  const element = h('div', {}, h('h3', {}, FINGERING),
    h('p', { class: 'note' }, CHART_NOTE),
    table, wrong, reset);
  desk.offer({ path: 'song.fingerings', label: FINGERING, element,
    shown: () => element.isConnected,
    focus: () => table.querySelector('button')?.focus() });

  let shape = '';
  /** @type {{name: Element, cents: Element, buttons: HTMLButtonElement[]}[]} */
  let lines = [];
  let shown = '';
  /** @type {unknown[]} */
  let of = [];
  desk.store.subscribe((s) => {
    const from = [s.chart, s.doc.song, s.problems, notes.say];
    if (s.problems.length === 0 && unchanged(from, of)) return;
    of = from;
    const now = rows(s);
    if (shape !== `${now.length}/${s.doc.song.holes}`) {
      shape = `${now.length}/${s.doc.song.holes}`;
      build(now.length, s.doc.song.holes);
      shown = '';
    }
    const text = JSON.stringify(now.map((row) => [row, noteName(row.name)]));
    if (text !== shown) now.forEach((row, i) => {
      const name = noteName(row.name);
      say(lines[i].name, name);
      say(lines[i].cents, `${Math.round(row.cents)}`);
      lines[i].buttons.forEach((button, k) => {
        const open = row.open.includes(k + 1);
        button.setAttribute('aria-label', holeOfNote(name, k + 1));
        button.setAttribute('aria-pressed', String(open));
        button.title = open ? OPEN : COVERED;
      });
    });
    shown = text;
    reset.hidden = s.doc.song.fingerings === undefined;
    say(wrong, desk.troubles(s).filter((t) => t.place?.path === 'song.fingerings')
      .map((t) => sentence(t.violation, s, desk.engine)).join(' '));
  });

  /** @param {number} notes @param {number} holes */
  function build(notes, holes) {
    const numbers = Array.from({ length: holes }, (_, k) => k + 1);
    head.replaceChildren(h('th', { scope: 'col' }, NOTE),
      ...numbers.map((k) => h('th', { scope: 'col' }, String(k))),
      h('th', { scope: 'col', class: 'cents' }, CENTS));
    lines = Array.from({ length: notes }, (_, i) => ({
      name: h('th', { scope: 'row' }), cents: h('td', { class: 'cents' }),
      buttons: numbers.map((k) => h('button', { type: 'button', class: 'hole',
        onclick: () => toggle(i, k) })),
    }));
    // Low notes at the bottom, as on a staff.
    body.replaceChildren(...[...lines].reverse().map((line) => h('tr', {}, line.name,
      ...line.buttons.map((b) => h('td', {}, b)), line.cents)));
  }

  /** @param {number} i @param {number} hole */
  function toggle(i, hole) {
    desk.edit((s) => {
      const now = rows(s);
      const lists = now.map(({ open }, at) => (at !== i ? open : open.includes(hole)
        ? open.filter((k) => k !== hole) : [...open, hole].sort((a, b) => a - b)));
      // A fingering belongs to each step: where the usual chart leaves steps out or adds some,
      // the steps that are played become a scale of the maker's own.
      const scale = s.doc.song.scale;
      const steps = typeof scale === 'object' ? scale.cents
        : desk.choices.scales.find((x) => x.name === scale)?.cents;
      const doc = withValue(s.doc, 'song.fingerings', lists);
      return { doc: steps?.length === lists.length ? doc
        : withValue(doc, 'song.scale', { cents: now.map((row) => row.cents) }) };
    });
  }
  return element;
}

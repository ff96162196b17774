// web/bench/log_view.js: what happened, newest first; each can be undone, and an undo put back.

/// <reference path="./types.d.ts" />
import { h, say } from '../widgets/dom.js';
import { bare } from '../text/sure.js';
import { dependents, logOf } from './log.js';
import { namesNow } from './notes.js';
import { entryWords, timeWords } from './tell_log.js';
import { KEEP_THEM, LOG, NOTHING_HAPPENED, PUT_BACK, UNDO, goesWithIt, notCounted, showAll, takeOutAll, takenOut,
  undoOf } from './words.js';

const SHOWN = 8;  // the newest; the rest on demand

/** @param {Session} session */
export function logView(session) {
  const { desk, bench } = session;
  const status = h('p', { class: 'undone', role: 'status' });
  const list = h('ol', { class: 'log', reversed: true });
  const more = h('button', { type: 'button', class: 'plain', onclick: () => {
    all = true;
    render();
  } }, '');
  let all = false;
  const none = h('p', { class: 'note' }, NOTHING_HAPPENED);
  /** The entry that waits for a yes. */
  let asking = -1;
  let shown = '';

  function render() {
    const s = desk.store.get();
    const log = logOf(s.doc);
    const { next, of } = bench.get();
    const gone = session.removed(s);
    const readings = of !== null && logOf(of).length === log.length ? next?.readings ?? [] : [];
    const text = JSON.stringify([log, s.doc.show, s.doc.sound_hole, readings, gone?.length, asking, all, namesNow()]);
    if (text === shown) return;
    shown = text;
    if (asking >= log.length) asking = -1;
    none.hidden = log.length > 0;
    status.replaceChildren(...(gone === null ? [] : [`${takenOut(gone.length - log.length)} `,
      h('button', { type: 'button', class: 'inline tall', onclick: () => session.putBack() }, PUT_BACK)]));
    list.setAttribute('data-entries', String(log.length));
    const from = all ? 0 : Math.max(0, log.length - SHOWN);
    more.hidden = from === 0;
    say(more, showAll(log.length));
    list.replaceChildren(...log.map((_, i) => i).slice(from).map((i) => line(i, log, s, readings)).reverse());
  }

  /** @param {number} i @param {LogEntry[]} log @param {State} s @param {NextStep['readings']} readings */
  function line(i, log, s, readings) {
    const words = entryWords(log, i, s.doc, bench.get().next, s, desk.engine);
    const { at, room_c: c } = log[i];
    const odd = readings.find((r) => r.entry === i && !r.trusted);
    const small = [typeof at === 'number' ? timeWords(at, new Date()) : at ?? '',
      c === undefined ? '' : `${Math.round(c * 10) / 10} °C`].filter((part) => part !== '').join(', ');
    const rest = dependents(log, i);
    return h('li', {}, h('div', { class: 'happened' }, h('span', {}, words),
      odd === undefined ? null : h('span', { class: 'odd' },
        notCounted(bare(Math.abs(odd.off_cents ?? 0)))),
      h('span', { class: 'small' }, small)),
    h('button', { type: 'button', class: 'plain undo', 'aria-label': undoOf(words),
      'aria-expanded': rest.length > 0 ? String(asking === i) : null,
      onclick: () => {
        asking = rest.length > 0 && asking !== i ? i : -1;
        if (rest.length === 0) session.undo([i]);
        else render();
      } }, UNDO),
    asking === i && h('div', { class: 'sure-undo' },
      h('p', {}, goesWithIt(rest.map((k) => entryWords(log, k, s.doc, bench.get().next, s, desk.engine)))),
      h('button', { type: 'button', class: 'second', onclick: () => {
        asking = -1;
        session.undo([i, ...rest]);
      } }, takeOutAll(rest.length + 1)),
      h('button', { type: 'button', class: 'plain', onclick: () => {
        asking = -1;
        render();
      } }, KEEP_THEM)));
  }

  desk.store.subscribe(render);
  bench.subscribe(render);
  return h('section', { 'aria-label': LOG }, h('h3', {}, LOG), status, none, list, more);
}

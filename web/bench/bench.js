// web/bench/bench.js: the station Bench: what to do now, the notes, the log.

/// <reference path="./types.d.ts" />
import { h } from '../widgets/dom.js';
import { awake } from './awake.js';
import { card } from './card.js';
import { logView } from './log_view.js';
import { notesView } from './notes_view.js';
import { other } from './other.js';
import { createSession } from './session.js';

/** @param {Desk} desk @returns {Promise<Node[]>} */
export async function bench(desk) {
  const [workshop] = await Promise.all([desk.engine.workshop(), style()]);
  const session = createSession(desk, workshop);
  desk.store.subscribe((s) => { if (s.station !== 'bench') session.listener.stop(); });
  return [h('div', { class: 'bench' },
    h('div', { class: 'bench-now' }, awake(session), card(session), other(session)),
    h('div', { class: 'bench-side' }, notesView(session), logView(session)))];
}

/** The bench's own sheet, once. @returns {Promise<void>} */
function style() {
  return new Promise((loaded) => {
    // canewright.html has every sheet in itself already.
    if (getComputedStyle(document.documentElement).getPropertyValue('--bench') !== '') return loaded();
    document.head.append(h('link', { rel: 'stylesheet', href: 'style-bench.css',
      onload: () => loaded(), onerror: () => loaded() }));
  });
}

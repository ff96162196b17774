// web/shelf/shelf.js: the station Shelf: every kept flute, and the ways in and out.

import { h, say } from '../widgets/dom.js';
import { goTo } from '../widgets/reveal.js';
import { hand } from '../state/keep.js';
import { startFresh } from '../state/fresh.js';
import { isExample } from '../state/keeper.js';
import { deed, flush } from './deeds.js';
import { entry } from './entry.js';
import { isShelfKey, shelfOf } from './flutes.js';
import { marksOf } from './files.js';
import { handList } from './own/hand.js';
import { ownSheet } from './own/own.js';
import { comparison } from './pattern.js';
import { lengthOf } from './picture.js';
import { sheet } from './sheet.js';
import { store } from './store.js';
import { ANOTHER, EXAMPLE_IN_HAND, IS_BACK, KEPT_HERE, NONE_FOUND, NO_ROOM_BACK, SEARCH, SEARCH_SHELF, UNDO,
  notLoaded } from './words.js';

const AFTER_MS = 400;     // after a change the flute in hand is kept by then
const SEARCH_FROM = 5;    // fewer are seen at a glance

/** @param {Desk} desk @returns {Promise<Node[]>} */
export async function shelf(desk) {
  await sheet();
  /** @type {Map<string, ReturnType<typeof entry>>} */
  const entries = new Map();
  const list = h('ul', { class: 'shelf' });
  const lead = h('p', { class: 'lead' });
  const outcome = h('p', { class: 'outcome', role: 'status' });
  const search = h('input', { type: 'search', class: 'words', 'aria-label': SEARCH_SHELF,
    autocomplete: 'off', spellcheck: 'false', oninput: () => filter() });
  const finder = h('label', { class: 'finder' }, SEARCH, search);
  const none = h('p', { class: 'note', hidden: true }, NONE_FOUND);
  const own = ownSheet(desk, () => refresh());
  const teaching = handList(desk);
  const ways = store(desk, { say: (words) => tell({ words }), changed: () => refresh(), show });

  /** What was brought in lies open before the maker, whatever was searched for; else what is said of it is there
   * to be read. @param {string} [id] */
  function show(id = '') {
    if (id === '') return outcome.scrollIntoView({ block: 'center' });
    search.value = '';
    filter();
    entries.get(id)?.show();
  }

  /** @param {{words: string, undo?: () => Promise<void>}} news */
  function tell({ words, undo }) {
    outcome.replaceChildren(words, ...(undo === undefined ? [] : [' ', h('button', { type: 'button',
      class: 'inline', onclick: () => void undo().then(() => {
        outcome.replaceChildren(IS_BACK);
        refresh();
      }, () => say(outcome, NO_ROOM_BACK)) }, UNDO)]));
  }

  function filter() {
    const words = search.value.trim().toLowerCase();
    let found = 0;
    for (const one of entries.values()) {
      one.element.hidden = words !== '' && !one.shows(words);
      if (!one.element.hidden) found += 1;
    }
    none.hidden = found > 0;
  }

  function refresh() {
    const s = desk.store.get();
    const example = isExample(s);
    // Left over from when an untouched example was kept too: nothing of the maker's.
    const kept = shelfOf().filter((f) => f.id === hand.id || !isExample({ ...f.kept, example: s.example }));
    const all = kept.some((f) => f.id === hand.id) ? kept
      : [{ id: '', at: 0, kept: s, marks: marksOf(s.answer), revision: 0, json: '' }, ...kept];
    const longest = Math.max(300, ...all.map((f) => lengthOf(f.kept.good, f.marks)));
    for (const [id, one] of entries) {
      if (all.some((f) => f.id === id)) continue;
      one.element.remove();
      entries.delete(id);
    }
    all.sort((a, b) => Number(b.id === hand.id || b.id === '') - Number(a.id === hand.id || a.id === ''));
    all.forEach((flute, i) => {
      let one = entries.get(flute.id);
      if (one === undefined) {
        one = entry(desk, async (what, of, name) => {
          tell(await deed(desk, what, of, name).catch((error) => ({
            words: notLoaded(String(error)) })));
          flush(desk);
          refresh();
        });
        entries.set(flute.id, one);
      }
      one.update(flute, flute.id === hand.id || flute.id === '', longest);
      if (list.children[i] !== one.element) list.insertBefore(one.element, list.children[i] ?? null);
    });
    finder.hidden = all.length < SEARCH_FROM;
    if (finder.hidden) search.value = '';
    say(lead, example && kept.length === 0 ? EXAMPLE_IN_HAND : KEPT_HERE);
    filter();
    teaching.refresh(kept);
    ways.refresh(kept.map((f) => ({ ...f.kept, marks: f.marks })));
  }

  const another = h('button', { type: 'button', class: 'take', onclick: () => {
    if (!flush(desk)) return;
    startFresh(desk);
    goTo(desk, 'cane');
  } }, ANOTHER);

  let timer = 0;
  let station = '';
  /** @type {unknown} */
  let doc = null;
  desk.store.subscribe((s) => {
    if (s.station !== 'shelf') {
      station = s.station;
      return;
    }
    if (station !== 'shelf') {
      station = 'shelf';
      say(outcome, '');
      flush(desk);
      refresh();
    } else if (s.doc !== doc || timer === 0) {
      clearTimeout(timer);
      timer = window.setTimeout(() => { timer = 0; refresh(); }, AFTER_MS);
    }
    doc = s.doc;
  });
  addEventListener('storage', ({ key }) => {
    if (isShelfKey(key) && desk.store.get().station === 'shelf') refresh();
  });
  return [lead, outcome, comparison(desk), finder, none, list, h('p', { class: 'buttons' }, another),
    own.element, teaching.element, ...ways.parts];
}

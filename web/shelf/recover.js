// web/shelf/recover.js: what the second copy has and the first has not, back into the maker's hand.

import { hand, parsed } from '../state/keep.js';
import { GONE, isExample, known, newId, write, written } from '../state/keeper.js';
import { copies } from '../state/second.js';
import { newest } from '../state/slots.js';
import { show, take } from './take.js';

/** Where the second copy is ahead, the browser was killed before the first was on the disk, or there
 * was no room for the first: then what is shown is the second, and that is said.
 * @param {Desk} desk @param {(news: News) => void} tell */
export async function recover(desk, tell) {
  const all = (await copies()).sort((a, b) => b.at - a.at);
  for (const { id, revision, json } of all) {
    const kept = parsed(json);
    const first = newest(id);
    if (kept === null || (first?.revision ?? 0) >= revision || localStorage.getItem(GONE + id) !== null) continue;
    const shown = hand.id === id || (hand.id === '' && isExample(desk.store.get()));
    const touched = hand.id === id && written(desk.store.get()) !== hand.json;
    let room = true;
    try {
      write(touched ? newId() : id, revision - 1, json);
    } catch {
      room = false;  // it is still in the second copy
    }
    if (shown && !touched) {
      if (room) await take(desk, id);
      else if (await show(desk, { ...kept, marks: JSON.parse(json).marks }) === '') {
        // It is kept again, under its own name, as soon as there is room.
        Object.assign(hand, first ?? { revision: 0, json: '' }, { id });
        known.loose = '';
      }
    }
    if (!room) tell('second');
  }
}

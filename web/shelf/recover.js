// web/shelf/recover.js: what the second copy has and the first has not, back into the maker's hand.

import { hand, parsed } from '../state/keep.js';
import { GONE, isExample, known, newId, work, write } from '../state/keeper.js';
import { copy } from '../state/second.js';
import { newest } from '../state/slots.js';
import { show, take } from './take.js';

/** @typedef {import('../state/second.js').Copy} Copy */

/** Where the second copy is ahead, the browser was killed before the first was on the disk, or there
 * was no room for the first: then what is shown is the second, and that is said.
 * @param {Desk} desk @param {(news: News) => void} tell
 * @param {{all: Copy[], begun: typeof hand}} were  the copies, and what was in hand, before this page kept
 *   anything */
export async function recover(desk, tell, { all, begun }) {
  for (const { id, revision, json } of all.sort((a, b) => b.at - a.at)) {
    const kept = parsed(json);
    const first = newest(id);
    const had = id === begun.id ? begun.revision : first?.revision ?? 0;
    if (kept === null || had >= revision || localStorage.getItem(GONE + id) !== null) continue;
    const shown = hand.id === id || (hand.id === '' && isExample(desk.store.get()));
    // By the maker, kept by now or not; what this page has reckoned of it since is no touch.
    const mine = parsed(begun.json);
    const touched = hand.id === id && (mine === null || work(desk.store.get()) !== work(mine));
    const at = touched ? newId() : id;
    let room = true;
    try {
      void copy(at, write(at, revision - 1, json), json);
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

// web/shelf/deeds.js: what can be done with a flute of the shelf, and in words what came of it.

import { isBlank } from '../state/desk.js';
import { hand } from '../state/keep.js';
import { keep, known, work } from '../state/keeper.js';
import { handOf } from '../state/taught.js';
import { tell } from './tell.js';
import { add, bringBack, fluteOf, remove, rename } from './flutes.js';
import { downloadFlute } from './files.js';
import { TAKEN_OVER, takeAsPattern, withoutPattern } from './pattern.js';
import { show, take } from './take.js';
import { copyName } from './names.js';
import { FULL, NO_UNDO, STAYS_IN_HAND, TAUGHT_WAITS, cannotBeShown, isCopied, isDeleted, isInHand, isOffered, isPattern, nameOf,
  quoted } from './words.js';

/** @typedef {{words: string, undo?: () => Promise<void>}} Outcome */

/** The flute in hand on the shelf is as it is on the page. @param {Desk} desk */
export function flush(desk) {
  const news = keep(desk.store.get());
  if (news !== '') tell(desk, news);
  return news !== 'lost';
}

/** @param {Desk} desk @param {string} deed @param {Flute} flute @param {string} [name]
 * @returns {Promise<Outcome>} */
export async function deed(desk, deed, flute, name = '') {
  const whole = quoted(nameOf(flute.kept.doc));
  const held = flute.id === hand.id;
  if (deed === 'take') return { words: await taken(desk, flute.id, whole) };
  if (deed === 'duplicate') return { words: duplicate(desk, held, flute) };
  if (deed === 'remove') return removed(desk, flute, held, whole);
  if (deed === 'pattern') {
    const { wrong, before } = await takeAsPattern(desk, flute);
    if (wrong) return { words: wrong };
    return { words: isPattern(whole, isBlank(before)) + (handOf(before) === undefined ? '' : TAUGHT_WAITS),
      undo: async () => desk.edit((s) => withoutPattern(s, before), TAKEN_OVER) };
  }
  if (deed === 'download') {
    downloadFlute(held ? desk.store.get() : { ...flute.kept, marks: flute.marks });
    return { words: isOffered(whole) };
  }
  if (deed === 'print') {
    await desk.print();
    return { words: '' };
  }
  if (held) desk.set('name', name === '' ? undefined : name);
  else {
    try {
      rename(fluteOf(flute.id) ?? flute, name);
    } catch {
      return { words: FULL };
    }
  }
  return { words: '' };
}

/** @param {Desk} desk @param {string} id @param {string} whole its name */
async function taken(desk, id, whole) {
  const came = await take(desk, id);
  if (came === 'lost') {
    tell(desk, 'lost');
    return STAYS_IN_HAND;
  }
  return came === '' ? isInHand(whole) : cannotBeShown(whole);
}

/** A copy for another tube. @param {Desk} desk @param {boolean} held @param {Flute} flute */
function duplicate(desk, held, flute) {
  const from = held ? desk.store.get() : flute.kept;
  const name = copyName(from.doc.name ?? '');
  const { log, ...doc } = from.doc;
  const { log: _, ...good } = from.good;
  try {
    add({ doc: { ...doc, name }, good: { ...good, name }, typed: without(from.typed, 'name'),
      aside: from.aside }, flute.marks);
  } catch {
    return FULL;
  }
  return isCopied(quoted(name), log !== undefined && log.length > 0);
}

/** @param {Record<string, Typed>} typed @param {string} path */
const without = (typed, path) => Object.fromEntries(Object.entries(typed).filter(([p]) => p !== path));

/** @param {Desk} desk @param {Flute} flute @param {boolean} held @param {string} whole its name
 * @returns {Promise<Outcome>} */
async function removed(desk, flute, held, whole) {
  if (held && !flush(desk)) return { words: FULL };
  const { id } = flute;
  try {
    remove(id);
  } catch {
    return { words: NO_UNDO };
  }
  if (held) {
    // What is on the page was kept a moment ago, and is not to be kept again.
    known.loose = work(desk.store.get());
    const example = JSON.parse(desk.store.get().example);
    await show(desk, { doc: example, good: example, typed: {}, aside: {} });
    known.loose = '';
  }
  return { words: isDeleted(whole), undo: async () => {
    bringBack(id);
    if (held) await take(desk, id);
  } };
}

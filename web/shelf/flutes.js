// web/shelf/flutes.js: the kept flutes as a list; added, renamed, deleted, brought back.

import { ASIDE, GONE, newId, slotText, write } from '../state/keeper.js';
import { parsed } from '../state/keep.js';
import { isMarks } from '../state/plan.js';
import { forget } from '../state/second.js';
import { FLUTES, flutes, newest, readSlot, slotKey } from '../state/slots.js';

/** What of this browser's storage is this page's own. */
const OLD = 'canewright/1';

/** @param {string | null} text of a slot @returns {number} when it was written [ms] */
const timeOf = (text) => (readSlot(text) === null ? 0 : Number(text?.split(' ', 3)[2]));

/** @param {string} id @param {Slot | null} slot @param {number} at @returns {Flute | null} */
function flute(id, slot, at) {
  const kept = slot === null ? null : parsed(slot.json);
  if (slot === null || kept === null) return null;
  const { marks } = JSON.parse(slot.json);
  return { id, at, kept, marks: isMarks(marks) ? marks : null, revision: slot.revision, json: slot.json };
}

/** @param {string} id @returns {Flute | null} */
export function fluteOf(id) {
  const at = Math.max(...[0, 1].map((slot) => timeOf(localStorage.getItem(slotKey(id, slot)))));
  return flute(id, newest(id), at);
}

/** Every kept flute, the one worked on last first. @returns {Flute[]} */
export function shelfOf() {
  try {
    return flutes().flatMap((id) => fluteOf(id) ?? []).sort((a, b) => b.at - a.at);
  } catch {
    return [];
  }
}

/** Puts a flute on the shelf. Throws where there is no room.
 * @param {Pick<Kept, 'doc' | 'good' | 'typed' | 'aside'>} kept @param {Marks | null} marks */
export function add({ doc, good, typed, aside }, marks) {
  const id = newId();
  write(id, 0, JSON.stringify({ doc, good, typed, aside, ...(marks === null ? {} : { marks }) }));
  return id;
}

/** @param {Flute} of @param {string} name */
export function rename(of, name) {
  const whole = JSON.parse(of.json);
  for (const doc of [whole.doc, whole.good]) {
    if (name === '') delete doc.name;
    else doc.name = name;
  }
  write(of.id, of.revision, JSON.stringify(whole));
}

/** Off the shelf, but not out of this browser. @param {string} id */
export function remove(id) {
  const slots = [0, 1].map((slot) => slotKey(id, slot));
  const now = newest(id);
  const [older, newer] = slots.sort((a, b) =>
    (readSlot(localStorage.getItem(a))?.revision ?? 0) - (readSlot(localStorage.getItem(b))?.revision ?? 0));
  if (now === null) return;
  localStorage.removeItem(older);  // makes room for the one that stays
  localStorage.setItem(GONE + id, slotText(now.revision, Date.now(), now.json));
  localStorage.removeItem(newer);
}

/** @param {string} id */
export function bringBack(id) {
  const slot = readSlot(localStorage.getItem(GONE + id));
  if (slot === null) return;
  write(id, slot.revision, slot.json);
  localStorage.removeItem(GONE + id);
}

/** @param {string} id */
export function destroy(id) {
  localStorage.removeItem(GONE + id);
  void forget(id);
}

/** @param {string} start */
function keysFrom(start) {
  try {
    return Object.keys(localStorage).filter((key) => key.startsWith(start)).sort();
  } catch {
    return [];
  }
}

/** Deleted flutes, the last one first. */
export const deleted = () => keysFrom(GONE).flatMap((key) => {
  const text = localStorage.getItem(key);
  return flute(key.slice(GONE.length), readSlot(text), timeOf(text)) ?? [];
}).sort((a, b) => b.at - a.at);

/** Data that could not be read back, as it was found. */
export const setAsideOnes = () => keysFrom(ASIDE)
  .map((key) => ({ key, text: localStorage.getItem(key) ?? '' }));

/** Keys whose change in another tab changes the shelf. @param {string | null} key */
export const isShelfKey = (key) => key === null || key === OLD
  || [FLUTES, GONE, ASIDE].some((start) => key.startsWith(start));

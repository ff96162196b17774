// web/state/keep.js: recalls the flute that was in hand when the page was last open in this browser.
// keeper.js keeps it.

import { flutes, newest } from './slots.js';

export const OLD = 'canewright/1';  // where versions up to 0.9 kept their one flute
export const MOVED = 'canewright/moved';
export const HAND = 'canewright/hand';  // which flute, and the station, of this tab and of the last one

const EARLY = 'canewright/early';  // what was in hand when the page went before its keeper had come

/** Until keeper.js is there: what was typed meanwhile outlasts a reload. @param {State} s */
export function keepEarly({ doc, good, typed, aside, station }) {
  try {
    sessionStorage.setItem(EARLY, JSON.stringify({ doc, good, typed, aside, station }));
  } catch { /* this browser keeps nothing */ }
}

/** The flute in hand as last kept; `id` is '' while there is nothing worth keeping. */
export const hand = { id: '', revision: 0, json: '' };

/**
 * What was kept, or null. Shape is checked here, values by the core.
 * @returns {Kept | null}
 */
export function recall() {
  try {
    const early = parsed(sessionStorage.getItem(EARLY) ?? '');
    sessionStorage.removeItem(EARLY);
    const [last, station] = (sessionStorage.getItem(HAND) ?? localStorage.getItem(HAND) ?? '-').split(' ');
    for (const id of last === '' ? [] : [last, ...flutes(), '']) {
      const found = id === '' ? { revision: 0, json: localStorage.getItem(OLD) ?? '' } : newest(id);
      const kept = parsed(found?.json ?? '');
      if (kept === null) continue;
      Object.assign(hand, found, { id });
      return early ?? (station ? { ...kept, station } : kept);
    }
    return early;
  } catch { /* this browser keeps nothing */ }
  return null;
}

/** @param {string} json @returns {Kept | null} */
export function parsed(json) {
  try {
    const { doc, good, typed, aside, station } = JSON.parse(json);
    if (!isDocument(doc) || !isDocument(good)) return null;
    return { doc, good, typed: typedTexts(typed), aside: isObject(aside) ? aside : {},
      station: typeof station === 'string' ? station : '' };
  } catch {
    return null;
  }
}

/** @param {unknown} value @returns {value is Record<string, any>} */
export function isObject(value) {
  return value !== null && typeof value === 'object' && !Array.isArray(value);
}

/** The parts without which the page has nothing to show.
 * @param {any} value @returns {value is Doc} */
export function isDocument(value) {
  return isObject(value) && isObject(value.tube) && isObject(value.sound_hole)
    && isObject(value.song) && Array.isArray(value.tube.bore) && value.tube.bore.length > 0
    && value.tube.bore.every(isObject);
}

/** @param {unknown} value @returns {Record<string, Typed>} */
function typedTexts(value) {
  if (!isObject(value)) return {};
  return Object.fromEntries(Object.entries(value).filter(([, t]) =>
    isObject(t) && typeof t.text === 'string' && typeof t.unit === 'string'
    && (t.problem === null || (isObject(t.problem) && typeof t.problem.code === 'string'))));
}

// web/state/slots.js: one flute in this browser's storage, twice: a new state goes over the older of
// the two, so that a power cut in mid-save leaves the other. Knows nothing of the page.
//
// A slot's text: CHECKSUM REVISION TIME JSON, the checksum over all that comes after it.

export const FLUTES = 'canewright/flute/';

/** FNV-1a, 32 bits, over UTF-16 units: the published function for plain ASCII.
 * @param {string} text */
export function checksum(text) {
  let sum = 0x811c9dc5;
  for (let i = 0; i < text.length; i += 1) sum = Math.imul(sum ^ text.charCodeAt(i), 0x1000193);
  return (sum >>> 0).toString(16);
}

/** @param {string} id @param {number} slot 0 or 1 */
export const slotKey = (id, slot) => `${FLUTES}${id}/${slot}`;

/** @param {string | null} text @returns {Slot | null} null: not as it was written */
export function readSlot(text) {
  const [, sum, rest, revision, json] = /^(\w+) ((\d+) \d+ (.*))$/s.exec(text ?? '') ?? [];
  return rest && checksum(rest) === sum ? { revision: +revision, json } : null;
}

/** The newer whole slot of a flute; null: there is none. @param {string} id */
export function newest(id) {
  const [a, b] = [0, 1].map((slot) => readSlot(localStorage.getItem(slotKey(id, slot))));
  return a !== null && a.revision > (b?.revision ?? 0) ? a : b;
}

/** Every flute that is kept here, the newest made first. */
export function flutes() {
  const ids = Object.keys(localStorage).filter((key) => key.startsWith(FLUTES))
    .map((key) => key.slice(FLUTES.length, -2));
  return [...new Set(ids)].sort().reverse();
}

// tests/web/keep_browser.mjs -- as much of a browser as keeping needs: a storage that can be full, an
// address, and the page closed and opened again.

/** Keys are properties, as a browser has them. */
export class Shop {
  /** @param {number} room in characters */
  constructor(room = Infinity) {
    Object.defineProperty(this, 'room', { value: room, writable: true });
  }

  keys() { return Object.keys(this); }

  getItem(key) { return Object.hasOwn(this, key) ? this[key] : null; }

  setItem(key, text) {
    const used = Object.entries(this).reduce((sum, [k, t]) => sum + (k === key ? 0 : k.length + t.length), 0);
    if (used + key.length + text.length > this.room) throw new Error('QuotaExceededError');
    this[key] = String(text);
  }

  removeItem(key) { delete this[key]; }
}

/** A browser that was never here. */
export function clean() {
  globalThis.localStorage = new Shop();
  globalThis.sessionStorage = new Shop();
}
clean();
Object.defineProperty(globalThis, 'navigator', { value: {}, configurable: true });
globalThis.location = { href: 'https://flute.example/' };
globalThis.history = { replaceState: (_s, _t, to) => { globalThis.location.href = to; } };
const { hand, recall } = await import('../../web/state/keep.js');
const { known } = await import('../../web/state/keeper.js');

export const DOC = { format: 'canewright/1', name: 'Otter bank', tube: { bore: [{ at_mm: 0, diameter_mm: 18 }],
  wall_mm: 3, end_mm: 420 }, sound_hole: { length_mm: 5, width_mm: 9 },
song: { lowest: 'G4', scale: 'minor pentatonic', holes: 5 } };
export const EXAMPLE = { ...DOC, name: 'The example' };
const answer = { foot_mm: 380, finger_holes: [{ at_mm: 180, diameter_mm: 7 }], notes: [{ open: [], name: 'G4' }] };
export const stateOf = (doc, more = {}) => ({ doc, good: doc, typed: {}, aside: {}, answer,
  example: JSON.stringify(EXAMPLE), station: 'marks', ...more });
export const named = (name) => ({ ...DOC, name });

/** The page is closed and opened again; `tab` keeps what belongs to one tab. */
export function reopen({ tab = true } = {}) {
  if (!tab) globalThis.sessionStorage = new Shop();
  Object.assign(hand, { id: '', revision: 0, json: '' });
  Object.assign(known, { work: '', loose: '', before: null });
  return recall();
}

export function begin() {
  clean();
  reopen();
  globalThis.location.href = 'https://flute.example/';
}

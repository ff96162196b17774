// web/state/fresh.js: a tube nobody has measured yet. Nothing of the example may reach it: of the
// maker's last flute it has the habits (units, rooms, shop, song), of a tube nothing. Loaded when asked for.

import { hand, isObject, parsed } from './keep.js';
import { isExample, keep, known, work } from './keeper.js';
import { flutes, newest, slotKey } from './slots.js';

/** What a flute is asked for while nobody has said: it lets the tube choose. @type {Doc['song']} */
const SONG = { lowest: 'free', scale: 'minor pentatonic', holes: 5 };

/** The keys of one that are not just so in the other. @template {object} T @param {T | undefined} mine
 * @param {any} other @returns {Partial<T>} */
function unlike(mine, other) {
  return /** @type {Partial<T>} */ (Object.fromEntries(Object.entries(mine ?? {})
    .filter(([key, value]) => JSON.stringify(value) !== JSON.stringify(other?.[key]))));
}

/** Whether it is several flutes' teaching, not one flute's pattern. @param {any} pattern */
export const isHand = (pattern) => isObject(pattern) && 'between' in pattern;

/** @param {Doc | null} own the maker's last flute @param {Doc} example @returns {Doc} */
export function freshDoc(own, example) {
  const shop = unlike(own?.shop, example.shop);
  const air = unlike(own?.air, example.air);
  return {
    format: example.format,
    ...(own?.show === undefined ? {} : { show: own.show }),
    ...(Object.keys(air).length === 0 ? {} : { air }),
    tube: /** @type {any} */ ({ bore: [{ at_mm: 0 }] }), sound_hole: /** @type {any} */ ({}),
    song: { ...SONG, ...unlike(own?.song, example.song) },
    // several flutes' teaching is the maker's; a single pattern was that tube's choice
    ...(isHand(own?.pattern) ? { pattern: own?.pattern } : {}),
    ...(Object.keys(shop).length === 0 ? {} : { shop }),
  };
}

/** The flute worked on last, but for the example. @param {State} s @returns {Doc | null} */
export function lastOwn(s) {
  if (!isExample(s)) return s.doc;
  const last = flutes().flatMap((id) => {
    const at = Math.max(...[0, 1].map((slot) => Number(localStorage.getItem(slotKey(id, slot))?.split(' ')[2] ?? 0)));
    const kept = parsed(newest(id)?.json ?? '');
    return kept === null || !Number.isFinite(at) ? [] : [{ at, doc: kept.doc }];
  }).sort((a, b) => b.at - a.at)[0];
  return last?.doc ?? null;
}

/** What is in hand is kept; then an empty tube is. @param {Desk} desk
 * @returns {boolean} false: what is in hand cannot be kept, so it stays */
export function startFresh(desk) {
  const s = desk.store.get();
  if (keep(s) === 'lost') return false;
  let own = null;
  try {
    own = lastOwn(s);
  } catch { /* nothing is kept here */ }
  const doc = freshDoc(own, JSON.parse(s.example));
  const { good, typed, aside, station, plan } = s;
  known.before = hand.id === '' ? null : { ...hand, work: known.work };
  Object.assign(hand, { id: '', revision: 0, json: '' });
  known.loose = work({ doc, typed: {}, aside: {} });
  desk.edit(() => ({ doc, good: doc, typed: {}, aside: {}, plan: null, trial: null,
    before: isExample(s) ? null : { doc: s.doc, good, typed, aside, station, plan } }), ['']);
  return true;
}

/** Keys of a document that tell of the tube itself. @param {Doc} doc */
const tubeOf = ({ tube: { material: _, ...tube }, sound_hole: hole }) => JSON.stringify([tube, hole]);

/** @param {Doc} doc */
function restOf({ tube, sound_hole: _hole, shop, plug, ...rest }) {
  const { bore_mm: _bore, ...habits } = shop ?? {};
  return JSON.stringify([tube.material, habits, plug?.thickness_mm, rest]);
}

/** The example's own name, cane and parts above the sound hole are not those of a tube that somebody
 * else has measured: they go with its first figure that is another. @param {Doc} doc @param {State} s */
export function madeOwn(doc, s) {
  const example = JSON.parse(s.example);
  const { name, track, chamber, plug, ...rest } = /** @type {Doc & {chamber?: unknown}} */ (doc);
  /** @param {string} key @param {unknown} value @param {unknown} theirs */
  const mine = (key, value, theirs) => (value === undefined || (JSON.stringify(value) === JSON.stringify(theirs)
    && !Object.keys(s.typed).some((path) => path === key || path.startsWith(`${key}.`))) ? {} : { [key]: value });
  const { thickness_mm: _thick, ...face } = plug ?? {};
  const { material, ...tube } = rest.tube;
  const stop = plug?.thickness_mm === example.plug.thickness_mm && s.typed['plug.thickness_mm'] === undefined ? face : plug;
  return /** @type {Doc} */ ({ ...rest, ...mine('name', name, example.name), ...mine('track', track, example.track),
    ...mine('chamber', chamber, example.chamber), ...(isObject(stop) && Object.keys(stop).length > 0 ? { plug: stop } : {}),
    tube: { ...tube, ...mine('material', material, example.tube.material) } });
}

/** From now on. @param {Desk} desk */
export function ownTubes({ store }) {
  /** @type {Doc} */
  const example = JSON.parse(store.get().example);
  /** The document while its tube is the example's; to begin with also one that was changed before this was
   * loaded, or by an earlier version. @type {Doc | null} */
  let last = example;
  const theirs = tubeOf(example);
  /** @type {Doc | null} */
  let seen = null;
  store.subscribe((s) => {
    if (s.doc === seen) return;
    seen = s.doc;
    const before = last;
    last = tubeOf(s.doc) === theirs ? s.doc : null;
    if (last !== null || before === null || restOf(s.doc) !== restOf(before)) return;
    store.change((now) => (now.doc === s.doc ? { ...now, doc: madeOwn(s.doc, now) } : now));
  });
}

// web/state/fresh.js: a tube nobody has measured yet. Nothing of the example may reach it: of the
// maker's last flute it has the habits (units, rooms, shop, song), of a tube nothing. Loaded when asked for.

import { handsFor } from './hands.js';
import { hand, isObject, parsed } from './keep.js';
import { isExample, keep, known, work } from './keeper.js';
import { flutes, newest, slotKey } from './slots.js';
import { handOf } from './taught.js';

/** What a flute is asked for while nobody has said: it lets the tube choose. High notes are blown harder, by as
 * much as the Bench expects of a player it does not know (core/bench/belief/unknowns). @type {Doc['song']} */
const SONG = { lowest: 'free', scale: 'minor pentatonic', holes: 5, lift_cents: 5 };

/** @typedef {Pick<Kept, 'doc' | 'typed' | 'aside'>} Whose */

/** What is the maker's of a flute that came of the example: what is not just so in the example, and what they
 * typed, whatever it is. @param {any} mine @param {any} other @param {string} path @param {State['typed']} typed
 * @returns {any} undefined: nothing is */
function ofMaker(mine, other, path, typed) {
  if (isObject(mine) && isObject(other)) {
    const left = Object.entries(mine).map(([key, value]) => [key, ofMaker(value, other[key], `${path}.${key}`, typed)])
      .filter(([, value]) => value !== undefined);
    return left.length === 0 ? undefined : Object.fromEntries(left);
  }
  const touched = Object.keys(typed).some((each) => each === path || each.startsWith(`${path}.`) || each.startsWith(`${path}[`));
  return touched || JSON.stringify(mine) !== JSON.stringify(other) ? mine : undefined;
}

/** The hands of a flute with other holes, as near to those there were as can be. @template {Doc} D @param {D} doc
 * @returns {D} */
export function withFittingHands(doc) {
  const { song: { holes }, shop: { hands, ...shop } = {} } = doc;
  if (hands === undefined || hands.reduce((sum, count) => sum + count, 0) === holes) return doc;
  return { ...doc, shop: { ...shop, ...(holes > 1 ? { hands: handsFor(holes, hands) } : {}) } };  // of one hole nothing is shared
}

/** Habits go on to the next flute. A flute that was begun empty holds nothing but its maker's, so all of its
 * habits do, also where the example happens to have the same. In one that came of the example nobody can tell
 * what the maker left on purpose from what they never saw: of it only what they made another, or typed.
 * @param {Whose | null} own the maker's last flute @param {Doc} example @returns {Doc} */
export function freshDoc(own, example) {
  const typed = own?.typed ?? {};
  const empty = own?.aside.begun === 'empty' || own?.aside.begun === 'sheet';
  /** @param {'shop' | 'air' | 'song'} key @returns {any} */
  const habits = (key) => (empty ? own.doc[key] : ofMaker(own?.doc[key], example[key], key, typed));
  const { bore_mm: bore, ...rest } = habits('shop') ?? {};
  // how well one tube's bore was measured is that tube's, unless the maker has said how well they measure
  const shop = typed['shop.bore_mm'] === undefined || bore === undefined ? rest : { ...rest, bore_mm: bore };
  const air = habits('air');
  const taught = own === null ? undefined : handOf(own);
  return withFittingHands({
    format: example.format,
    ...(own?.doc.show === undefined ? {} : { show: own.doc.show }),
    ...(air === undefined ? {} : { air }),
    tube: /** @type {any} */ ({ bore: [{ at_mm: 0 }] }), sound_hole: /** @type {any} */ ({}),
    song: { ...SONG, ...habits('song') },
    // several flutes' teaching is the maker's; a single pattern was that tube's choice
    ...(taught === undefined ? {} : { pattern: taught }),
    ...(Object.keys(shop).length === 0 ? {} : { shop }),
  });
}

/** The maker's flute worked on last, but for the example, with the last hand that any of theirs has. What came by a
 * link or a file may be a friend's: it counts only where there is no other. @param {State} s @returns {Whose | null} */
export function lastOwn(s) {
  /** @param {Whose} one */
  const came = ({ aside: { begun } }) => begun === 'link' || begun === 'file';
  if (!isExample(s) && !came(s) && handOf(s) !== undefined) return s;
  const kept = flutes().flatMap((id) => {
    const at = Math.max(...[0, 1].map((slot) => Number(localStorage.getItem(slotKey(id, slot))?.split(' ')[2] ?? 0)));
    const one = parsed(newest(id)?.json ?? '');
    return one === null || !Number.isFinite(at) ? [] : [{ ...one, at }];
  }).sort((a, b) => b.at - a.at);
  const mine = kept.filter((one) => !came(one));
  const own = isExample(s) || came(s) ? mine[0] ?? (isExample(s) ? kept[0] ?? null : s) : s;
  const taught = mine.find((one) => handOf(one) !== undefined);
  return own === null || handOf(own) !== undefined || taught === undefined ? own
    : { ...own, aside: { ...own.aside, hand: handOf(taught) } };
}

/** An empty tube with this maker's habits. @param {State} s */
export function ownFresh(s) {
  /** @type {Whose | null} */
  let own = isExample(s) ? null : s;
  try {
    own = lastOwn(s);
  } catch { /* nothing is kept here */ }
  return freshDoc(own, JSON.parse(s.example));
}

/** What is in hand is kept; then an empty tube is. @param {Desk} desk
 * @returns {boolean} false: what is in hand cannot be kept, so it stays */
export function startFresh(desk) {
  const s = desk.store.get();
  if (keep(s) === 'lost') return false;
  const doc = ownFresh(s);
  const { good, typed, aside, station, plan } = s;
  known.before = hand.id === '' ? null : { ...hand, work: known.work };
  Object.assign(hand, { id: '', revision: 0, json: '' });
  /** @type {Aside} */
  const begun = { begun: 'empty' };
  known.loose = work({ doc, typed: {}, aside: begun });
  desk.edit(() => ({ doc, good: doc, typed: {}, aside: begun, plan: null, trial: null,
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

// web/state/keeper.js: keeps the flute in hand while it is worked on, so that nothing typed is lost by
// a reload, a dead battery or a second tab. Loaded as soon as the page has answered; keep.js recalls.

import { HAND, MOVED, OLD, hand, parsed } from './keep.js';
import { isBlank } from './desk.js';
import { keptMarks, planAlways, planOf } from './plan.js';
import { copy } from './second.js';
import { FLUTES, checksum, flutes, newest, readSlot, slotKey } from './slots.js';

export const ASIDE = 'canewright/aside/';
export const GONE = 'canewright/gone/';  // deleted by the maker, and can be brought back
const AFTER_MS = 150;  // from a change until it is kept

/** @typedef {typeof hand} Hand */

/** What keep() knows besides the hand. `loose`: work shown but not kept until it is touched, such as
 * what a link brought. `before`: the flute that 'back to the example' put away.
 * @type {{work: string, loose: string, before: Hand & {work: string} | null}} */
export const known = { work: '', loose: '', before: null };

/** All that a maker can lose. @param {Pick<Kept, 'doc' | 'typed' | 'aside'>} s */
export const work = (s) => JSON.stringify([s.doc, s.typed, s.aside]);

/** @param {Pick<State, 'doc' | 'typed' | 'aside' | 'example'>} s */
export const isExample = (s) => work(s) === `[${s.example},{},{}]`;

/** What is kept of a state, with its marks: for the shelf's pictures, and as a build's plan.
 * @param {Pick<State, 'doc' | 'good' | 'typed' | 'aside' | 'answer' | 'plan'>} s */
export function written(s) {
  const { doc, good, typed, aside } = s;
  return JSON.stringify({ doc, good, typed, aside, ...(isBlank(s) ? {} : { marks: keptMarks(s) }) });
}

/** @param {number} revision @param {number} at time [ms] @param {string} json */
export function slotText(revision, at, json) {
  const text = `${revision} ${at} ${json}`;
  return `${checksum(text)} ${text}`;
}

/** Keys of a flute's slots that are not as they were written. @param {string} id */
export const damaged = (id) => [0, 1].map((slot) => slotKey(id, slot)).filter((key) => {
  const text = localStorage.getItem(key);
  return text !== null && readSlot(text) === null;
});

/** @param {string} key @param {string} text */
function put(key, text) {
  localStorage.setItem(key, text);
  if (localStorage.getItem(key) !== text) throw new Error('not kept');
}

/** Damaged data is moved out of the way, never deleted. Throws where there is no room for that.
 * @param {string} key */
export function setAside(key) {
  const text = localStorage.getItem(key) ?? '';
  put(`${ASIDE}${Date.now()}/${key}`, text);
  localStorage.removeItem(key);
}

/** Writes over the older slot. Throws when the browser does not keep it.
 * @param {string} id @param {number} above the revision that was there @param {string} json */
export function write(id, above, json) {
  damaged(id).forEach(setAside);
  const now = newest(id);
  const first = readSlot(localStorage.getItem(slotKey(id, 0)));
  const key = slotKey(id, first !== null && first.revision === now?.revision ? 1 : 0);
  const next = Math.max(above, now?.revision ?? 0) + 1;
  put(key, slotText(next, Date.now(), json));
  return next;
}

/** A name that sorts by its time. */
export const newId = () => Date.now().toString(36) + Math.random().toString(36).slice(2, 7);

/** What an older version of this page kept becomes a flute of the shelf; its own text stays until
 * that has been read back once. */
export function migrate() {
  const old = localStorage.getItem(OLD);
  if (old === null || parsed(old) === null) return;
  const sum = checksum(old);
  if (localStorage.getItem(MOVED) === sum) {
    if (hand.id !== '') localStorage.removeItem(OLD);
    return;
  }
  const id = newId();
  const revision = write(id, 0, old);
  localStorage.setItem(MOVED, sum);
  if (hand.json === old) Object.assign(hand, { id, revision });
}

/** Makes the next work that is kept a flute of its own. */
function startFlute() {
  // The first one ever: what there is now would be a loss.
  if (flutes().length === 0) navigator.storage?.persist?.().catch(() => {});
  Object.assign(hand, { id: newId(), revision: 0, json: '' });
  // The address still names what somebody else made.
  if (known.loose !== '') history.replaceState(null, '', location.href.split('#')[0]);
  known.loose = '';
}

/** Keeps what is new in a state. @param {State} s
 * @returns {'' | 'lost' | 'copied'} lost: this browser did not keep it; copied: another tab had
 *   written the same flute, so this one goes on as a flute of its own */
export function keep(s) {
  const mine = work(s);
  if (mine === known.loose) return '';
  try {
    return isExample(s) ? putAway(s.station) : putOn(s, mine);
  } catch {
    return 'lost';
  }
}

/** @param {string} station */
function putAway(station) {
  if (hand.id !== '') known.before = { ...hand, work: known.work };
  hand.id = '';
  point(station);
  return /** @type {const} */ ('');
}

/** @param {State} s @param {string} mine */
function putOn(s, mine) {
  if (mine === known.before?.work && hand.id !== known.before.id) {
    const { work: _, ...back } = known.before;
    Object.assign(hand, back);
  }
  const json = written(s);
  const there = hand.id === '' ? null : newest(hand.id);
  const ahead = there === null ? -1 : there.revision - hand.revision;
  // Written elsewhere: over mine, or after mine while I went on.
  const clash = there !== null && there.json !== hand.json
    && (ahead === 0 || (ahead > 0 && json !== hand.json));
  if (clash || hand.id === '') startFlute();
  // Storage may have been cleared meanwhile; but what was deleted stays deleted.
  const cleared = ahead < 0 && localStorage.getItem(GONE + hand.id) === null;
  if (json !== hand.json || cleared) {
    try {
      hand.revision = write(hand.id, hand.revision, json);
      hand.json = json;
    } finally {
      void copy(hand.id, hand.revision + Number(hand.json !== json), json);
    }
  }
  known.work = mine;
  point(s.station);
  return clash ? 'copied' : '';
}

/** What to open next time: in this tab, and in a new one. @param {string} station */
function point(station) {
  try {
    for (const storage of [sessionStorage, localStorage]) storage.setItem(HAND, `${hand.id} ${station}`);
  } catch { /* the flute itself is kept */ }
}

/** From now on what is new is kept.
 * @param {Desk} desk @param {(news: News) => void} tell hears what came of it, where that is no matter of
 *   course */
export function keepAlways(desk, tell) {
  const { store } = desk;
  let timer = 0;
  const now = () => {
    clearTimeout(timer);
    timer = 0;
    const news = keep(store.get());
    if (news !== '') tell(news);
    store.change((s) => (s.keeps === (news !== 'lost') ? s : { ...s, keeps: news !== 'lost' }));
  };
  // One tab at a time, so that each sees what the other has written.
  const soon = () => void (navigator.locks?.request(FLUTES, async () => now()).catch(now) ?? now());
  begin(tell);
  planAlways(desk);
  recallPlan(desk);
  store.subscribe(() => { timer ||= window.setTimeout(soon, AFTER_MS); });
  addEventListener('pagehide', now);
  document.addEventListener('visibilitychange', now);
  addEventListener('storage', ({ key }) => {
    if (hand.id === '' || !key?.includes(hand.id)) return;
    soon();
    tell('other');
  });
}

/** @param {(news: News) => void} tell */
function begin(tell) {
  try {
    const kept = parsed(hand.json);
    if (kept !== null) known.work = work(kept);
    migrate();
    const old = localStorage.getItem(OLD);
    if (flutes().some((id) => damaged(id).length > 0) || (old !== null && parsed(old) === null)) {
      tell('damaged');
    }
  } catch { /* no room: the old state is still in its place, and keep() will say 'lost' */ }
}

/** The plan that was kept with the flute in hand, where this version has another. @param {Desk} desk */
function recallPlan({ store }) {
  const kept = parsed(hand.json);
  const s = store.get();
  if (kept === null || JSON.stringify(kept.good) !== JSON.stringify(s.good)) return;
  const plan = planOf(JSON.parse(hand.json).marks, s.good, s.answer);
  if (plan !== null) store.change((now) => ({ ...now, plan, doc: { ...now.doc } }));
}

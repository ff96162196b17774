// web/shelf/take.js: another flute into the maker's hand, the present one kept first.

import { isBlank } from '../state/desk.js';
import { hand, parsed } from '../state/keep.js';
import { keep, known, work } from '../state/keeper.js';
import { pinned, planOf } from '../state/plan.js';
import { newest } from '../state/slots.js';
import { withValue } from '../state/path.js';

/** @typedef {Pick<Kept, 'doc' | 'good' | 'typed' | 'aside'> & {marks?: unknown}} Shown */

/** Whoever gave the places of its holes need not have said how many they are; the page asks the song.
 * @param {Doc} doc @returns {Doc} */
const withCount = (doc) => (doc.song && doc.song.holes === undefined && doc.finger_holes
  ? withValue(doc, 'song.holes', doc.finger_holes.length) : doc);
/** @template {Shown} T @param {T} kept @returns {T} */
const counted = (kept) => ({ ...kept, doc: withCount(kept.doc), good: withCount(kept.good) });

/** The state that shows a kept flute, or null where not even an example can be laid out.
 * @param {Desk} desk @param {Shown} kept `marks`: its plan, as it was kept
 * @returns {Promise<Partial<State> | null>} */
async function stateOf(desk, { doc, good, typed, aside, marks }) {
  const now = await desk.engine.anew(doc);
  const example = JSON.parse(desk.store.get().example);
  for (const last of [doc, good, example]) {
    const { layout, fingerings } = last === doc ? now : await desk.engine.anew(last);
    if (!layout.answer) continue;
    const plan = last === example ? null : planOf(marks, last, layout.answer);
    const answer = plan === null ? layout.answer
      : await pinned(await desk.engine.workshop(), plan, layout.answer);
    return { doc, good: last === example && isBlank({ good }) ? good : last, answer, plan, problems: now.layout.violations ?? [],
      fault: now.layout.fault ?? '', chart: fingerings.answer?.fingerings ?? desk.store.get().chart,
      typed, aside, before: null, trial: null, stopped: false };
  }
  return null;
}

/** The address without what a link brought. */
export function clearLink() {
  if (location.href.includes('#')) history.replaceState(null, '', location.href.split('#')[0]);
}

/** Shows a flute that is not kept before it is touched.
 * @param {Desk} desk @param {Shown} given
 * @returns {Promise<'' | 'lost' | 'unshown'>} lost: what is in hand cannot be kept, so it stays */
export async function show(desk, given) {
  const loose = counted(given);
  const state = await stateOf(desk, loose);
  if (state === null) return 'unshown';
  if (keep(desk.store.get()) === 'lost') return 'lost';
  Object.assign(hand, { id: '', revision: 0, json: '' });
  Object.assign(known, { work: '', loose: work(loose), before: null });
  desk.edit(() => state, ['']);
  return '';
}

/** Takes a kept flute in hand. @param {Desk} desk @param {string} id
 * @returns {Promise<'' | 'lost' | 'unshown'>} */
export async function take(desk, id) {
  const slot = newest(id);
  const read = slot === null ? null : parsed(slot.json);
  const kept = read === null ? null : counted(read);
  const state = slot === null || kept === null ? null
    : await stateOf(desk, { ...kept, marks: JSON.parse(slot.json).marks });
  if (slot === null || kept === null || state === null) return 'unshown';
  if (keep(desk.store.get()) === 'lost') return 'lost';
  clearLink();
  Object.assign(hand, slot, { id });
  Object.assign(known, { work: work(kept), loose: '', before: null });
  desk.edit(() => state, ['']);
  return '';
}

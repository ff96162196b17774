// web/bench/next_tube.js: the finished flute as the pattern of the next tube, which is begun empty.

/// <reference path="./types.d.ts" />
import { ownFresh, startFresh } from '../state/fresh.js';
import { withValue } from '../state/path.js';
import { goTo } from '../widgets/reveal.js';
import { NOT_KEPT, THIS_PATTERN, nothingTold } from './words.js';

/** What several flutes taught is the maker's and stays: on the shelf this one can be added to it.
 * @param {Pick<Desk, 'store'>} desk @returns {unknown} undefined: nothing has been */
export const taughtBefore = ({ store }) => ownFresh(store.get()).pattern;

/** What is in hand is kept on the shelf first. @param {Pick<Session, 'desk' | 'workshop'>} session
 * @returns {Promise<string>} what went wrong, or '' */
export async function nextTube({ desk, workshop }) {
  const { doc, answer, good } = desk.store.get();
  const hand = taughtBefore(desk);
  const reply = hand !== undefined ? { answer: hand } : await workshop.pattern(doc);
  if (!reply.answer) return nothingTold(reply.violations?.[0]?.code.replaceAll('_', ' ') ?? reply.fault ?? '');
  if (!startFresh(desk)) return NOT_KEPT;
  const { foot_mm, finger_holes, sound_hole: { length_mm: sound_hole_mm } } = answer;
  desk.edit((s) => ({
    // Its voice, song and spacing; of the tube nothing.
    doc: Object.entries({ pattern: reply.answer, song: structuredClone(good.song), 'shop.spacing_mm': good.shop?.spacing_mm,
      'shop.hands': good.shop?.hands })
      .reduce((so, [path, habit]) => (habit === undefined ? so : withValue(so, path, habit)), s.doc),
    aside: hand !== undefined ? s.aside
      : { ...s.aside, pattern: { name: doc.name || THIS_PATTERN, foot_mm, finger_holes, sound_hole_mm } },
  }));
  goTo(desk, 'cane');
  scrollTo(0, 0);
  return '';
}

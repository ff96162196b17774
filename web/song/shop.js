// web/song/shop.js: what the maker's hands reach and which bits lie on the bench.

import { h } from '../widgets/dom.js';
import { field, lengthField } from '../widgets/field.js';
import { radios, list } from '../widgets/choice.js';
import { bitsReader } from '../state/readers.js';
import { withValue } from '../state/path.js';
import { handSplits } from '../state/hands.js';
import { unitOf } from '../state/desk.js';
import { ANY, APART_LEAST, APART_MOST, BITS, HANDS, HOLE_LEAST, HOLE_MOST, MY_BITS, NOT_SAID, ONE_HAND,
  ONLY_MINE, PER_HAND, WHICH, twoHands } from './words.js';

/** @param {Desk} desk @returns {Node[]} */
export function shop(desk) {
  const reach = [
    h('h3', {}, HANDS),
    list(desk, {
      label: PER_HAND,
      options: (s) => [['', NOT_SAID], ...handSplits(s.doc.song.holes).map((split) =>
        /** @type {[string, string]} */ ([split.join('+'), split.length === 1 ? ONE_HAND
          : twoHands(split[0], split[1])]))],
      now: (s) => s.doc.shop?.hands?.join('+') ?? '',
      pick: (value) => desk.set('shop.hands',
        value === '' ? undefined : value.split('+').map(Number)),
    }),
    lengthField(desk, 'shop.spacing_mm.min', { ...APART_LEAST, optional: true }).element,
    lengthField(desk, 'shop.spacing_mm.max', { ...APART_MOST, optional: true }).element,
  ];
  return [...reach, ...bits(desk)];
}

/** @param {Desk} desk @returns {Node[]} */
function bits(desk) {
  const own = field(desk, 'shop.bits', {
    ...MY_BITS, wide: true,
    read: bitsReader(desk.engine), when: () => !own.element.hidden,
    write: (/** @type {Bit[]} */ set, s) => set.map((bit) => bit.label
      ?? (unitOf(s) === 'inch' ? `${trim(bit.mm)} mm` : trim(bit.mm))).join(', '),
  });
  const least = lengthField(desk, 'shop.diameter_mm.min', { label: HOLE_LEAST, optional: true });
  const most = lengthField(desk, 'shop.diameter_mm.max', { label: HOLE_MOST, optional: true });
  desk.store.subscribe((s) => {
    own.element.hidden = s.doc.shop?.bits === undefined && s.typed['shop.bits'] === undefined;
  });
  return [
    h('h3', {}, BITS),
    radios(desk, {
      label: WHICH, hidden: true,
      options: [['own', ONLY_MINE], ['any', ANY]],
      now: (s) => (s.doc.shop?.bits === undefined ? 'any' : 'own'),
      pick: (value) => desk.edit((s) => {
        const set = s.doc.shop?.bits;
        if (value === 'any') {
          return { doc: withValue(s.doc, 'shop.bits', undefined), aside: { ...s.aside, bits: set } };
        }
        return { doc: withValue(s.doc, 'shop.bits', s.aside.bits ?? drilled(s.answer)) };
      }, ['shop.bits']),
    }),
    own.element, least.element, most.element,
  ];
}

/** A set to begin with, to be replaced by the maker's own: around the diameters of the marks.
 * @param {Answer} answer @returns {Bit[]} */
function drilled(answer) {
  const all = answer.finger_holes.map((hole) => hole.diameter_mm);
  const step = Math.max(...all) < 5 ? 0.5 : 1;
  const first = Math.max(1, Math.round(Math.min(...all) / step) - 2);
  const last = Math.round(Math.max(...all) / step) + 2;
  return Array.from({ length: last - first + 1 }, (_, i) => ({ mm: (first + i) * step }));
}

/** @param {number} mm */
const trim = (mm) => String(Math.round(mm * 1000) / 1000);


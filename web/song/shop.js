// web/song/shop.js: what the maker's hands reach and which bits lie on the bench.

import { h } from '../widgets/dom.js';
import { field, lengthField } from '../widgets/field.js';
import { radios, list } from '../widgets/choice.js';
import { bitsReader } from '../state/readers.js';
import { withValue } from '../state/path.js';
import { handSplits } from '../state/hands.js';
import { unitOf } from '../state/desk.js';

/** @param {Desk} desk @returns {Node[]} */
export function shop(desk) {
  const reach = [
    h('h3', {}, 'Hands'),
    list(desk, {
      label: 'Holes per hand',
      options: (s) => [['', 'not said'], ...handSplits(s.doc.song.holes).map((split) =>
        /** @type {[string, string]} */ ([split.join('+'), split.length === 1 ? 'all one hand'
          : `${split[0]} upper, ${split[1]} lower`]))],
      now: (s) => s.doc.shop?.hands?.join('+') ?? '',
      pick: (value) => desk.set('shop.hands',
        value === '' ? undefined : value.split('+').map(Number)),
    }),
    lengthField(desk, 'shop.spacing_mm.min', { label: 'Apart, at least', full: 'Holes apart, at least',
      optional: true,
      note: 'centre to centre' }).element,
    lengthField(desk, 'shop.spacing_mm.max', { label: 'Apart, at most', full: 'Holes apart, at most',
      optional: true,
      note: 'within one hand' }).element,
  ];
  return [...reach, ...bits(desk)];
}

/** @param {Desk} desk @returns {Node[]} */
function bits(desk) {
  const own = field(desk, 'shop.bits', {
    label: 'My bits', note: 'a comma and a space between', wide: true,
    read: bitsReader(desk.engine), when: () => !own.element.hidden,
    write: (/** @type {Bit[]} */ set, s) => set.map((bit) => bit.label
      ?? (unitOf(s) === 'inch' ? `${trim(bit.mm)} mm` : trim(bit.mm))).join(', '),
  });
  const least = lengthField(desk, 'shop.diameter_mm.min', { label: 'Hole, at least',
    optional: true });
  const most = lengthField(desk, 'shop.diameter_mm.max', { label: 'Hole, at most', optional: true });
  desk.store.subscribe((s) => {
    own.element.hidden = s.doc.shop?.bits === undefined && s.typed['shop.bits'] === undefined;
  });
  return [
    h('h3', {}, 'Bits'),
    radios(desk, {
      label: 'Which diameters', hidden: true,
      options: [['own', 'Only my bits'], ['any', 'Any diameter']],
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


// web/views/shop.js: what the maker's hands reach and which bits lie on the bench.

import { h } from './dom.js';
import { field, lengthField } from './field.js';
import { radios, list } from './choice.js';
import { bitsReader } from '../state/readers.js';
import { withValue } from '../state/path.js';
import { handSplits } from '../state/hands.js';
import { unitOf } from '../state/desk.js';

/** @typedef {import('../state/types.js').Desk} Desk */
/** @typedef {import('../state/types.js').Bit} Bit */

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
    lengthField(desk, 'shop.spacing_mm.min', { label: 'Apart, at least', optional: true,
      note: 'centre to centre' }).element,
    lengthField(desk, 'shop.spacing_mm.max', { label: 'Apart, at most', optional: true,
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

/** A set to begin with: the diameters of the marks, to the half millimetre.
 * @param {import('../state/types.js').Answer} answer @returns {Bit[]} */
function drilled(answer) {
  const all = answer.finger_holes.map((hole) => Math.max(1, Math.round(hole.diameter_mm * 2) / 2));
  return [...new Set(all)].sort((a, b) => a - b).map((mm) => ({ mm }));
}

/** @param {number} mm */
const trim = (mm) => String(Math.round(mm * 1000) / 1000);


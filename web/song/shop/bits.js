// web/song/shop/bits.js: the maker's own bits. Loaded when somebody names them.

import { field } from '../../widgets/field.js';
import { bitsReader, drilled } from '../../state/bits.js';
import { withValue } from '../../state/path.js';
import { unitOf } from '../../state/desk.js';
import { MY_BITS } from './words.js';

/** @param {Desk} desk @returns {Node} */
export function ownBits(desk) {
  const own = field(desk, 'shop.bits', {
    ...MY_BITS, wide: true, words: true,  // a pad for figures may have no comma, no space, no stroke
    read: bitsReader(desk.engine, () => desk.store.get().doc.shop?.bits ?? []), when: () => !own.element.hidden,
    write: (/** @type {Bit[]} */ set, s) => set.map((bit) => bit.label
      ?? (unitOf(s) === 'inch' ? `${trim(bit.mm)} mm` : trim(bit.mm))).join(', '),
  });
  desk.store.subscribe((s) => {
    own.element.hidden = s.doc.shop?.bits === undefined && s.typed['shop.bits'] === undefined;
  });
  return own.element;
}

/** Only those from now on: the set there was before, else one around the marks. @param {Desk} desk */
export const onlyMine = (desk) => desk.edit((s) => ({
  doc: withValue(s.doc, 'shop.bits', s.aside.bits ?? drilled(s.answer)) }), ['shop.bits']);

/** @param {number} mm */
const trim = (mm) => String(Math.round(mm * 1000) / 1000);

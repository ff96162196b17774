// web/song/shop/shop.js: what the maker's hands reach and which bits lie on the bench.

import { h } from '../../widgets/dom.js';
import { lengthField } from '../../widgets/field.js';
import { radios, list } from '../../widgets/choice.js';
import { asNeeded } from '../../widgets/later.js';
import { withValue } from '../../state/path.js';
import { handSplits } from '../../state/hands.js';
import { ANY, APART_LEAST, APART_MOST, BITS, HANDS, HOLE_LEAST, HOLE_MOST, NOT_SAID, ONE_HAND,
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
  const least = lengthField(desk, 'shop.diameter_mm.min', { label: HOLE_LEAST, optional: true });
  const most = lengthField(desk, 'shop.diameter_mm.max', { label: HOLE_MOST, optional: true });
  const own = h('div');
  asNeeded(desk, own, (s) => (s.doc.shop?.bits ?? s.typed['shop.bits']) !== undefined,
    async () => (await import('./bits.js')).ownBits(desk));
  return [
    h('h3', {}, BITS),
    radios(desk, {
      label: WHICH, hidden: true,
      options: [['own', ONLY_MINE], ['any', ANY]],
      now: (s) => (s.doc.shop?.bits === undefined ? 'any' : 'own'),
      pick: (value) => (value === 'any' ? desk.edit((s) => ({ doc: withValue(s.doc, 'shop.bits', undefined),
        aside: { ...s.aside, bits: s.doc.shop?.bits } }), ['shop.bits'])
        : void import('./bits.js').then((m) => m.onlyMine(desk)).catch(() => desk.edit(() => ({})))),
    }),
    own, least.element, most.element,
  ];
}

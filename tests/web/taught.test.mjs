// tests/web/taught.test.mjs -- what several flutes taught is never lost: to a pattern, to the next tube, to a flute of
// the sheet.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { DOC, EXAMPLE, begin, named, stateOf } from './keep_browser.mjs';
import { createDesk } from '../../web/state/desk.js';
import { ownFresh, withFittingHands } from '../../web/state/fresh.js';
import { write } from '../../web/state/keeper.js';
import { createStore } from '../../web/state/store.js';
import { handOf, isHand, withHand, withPattern } from '../../web/state/taught.js';
import { nextTube } from '../../web/bench/next_tube.js';
import { ownDoc, songOf } from '../../web/shelf/own/own_doc.js';
import { withoutPattern } from '../../web/shelf/pattern.js';

const HAND = { of: ['a', 'b'], flutes: 2, mean: [0.02], between: [[1]] };
const ONE = { of: 'a', mean: [0.03] };

describe('a hand', () => {
  it('waits while one flute’s pattern has its place, and comes back', () => {
    const before = { doc: { ...DOC, pattern: HAND }, aside: { pattern: { name: 'marks of another' } } };
    const patterned = withPattern(before, ONE);
    assert.deepEqual([patterned.doc.pattern, patterned.aside], [ONE, { hand: HAND }]);
    const twice = withPattern(patterned, { of: 'b' });
    assert.deepEqual(twice.aside.hand, HAND, 'also behind a second pattern');
    assert.deepEqual(withHand(twice), { doc: before.doc, aside: {} });
    assert.deepEqual(withHand({ doc: { ...DOC, pattern: ONE }, aside: {} }), { doc: DOC, aside: {} });
    assert.equal(isHand(ONE), false);
  });

  it('is there again where a pattern is undone, with the song and the spacing there were', () => {
    const before = { doc: { ...DOC, pattern: HAND, shop: { hands: [2, 3] } }, aside: { bits: [] } };
    const so = withPattern(before, ONE);
    const after = { doc: { ...so.doc, song: { lowest: 'A4' }, shop: { hands: [3, 3], spacing_mm: { min: 19 } }, name: 'since then' },
      aside: { ...so.aside, pattern: { name: 'a' } } };
    assert.deepEqual(withoutPattern(after, before), { doc: { ...before.doc, name: 'since then' }, aside: before.aside });
  });

  it('goes on to the next tube, from behind a pattern too, and from an earlier flute of mine', () => {
    begin();
    const own = (doc, aside) => stateOf({ ...named('mine'), ...doc }, { aside });
    assert.deepEqual(ownFresh(own({ pattern: HAND }, {})).pattern, HAND);
    assert.deepEqual(ownFresh(own({ pattern: ONE }, { hand: HAND })).pattern, HAND);
    assert.equal(ownFresh(own({ pattern: ONE }, {})).pattern, undefined);
    write('a', 0, JSON.stringify({ doc: { ...DOC, pattern: HAND }, good: DOC, typed: {}, aside: {} }));
    assert.deepEqual(ownFresh(own({ pattern: ONE }, {})).pattern, HAND);
    assert.deepEqual(ownFresh(stateOf(EXAMPLE)).pattern, HAND);
  });

  it('is not replaced by the flute that has just been finished', async () => {
    globalThis.scrollTo = () => {};
    for (const [doc, aside, wanted] of [[{ pattern: HAND }, {}, HAND], [{ pattern: ONE }, { hand: HAND }, HAND], [{}, {}, ONE]]) {
      begin();
      const state = stateOf({ ...named('finished'), ...doc, log: [] }, { aside });
      state.answer = { ...state.answer, sound_hole: { length_mm: 5 } };
      const store = createStore(state);
      const desk = createDesk(store, {}, { defaults: {} });
      desk.store = store;
      assert.equal(await nextTube({ desk, workshop: { pattern: async () => ({ answer: ONE }) } }), '');
      const now = store.get();
      assert.deepEqual(now.doc.pattern, wanted);
      assert.equal(now.doc.tube.bore[0].diameter_mm, undefined, 'an empty tube');
      assert.equal(now.aside.pattern?.name, wanted === ONE ? 'finished' : undefined);
      assert.deepEqual(handOf(now), wanted === HAND ? HAND : undefined);
    }
  });

  it('leaves hands that can hold the holes', () => {
    const of = (holes, hands) => withFittingHands({ ...DOC, song: { ...DOC.song, holes }, shop: { ruler_mm: 1, hands } }).shop.hands;
    assert.deepEqual([of(5, [2, 3]), of(6, [2, 3]), of(6, [3, 2]), of(2, [3, 3]), of(1, [2, 3]), of(4, [4]), of(8, [2, 3])],
      [[2, 3], [2, 4], [3, 3], [1, 1], undefined, [4], [4, 4]]);
    assert.deepEqual(withFittingHands(DOC), DOC);
  });

  it('is in a half-made flute of the sheet, and not in a whole one, which may be anybody’s', () => {
    const own = { bore: 18, wall: 3, length: 5, width: 9, holes: [{ at: 200, wide: 7, hz: 500 }], foot: { at: 385, hz: 400 } };
    const song = songOf([400, 500], 'in tune');
    const habits = { pattern: HAND, shop: { hands: [0, 1] }, air: { room_c: 17, humidity_percent: 60 }, song: { a4_hz: 442, lowest: 'A4' } };
    const whole = ownDoc(own, song, habits);
    assert.equal(whole.pattern, undefined);
    assert.deepEqual([whole.shop, whole.air, whole.song], [habits.shop, habits.air, { a4_hz: 442, ...song }]);
    const half = ownDoc({ ...own, room: 21, holes: [{}, ...own.holes] }, song, habits);
    assert.deepEqual([half.pattern, half.air], [HAND, { room_c: 21, humidity_percent: 60 }]);
  });
});

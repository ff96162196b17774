// tests/web/bits.test.mjs -- a hole's width is never shown rounded past what it costs; limits name
// themselves.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import fc from 'fast-check';
import { SAME_CENTS, betweenBits, holeSize, ownBit } from '../../web/text/bits.js';
import { bindingShort } from '../../web/text/bindings.js';
import { bindingSentence, entryOf } from '../../web/text/limits.js';
import { factsOf } from '../../web/paper/facts.js';
import { rowsOf } from '../../web/paper/list.js';
import { engine, flute, stateOf } from './paper_flutes.mjs';

/** Own reading of "9/64″", "0.142″" or "1 1/8″" in mm. */
function read(text) {
  const [, whole = '0', top = '0', bottom = '1', decimals] = /^(?:(\d+)(?= |\.|″) ?)?(?:(\d+)\/(\d+))?(\.\d+)?″$/.exec(text) ?? [];
  return 25.4 * (decimals === undefined ? Number(whole) + Number(top) / Number(bottom) : Number(`${whole}${decimals}`));
}

describe('a hole’s width', () => {
  it('of 3.6 and of 4.2 mm is not one and the same fraction', () => {
    // 9/64 in is 3.572 mm, 5/32 in 3.969, 11/64 in 4.366: exact arithmetic. 17 cents for 0.37 mm.
    const slope = 17 / 3.7;
    assert.equal(holeSize(3.6, slope, 'inch', engine), '9/64″');
    assert.equal(holeSize(4.2, slope, 'inch', engine), '0.165″');
    assert.equal(betweenBits(4.2, slope, engine), '5/32 to 11/64″');
    assert.equal(betweenBits(3.6, slope, engine), '');
    assert.equal(holeSize(3.969, slope, 'inch', engine), '5/32″');
  });

  it('is within two cents of what is shown, in both units', () => {
    fc.assert(fc.property(fc.double({ min: 1, max: 20, noNaN: true }), fc.double({ min: 0.1, max: 12, noNaN: true }),
      (mm, slope) => {
        const inches = read(holeSize(mm, slope, 'inch', engine));
        const tenths = Number(holeSize(mm, slope, 'mm', engine));
        // Beyond thousandths of an inch, and hundredths of a millimetre, no bit goes.
        assert.ok(Math.abs(inches - mm) * 10 * slope <= Math.max(SAME_CENTS, 0.0128 * 10 * slope), `${mm} ${inches}`);
        assert.ok(Math.abs(tenths - mm) * 10 * slope <= Math.max(SAME_CENTS, 0.0051 * 10 * slope), `${mm} ${tenths}`);
      }));
  });

  it('of which nobody knows what it does is written out', () => {
    assert.equal(holeSize(3.6, null, 'inch', engine), '0.142″');
    assert.equal(holeSize(3.56, undefined, 'mm', engine), '3.56');
  });

  it('is so on paper, and a bit of the maker’s own by its label', () => {
    const notes = flute().notes.map((note) => ({ ...note, cents_per_tenth_mm: 5 }));
    const answer = { ...flute({ diameters: [3.6, 4.2, 7, 7, 7] }), notes };
    const bits = rowsOf(factsOf(stateOf(answer), engine)).filter(({ mark }) => /^Hole/.test(mark)).map(({ bit }) => bit);
    assert.deepEqual(bits.slice(0, 2), ['⌀ 3.6 mm · 9/64″', '⌀ 4.2 mm · 0.165″ (5/32 to 11/64″)']);
    const inch = factsOf(stateOf(answer, { unit: 'inch', fraction: 32, datum: 'centre' }), engine);
    assert.equal(inch.bit(answer.finger_holes[1]), '⌀ 0.165″ · 4.2 mm', 'the maker’s own unit first');
    const own = { ...answer, shop: { bits: [{ mm: 3.6, label: '#28' }] } };
    assert.equal(factsOf(stateOf(own), engine).bit(own.finger_holes[0]), '⌀ #28 · 3.6 mm');
  });
});

describe('a limit', () => {
  const shop = { diameter_mm: { min: 2, max: 9 }, spacing_mm: { min: 18, max: 36 } };
  const answer = { ...flute({ bore: 8.9, diameters: [7.12, 7, 7, 7, 0.9] }), shop };
  const state = stateOf(answer);
  const say = (constraint, path) => bindingSentence({ constraint, path, costs_cents: 4 }, state, engine);

  it('names itself: a share of the bore is not the largest size that the maker allows', () => {
    assert.match(say('bore_share', 'finger_holes[0].diameter_mm'), /^Hole 1 may be no larger than 7\.1 mm, the largest share of its bore/);
    assert.match(say('bore_share', 'finger_holes[4].diameter_mm'), /^Hole 5 may be no smaller than 0\.9 mm, the least share/);
    assert.match(say('diameter_max', 'finger_holes[0].diameter_mm'), /no larger than 9\.0 mm: costs 4 cents/);
  });

  it('whose cost was not reckoned has none, which is not next to nothing', () => {
    const one = { constraint: 'bore_share', path: 'finger_holes[0].diameter_mm', costs_cents: null };
    assert.match(bindingSentence(one, state, engine), /share of its bore that was checked\.$/);
    assert.equal(bindingShort(one), 'held by its bore');
  });

  it('of the largest bit says that bit, where it is the smaller of the two', () => {
    const drilled = stateOf({ ...answer, shop: { ...shop, bits: [{ mm: 5 }, { mm: 6.5 }] } });
    assert.match(bindingSentence({ constraint: 'diameter_max', path: 'finger_holes[1].diameter_mm', costs_cents: 4 },
      drilled, engine), /no larger than 6\.5 mm/);
  });

  it('leads to the entry that changes it', () => {
    const to = (constraint) => entryOf({ constraint, path: 'finger_holes[0].at_mm', costs_cents: 1 }, state);
    assert.deepEqual(['spacing_min', 'spacing_max', 'diameter_min', 'diameter_max', 'bits', 'tube_end', 'bore_share'].map(to),
      ['shop.spacing_mm.min', 'shop.spacing_mm.max', 'shop.diameter_mm.min', 'shop.diameter_mm.max', 'shop.bits',
        'song.lowest', '']);
  });

  it('the bit that makes a hole is named, also where a hand burns it wider', () => {
    const shop = { bits: [{ mm: 5.5, label: 'five and a half' }, { mm: 6 }] };
    assert.equal(ownBit({ shop }, 2, 5.5)?.label, 'five and a half');
    assert.equal(ownBit({ shop }, 2, 5.9), undefined);
    const burned = { shop, pattern: { burn: { mean_mm: 0.4 } } };
    assert.equal(ownBit(burned, 2, 5.9)?.label, 'five and a half');
    assert.equal(ownBit(burned, 2, 5.5), undefined);
    // cut, it is as wide as it was measured
    const cut = { ...burned, log: [{ hole: { number: 2, at_mm: 200, diameter_mm: 5.9 } }] };
    assert.equal(ownBit(cut, 2, 5.9), undefined);
    assert.equal(ownBit(cut, 2, 5.5)?.label, 'five and a half');
    assert.equal(ownBit(cut, 1, 5.9)?.label, 'five and a half');
    assert.equal(ownBit({}, 2, 5.5), undefined);
  });
});

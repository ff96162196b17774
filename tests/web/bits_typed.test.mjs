// tests/web/bits_typed.test.mjs -- a set of bits as makers type it: what stands between two, and what is asked back.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import fc from 'fast-check';
import { bitsReader } from '../../web/state/bits.js';
import { sentence } from '../../web/text/violations.js';

/** Own reading of one length, in mm; 25.4 mm to the inch by its definition (the international yard, 1959). */
const engine = { readLength(text, unit) {
  const [, whole, top, bottom, decimal, word] = /^(?:(?:(\d+)[ -])?(\d+)\/(\d+)|(\d*[.,]?\d+))\s*(mm|in|"|″)?$/.exec(text) ?? [];
  if (top === undefined && decimal === undefined) return { violations: [{ code: 'not_a_length', path: '' }] };
  const size = top === undefined ? Number(decimal.replace(',', '.')) : Number(whole ?? 0) + top / bottom;
  const inches = word === undefined ? top !== undefined || unit === 'inch' : word !== 'mm';
  return { mm: size * (inches ? 25.4 : 1) };
} };
const read = bitsReader(engine);
const sizes = (text, unit) => read(text, unit).value?.map(({ mm }) => Math.round(mm * 1e6) / 1e6);

describe('bits as they are typed', () => {
  it('stand apart by a comma after or before a fraction or a unit, with or without a space', () => {
    assert.deepEqual(sizes('3/16,7/32', 'inch'), [4.7625, 5.55625]);
    assert.deepEqual(sizes('3/16, 7/32', 'inch'), [4.7625, 5.55625]);
    assert.deepEqual(sizes('3/16,7/32,1 1/16', 'mm'), [4.7625, 5.55625, 26.9875]);
    assert.deepEqual(sizes('5mm,6mm', 'mm'), [5, 6]);
    assert.deepEqual(sizes('3/16",7/32"', 'inch'), [4.7625, 5.55625]);
    assert.deepEqual(sizes('.25,3/8', 'inch'), [6.35, 9.525]);
    assert.deepEqual(sizes('7/32,5', 'mm'), [5.55625, 5]);
  });

  it('keep the comma of a decimal', () => {
    assert.deepEqual(sizes('4,5', 'mm'), [4.5]);
    assert.deepEqual(sizes('5, 6,5 mm; 1/4 in', 'mm'), [5, 6.5, 6.35]);
    assert.deepEqual(sizes(',5; 1', 'mm'), [0.5, 1]);
  });

  it('of fractions are read alike whatever stands between them', () => {
    const fraction = fc.tuple(fc.integer({ min: 1, max: 31 }), fc.constantFrom(16, 32, 64)).map((pair) => pair.join('/'));
    fc.assert(fc.property(fc.array(fraction, { minLength: 1, maxLength: 6 }), fc.constantFrom('mm', 'inch'), (all, unit) => {
      const wanted = sizes(all.join('; '), unit);
      assert.equal(wanted.length, all.length);
      for (const between of [',', ', ', ' , ', ';', '\n']) assert.deepEqual(sizes(all.join(between), unit), wanted);
    }));
  });

  it('of whole inches are asked back, with what may be meant', () => {
    const { problem } = read('3/16, 2', 'inch');
    assert.equal(problem.code, 'whole_inches');
    const text = sentence({ ...problem, path: 'shop.bits' }, { doc: {} }, engine);
    assert.match(text, /“2” would be whole inches\. Write 2 mm, 2\/64 or 2 in/);
    assert.deepEqual(sizes('3/16, 2 mm', 'inch'), [4.7625, 2]);
    assert.deepEqual(sizes('2 in', 'inch'), [50.8], 'who writes the unit means it');
    assert.deepEqual(sizes('2', 'mm'), [2]);
  });
});

// tests/wasm/compare.test.mjs -- the comparison that the parity test rests on can fail.
import assert from 'node:assert/strict';
import { test } from 'node:test';

import { countNumbers, differences } from './compare.mjs';

test('rounding passes, a change in the ninth digit does not', () => {
  assert.deepEqual(differences({ hz: 440 }, { hz: 440 * (1 + 5e-10) }), []);
  assert.equal(differences({ hz: 440 }, { hz: 440 * (1 + 2e-9) }).length, 1);
  assert.equal(differences([{ at_mm: 53.3 }], [{ at_mm: 53.3000001 }]).length, 1);
});

test('cents are compared as the frequency ratio they stand for', () => {
  assert.deepEqual(differences({ cents: 1e-7 }, { cents: -1e-7 }), []);
  assert.equal(differences({ cents: 0 }, { cents: 2e-6 }).length, 1);
});

test('other shapes, texts and lengths are differences', () => {
  const pairs = [[{ a: 1 }, { b: 1 }], [[1], [1, 2]], [{ a: null }, { a: 0 }], ['x', 'y'],
    [true, false], [{ a: {} }, { a: [] }]];
  for (const [one, two] of pairs) assert.notDeepEqual(differences(one, two), []);
});

test('numbers are counted at every depth', () => {
  assert.equal(countNumbers({ a: [1, { b: 2 }], c: 'x', d: null, e: 3 }), 3);
});

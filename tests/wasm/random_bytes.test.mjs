// tests/wasm/random_bytes.test.mjs -- whatever bytes come as a link or a document: a typed error or a
// valid document, on the very module that the page loads. (tools/fuzz does the same natively, with
// the sanitizers and for longer.)
import assert from 'node:assert/strict';
import { before, test } from 'node:test';
import fc from 'fast-check';

import { storedDocuments } from './documents.mjs';
import { loadModule } from './engines.mjs';

const SEED = 20261125;
let workshop;
before(async () => { workshop = await loadModule('workshop'); });

/** Exactly one of the three shapes, and never a fault: those are ours. */
function said(verb, text) {
  const result = JSON.parse(workshop.run(verb, text));
  assert.equal(Object.keys(result).length, 1, `${verb}: ${text.slice(0, 80)}`);
  assert.ok(!('fault' in result), `${verb}: ${result.fault}`);
  for (const { code, path } of result.violations ?? []) {
    assert.equal(typeof code, 'string');
    assert.equal(typeof path, 'string');
  }
  return result;
}

const links = () => storedDocuments().map(({ document }) => said('link', JSON.stringify(document)).answer.link);

test('a link is read back, and linked again it is the same', () => {
  for (const link of links()) {
    const back = said('unlink', link).answer;
    assert.equal(said('link', JSON.stringify(back)).answer.link, link);
  }
});

test('random text is no link, and says so', () => {
  fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (text) => {
    const { violations } = said('unlink', text);
    assert.equal(violations.length, 1);
    assert.equal(violations[0].path, 'link');
  }), { seed: SEED, numRuns: 2000 });
});

test('random bytes in the place of a link’s own are found out', () => {
  const base64url = fc.uint8Array({ minLength: 1, maxLength: 200 })
    .map((bytes) => `1.${Buffer.from(bytes).toString('base64url')}Z`);
  fc.assert(fc.property(base64url, (text) => {
    assert.ok('violations' in said('unlink', text));
  }), { seed: SEED, numRuns: 2000 });
});

test('one byte changed, cut out or doubled in a good link is found out', () => {
  const good = links();
  fc.assert(fc.property(fc.nat(good.length - 1), fc.nat(1e6), fc.nat(63), fc.nat(2), (n, at, letter, how) => {
    const link = good[n];
    const i = 2 + (at % (link.length - 3));  // not the version, not the last letter
    const other = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_'[letter];
    const changed = link.slice(0, i) + [other, '', link[i] + link[i]][how] + link.slice(i + 1);
    fc.pre(changed !== link);
    assert.ok('violations' in said('unlink', changed), changed);
  }), { seed: SEED, numRuns: 2000 });
});

test('any JSON is a document with violations, and any text is none', () => {
  fc.assert(fc.property(fc.json({ maxDepth: 4 }), fc.constantFrom('layout', 'next', 'sound', 'link', 'pattern'),
    (text, verb) => { assert.ok('violations' in said(verb, text)); }), { seed: SEED, numRuns: 1000 });
  fc.assert(fc.property(fc.string({ unit: 'binary' }), (text) => {
    assert.ok('violations' in said('next', text));
  }), { seed: SEED, numRuns: 1000 });
});

test('a document with one value of the wrong kind anywhere is refused or answered, never worse', () => {
  const [{ document }] = storedDocuments().filter((each) => each.name.startsWith('build'));
  const places = [];
  const walk = (node, path) => {
    if (node === null || typeof node !== 'object') return;
    for (const key of Object.keys(node)) {
      places.push([...path, key]);
      walk(node[key], [...path, key]);
    }
  };
  walk(document, []);
  const odd = fc.constantFrom(null, -1, 0, 1e308, 'x', '', [], {}, true, [[[[[]]]]], '__proto__', NaN);
  fc.assert(fc.property(fc.nat(places.length - 1), odd, (n, value) => {
    const spoilt = structuredClone(document);
    const path = places[n];
    let node = spoilt;
    for (const key of path.slice(0, -1)) node = node[key];
    node[path.at(-1)] = value;
    said('next', JSON.stringify(spoilt));
  }), { seed: SEED, numRuns: 400 });
});

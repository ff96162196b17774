// tests/wasm/parity.test.mjs -- the native command and the wasm module give the same numbers.
import assert from 'node:assert/strict';
import { before, test } from 'node:test';

import { countNumbers, differences } from './compare.mjs';
import { madeUpDocument, partlyMade, storedDocuments, unplanned } from './documents.mjs';
import { command, loadModule } from './engines.mjs';

const MADE_UP = 42; // three rounds of the fourteen variants
let module;
before(async () => { module = await loadModule(); });

/** Runs both; what they say must agree, be it an answer or violations. Returns the answer. */
function both(verb, document) {
  const text = JSON.stringify(document);
  const native = command(verb, text);
  const wasm = JSON.parse(module.run(verb, text));
  assert.ok(!('fault' in wasm), `${document.name}: ${wasm.fault}`);
  if (native.status === 0) {
    assert.deepEqual(differences(native.answer, wasm.answer), [], `${verb} of ${document.name}`);
    return native.answer;
  }
  assert.equal(native.status, 2, `${verb} of ${document.name}: a fault of the command`);
  assert.deepEqual(differences(native.error.violations, wasm.violations), []);
  return null;
}

test('the stored documents', () => {
  const answered = storedDocuments().flatMap(({ document }) => ['sound', 'layout']
    .map((verb) => both(verb, document)).filter((answer) => answer !== null));
  assert.ok(answered.length >= 4, `only ${answered.length} were answered`);
});

test('sound of made-up documents', () => {
  for (let number = 0; number < MADE_UP; ++number) {
    const answer = both('sound', madeUpDocument(number));
    assert.ok(answer, `made-up document ${number} was refused`);
    assert.ok(countNumbers(answer) >= 10, `document ${number}: hardly a number to compare`);
  }
});

test('layout of made-up documents', () => {
  for (let number = 0; number < MADE_UP; ++number) {
    const document = unplanned(madeUpDocument(number));
    const answer = both('layout', document);
    assert.ok(answer, `made-up document ${number} was refused`);
    assert.ok(countNumbers(answer.finger_holes) >= 8, `document ${number}: no holes came back`);
    if (number % 5 === 0) {
      assert.ok(both('layout', partlyMade(document, answer)), `document ${number}, partly made`);
    }
  }
});

test('the two agree on what is wrong with a document, too', () => {
  for (const [path, value] of [['wall_mm', -1], ['end_mm', 'long'], ['bore', []], ['bend', 1]]) {
    const document = madeUpDocument(0);
    document.tube[path] = value;
    assert.equal(both('sound', document), null, `tube.${path} = ${value} was accepted`);
  }
});

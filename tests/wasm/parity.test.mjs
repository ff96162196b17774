// tests/wasm/parity.test.mjs -- the native command and the wasm modules give the same numbers, to the last digit.
import assert from 'node:assert/strict';
import { before, test } from 'node:test';

import { madeUpDocument, partlyMade, storedDocuments, unplanned } from './documents.mjs';
import { command, countNumbers, loadModule, randomLayouts } from './engines.mjs';

const MADE_UP = 42; // three rounds of the fourteen variants
let module, workshop;
before(async () => { module = await loadModule(); workshop = await loadModule('workshop'); });

/** Runs both; what they say must be the same, be it an answer or violations. Returns the answer. What lies
 * outside the model's ranges is listed by the command and the workshop: the first visit says it in words. */
function both(verb, document, where = module) {
  const text = JSON.stringify(document);
  const native = command(verb, text);
  if (where === module && native.answer) {
    assert.deepEqual(JSON.parse(workshop.run(verb, text)).answer, native.answer);
    delete native.answer.outside;
  }
  const wasm = JSON.parse(where.run(verb, text));
  assert.ok(!('fault' in wasm), `${document.name}: ${wasm.fault}`);
  if (native.status === 0) {
    assert.deepEqual(wasm.answer, native.answer);
    return native.answer;
  }
  assert.equal(native.status, 2, `${verb} of ${document.name}: a fault of the command`);
  assert.deepEqual(wasm.violations, native.error.violations);
  return null;
}

test('the stored documents', () => {
  // A build's readings are heeded by the command and by the workshop.
  const answered = storedDocuments().flatMap(({ document }) => ['sound', 'layout', 'next', 'pattern', 'spread']
    .map((verb) => both(verb, document, workshop)).filter((answer) => answer !== null));
  assert.ok(answered.length >= 8, `only ${answered.length} were answered`);
});

test('sound of made-up documents', () => {
  for (let number = 0; number < MADE_UP; ++number) {
    const answer = both('sound', madeUpDocument(number), workshop);
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

test('octaves are counted by the command and by the workshop alike; what is loaded first says that it does not', () => {
  for (let number = 0; number < MADE_UP; number += 3) {
    const document = unplanned(madeUpDocument(number));
    document.song.octaves_weight = [0.1, 0.3, 1][(number / 3) % 3];
    assert.ok(both('layout', document, workshop), `made-up document ${number} was refused`);
    for (const verb of ['layout', 'marks']) {
      assert.match(JSON.parse(module.run(verb, JSON.stringify(document))).fault, /octaves/);
    }
  }
});

test('a build, step by step', () => {
  const log = [{ foot: { at_mm: 415 } }, { read: { open: [], hz: 372.4 }, room_c: 17 },
    { foot: { at_mm: 402 } }, { read: { open: [], hz: 379.9, sigma_cents: 3 } },
    { hole: { number: 5, at_mm: 297 } }, { read: { open: [5], hz: 441 } },
    { hole: { number: 4, at_mm: 262, diameter_mm: 6 } }, { undercut: { number: 5 } }];
  const build = { format: 'canewright/1',
    tube: { bore: [{ at_mm: 0, diameter_mm: 18 }], wall_mm: 3, end_mm: 430 },
    sound_hole: { length_mm: 5, width_mm: 9.5 },
    song: { lowest: 'G4', scale: 'minor pentatonic', holes: 5 } };
  for (let done = 0; done <= log.length; ++done) {
    const answer = both('next', { ...build, log: log.slice(0, done) }, workshop);
    assert.equal(answer.notes.length, 6);
    assert.equal(answer.readings.length, log.slice(0, done).filter((each) => each.read).length);
  }
  assert.ok(both('layout', { ...build, log }, workshop));
});

// A voice in the good band; five holes, so that a tune has names.
const voiced = { format: 'canewright/1', tube: { bore: [{ at_mm: 0, diameter_mm: 18 }], wall_mm: 3, end_mm: 400, above_mm: 80 },
  sound_hole: { length_mm: 4, width_mm: 9.5 }, track: { depth_mm: 0.9, width_mm: 9.5, length_mm: 30 }, foot_mm: 382,
  finger_holes: [160, 190, 230, 260, 300].map((at_mm) => ({ at_mm, diameter_mm: 7 })),
  song: { lowest: 'G4', scale: 'minor pentatonic', holes: 5 } };

test('voice, opening, tune and wave', () => {
  for (const register of [1, 2]) {
    const wave = both('wave', { document: voiced, open: [4, 5], register }, workshop);
    assert.ok(countNumbers(wave) > 100, 'a wave of hardly a number');
  }
  assert.equal(both('tune', { document: voiced, tune: 'G4 b♭4 C g5' }, workshop).notes.length, 4);
  assert.equal(both('tune', { document: voiced, tune: 'G4 H9' }, workshop), null);
  assert.ok(countNumbers(both('voice', voiced, workshop)) > 100);
  const { tube, song, format } = voiced;
  assert.equal(both('opening', { format, tube, song }, workshop).choices.length, 2);
});

test('tone, sample by sample', () => {
  for (const [open, register, breath, breath_to] of [[[], 1, 0, 0], [[4, 5], 2, 0, 0], [[5], 1, -1, 0.4]]) {
    const { samples } = both('tone', { document: voiced, open, register, breath, breath_to, seconds: 0.4 }, workshop);
    const bytes = Buffer.from(samples, 'base64url');
    const loudest = Math.max(...Array.from({ length: bytes.length / 2 }, (_, n) => Math.abs(bytes.readInt16LE(2 * n))));
    assert.ok(loudest > 30000, `a tone of ${loudest} of 32767`);
  }
});

test('the two agree on what is wrong with a document, too', () => {
  for (const [path, value] of [['wall_mm', -1], ['end_mm', 'long'], ['bore', []], ['bend', 1]]) {
    const document = madeUpDocument(0);
    document.tube[path] = value;
    assert.equal(both('sound', document, workshop), null, `tube.${path} = ${value} was accepted`);
  }
});

// Hard documents too: wishes that cannot be met, flat valleys, ways of which the last digit decides.
test('layout of random permitted documents', () => {
  const documents = randomLayouts(60);
  assert.ok(documents.length > 40, `only ${documents.length} were compared`);
  for (const { document, layout } of documents) {
    assert.deepEqual(JSON.parse(workshop.run('layout', JSON.stringify(document))).answer, layout);
  }
});

test('layout of documents that were once answered wrongly', () => {
  const laidOut = storedDocuments('repro').filter(({ document }) => both('layout', document, workshop)?.converged).length;
  assert.ok(laidOut > 20, `only ${laidOut} were laid out`);
});

// In the page numbers are read by the browser (wasm/c_library.cpp), in the command by the C library: the same
// doubles, so the same text when written again. Reference: two halves of an even number decide at a tie (IEEE 754,
// 4.3.1), the least and the greatest double (table 3.5), a power of ten that is no double.
test('a number is the same double read by either', () => {
  const texts = ['0.1', '1e23', '9007199254740993', '9007199254740993.0000000000000001', '5e-324', '2.4703282292062328e-324',
    '1.7976931348623157e308', '2.2250738585072011e-308', '-0.0', '123456789012345678901234567890', '18.400000000000002',
    ...Array.from({ length: 300 }, (_, i) => `${(i * 7919) % 9 + 1}.${String(i * 2654435761 % 4294967296)}${i * 40503 % 65536}e${i * 37 % 600 - 300}`)];
  const { document } = storedDocuments().find(({ name }) => name === 'six_holes.json');
  const text = JSON.stringify({ ...document, x: 'NUMBERS' }).replace('"NUMBERS"', `[${texts.join(',')}]`);
  const { answer, error } = command('layout', text);
  assert.equal(error, undefined);
  const native = answer.x;
  assert.equal(native.length, texts.length);
  for (const where of [module, workshop]) {
    assert.deepEqual(JSON.parse(where.run('layout', text)).answer.x.map((each) => Object.is(each, -0) ? '-0' : String(each)),
      native.map((each) => Object.is(each, -0) ? '-0' : String(each)));
  }
});

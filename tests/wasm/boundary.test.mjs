// tests/wasm/boundary.test.mjs -- whatever a page hands over, text comes back and nothing throws.
import assert from 'node:assert/strict';
import { before, test } from 'node:test';

import { freshDoc } from '../../web/state/fresh.js';
import { madeUpDocument } from './documents.mjs';
import { loadModule } from './engines.mjs';

let module;
before(async () => { module = await loadModule(); });

/** Exactly one of answer, violations (at least one, each complete) and fault. */
function checked(text) {
  const result = JSON.parse(text);
  assert.equal(Object.keys(result).length, 1, text.slice(0, 200));
  if ('violations' in result) {
    assert.ok(result.violations.length > 0);
    for (const violation of result.violations) {
      assert.equal(typeof violation.code, 'string');
      assert.equal(typeof violation.path, 'string');
    }
  } else {
    assert.ok('answer' in result || typeof result.fault === 'string', text.slice(0, 200));
  }
  return result;
}
const run = (verb, text) => checked(module.run(verb, text));
const refused = (text, why, verbs = ['spread', 'layout', 'fingerings']) => {
  for (const verb of verbs) {
    assert.ok('violations' in run(verb, text), `${verb} of ${why}`);
  }
};

const NO_TEXT = [undefined, null, 0, 12.5, NaN, true, {}, [], ['{}'], () => '{}', Symbol('x'), 10n,
  Object.create(null), new Uint8Array(3), new String('{}')];

test('what is no text is refused as a document', () => {
  for (const value of NO_TEXT) refused(value, typeof value);
});

test('what is no verb is said, not thrown', () => {
  for (const verb of [...NO_TEXT, '', 'sing', 'SOUND', 'sound\0', '__proto__', '\ud800']) {
    assert.ok(!('answer' in run(verb, '{}')), String(verb?.toString));
  }
});

test('texts that are no document are refused', () => {
  const texts = ['', ' ', '{', '}', '[]', '{}', 'null', '1', '"x"', '{"format":"canewright/2"}',
    '\0', '\ufeff{}', '{"a":1,"a":2}', '{"format":1e999}', 'NaN', '\u2028', "{'format':1}"];
  for (const text of texts) refused(text, JSON.stringify(text));
});

test('a lone surrogate is not fatal and does not swallow what follows it', () => {
  const document = madeUpDocument(0);
  for (const name of ['\ud83d', '\udc1a', 'a\ud83db', '\udc1a\ud83d', '\ud83d\ud83d\udc1a']) {
    // JSON.stringify would write the escape \ud83d; the raw code unit must survive, too.
    const raw = JSON.stringify({ ...document, name: '@' }).replace('@', name);
    const answer = run('layout', raw).answer;
    assert.equal(answer?.name, name.toWellFormed(), 'each lone surrogate becomes U+FFFD');
    const escaped = JSON.stringify({ ...document, name });
    run('layout', escaped);
  }
});

test('text beyond ASCII comes back as it went in', () => {
  for (const name of ['Reiherschilf', 'цапля', '蘆', '𝄞 cane', 'e\u0301', '\u00a0', '"\\/']) {
    assert.equal(run('layout', JSON.stringify({ ...madeUpDocument(0), name })).answer.name, name);
  }
});

test('a megabyte of junk, or of brackets, is refused, in no time', { timeout: 60000 }, () => {
  const size = 1 << 20;
  const junk = { spaces: ' ', digits: '9', open: '[', objects: '{"x":', quotes: '"', zero: '\0',
    surrogates: '\ud83d' };
  for (const [name, piece] of Object.entries(junk)) {
    refused(piece.repeat(size / piece.length), name);
  }
  refused('['.repeat(size / 2) + ']'.repeat(size / 2), 'nested lists');
  refused('{"x":'.repeat(size / 8) + '1' + '}'.repeat(size / 8), 'nested objects');
});

test('deep nesting inside the size limit is refused, not a stack overflow', () => {
  const deep = '['.repeat(50_000) + ']'.repeat(50_000);
  refused(deep, 'a list');
  const document = JSON.stringify(madeUpDocument(0));
  refused(document.replace('{', `{"x":${deep},`), 'below x');
});

test('numbers that are out of any range are refused', () => {
  for (const value of ['1e308', '-1e308', '1e-320', '-0', '123456789012345678901234567890']) {
    const text = JSON.stringify(madeUpDocument(0)).replace(/"wall_mm":[\d.]+/, `"wall_mm":${value}`);
    refused(text, value, ['spread', 'layout']); // fingerings are about the song alone
  }
});

test('lengths: what is no length is a violation, what is one is read', () => {
  const read = (text, unit) => JSON.parse(module.readLength(text, unit));
  for (const value of [...NO_TEXT, '', 'x', '1/0', '1e5', '--1', '\ud800', '9'.repeat(1 << 20)]) {
    const result = read(value, 'mm');
    assert.ok(result.violations?.length > 0, `${typeof value} was read as ${JSON.stringify(result)}`);
  }
  assert.equal(read('53,3', 'mm').mm, 53.3);
  assert.equal(read('2 1/8', 'inch').mm, 53.975); // 2.125 * 25.4, exact by definition of the inch
  for (const unit of [...NO_TEXT, '', 'furlong', '\ud800']) {
    assert.equal(typeof module.readLength('53', unit), 'string');
  }
});

test('lengths: whatever is to be written, text comes back', () => {
  assert.equal(module.writeLength(53.3, 'mm', 32), '53.3');
  const numbers = [...NO_TEXT, '53', Infinity, -Infinity, 1e308, -1e308, 5e-324];
  for (const mm of numbers) {
    for (const fraction of [32, 0, -1, 2.5, NaN, 1e300, 2 ** 31 - 1, null, undefined, '32']) {
      for (const unit of ['mm', 'inch', 'furlong', null]) {
        assert.equal(typeof module.writeLength(mm, unit, fraction), 'string');
      }
    }
  }
});

test('the example and the choices need no document, and the example can be used', () => {
  for (const text of ['', '{', undefined]) {
    assert.ok(run('choices', text).answer);
    assert.ok(run('example', text).answer);
  }
  const example = JSON.stringify(run('example', '').answer);
  assert.ok(run('fingerings', example).answer);
  const laid = run('layout', example).answer;
  assert.ok(run('spread', JSON.stringify(laid)).answer, 'an answer of layout can be fed to spread');
});

test('the first module does not answer as if nothing had been heard', () => {
  const laid = run('layout', JSON.stringify(run('example', '').answer)).answer;
  const heard = JSON.stringify({ ...laid, log: [{ read: { open: [], hz: 380 } }] });
  for (const verb of ['marks', 'layout']) assert.match(run(verb, heard).fault ?? 'an answer', /heard/, verb);
});

test('an instance gives the same bytes for the same document, whatever came between', () => {
  const text = JSON.stringify(madeUpDocument(1));
  const first = module.run('layout', text);
  run('layout', '{');
  run('layout', JSON.stringify(madeUpDocument(2)));
  assert.equal(module.run('layout', text), first);
});

test('the workshop takes sound and nothing else for sound', async () => {
  const workshop = await loadModule('workshop');
  for (const value of [...NO_TEXT, new Float64Array(8192), new Float32Array(0)]) {
    assert.equal(JSON.parse(workshop.pitchFrame(value, 48000)).tone, false);
    assert.ok(Object.keys(JSON.parse(workshop.heldTone(value, 440))).length > 0);
  }
  for (const value of NO_TEXT) {
    assert.ok('violations' in checked(workshop.run('next', value)));
    assert.equal(JSON.parse(workshop.pitchFrame(new Float32Array(8192).fill(0.1), value)).tone, false);
  }
  const tone = Float32Array.from({ length: 8192 }, (_, n) => 0.4 * Math.sin(2 * Math.PI * 440 * n / 48000));
  assert.ok(Math.abs(JSON.parse(workshop.pitchFrame(tone, 48000)).hz - 440) < 0.05);
});

// The page's only number of a player; where it differs, the first reading would move every mark.
test('a new tube is planned for the breath that the bench expects of a stranger', async () => {
  const workshop = await loadModule('workshop');
  const { lift_cents: planned, ...song } = freshDoc(null, { format: 'canewright/1' }).song;
  const heard = { format: 'canewright/1', tube: { bore: [{ at_mm: 0, diameter_mm: 18 }], wall_mm: 3, end_mm: 430 },
    sound_hole: { length_mm: 5, width_mm: 9.5 }, song, log: [{ read: { open: [], hz: 380 } }] };
  const { answer } = checked(workshop.run('next', JSON.stringify(heard)));
  assert.equal(planned, answer.unknowns.find(({ name }) => name === 'drift').mean);
});

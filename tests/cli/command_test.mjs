// tests/cli/command_test.mjs -- the native command as a shell sees it: exit status, both outputs.
// Run by: node --test tests/cli   (CANEWRIGHT names the command, else the native preset's is taken)
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { fileURLToPath } from 'node:url';

const command = process.env.CANEWRIGHT ??
  fileURLToPath(new URL('../../build/native/canewright', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'canewright-'));
after(() => rmSync(folder, { recursive: true }));

/** @param {string[]} words @param {string | Buffer} [input] */
function call(words, input = '') {
  // Without input there is no pipe: a command that never reads it would break it.
  const stdio = /** @type {const} */ ([input === '' ? 'ignore' : 'pipe', 'pipe', 'pipe']);
  const done = spawnSync(command, words, { input, stdio, encoding: 'utf8', timeout: 60000 });
  assert.equal(done.error, undefined);
  return { status: done.status, out: done.stdout, err: done.stderr };
}

const tube = {
  format: 'canewright/1',
  tube: { bore: [{ at_mm: 0, diameter_mm: 18 }], wall_mm: 3, end_mm: 430 },
  sound_hole: { length_mm: 5, width_mm: 9.5 },
  song: { lowest: 'G4', scale: 'minor pentatonic', holes: 5 },
};

test('an answer: status 0, JSON on standard output, nothing on standard error', () => {
  const file = join(folder, 'tube.json');
  writeFileSync(file, JSON.stringify(tube));
  const done = call(['layout', file]);
  assert.equal(done.status, 0);
  assert.equal(done.err, '');
  const answer = JSON.parse(done.out);
  assert.equal(answer.finger_holes.length, 5);
  assert.equal(answer.format, 'canewright/1');
});

test('the answer of layout goes into sound through a pipe', () => {
  const planned = call(['layout', '-'], JSON.stringify(tube));
  const heard = call(['sound', '-'], planned.out);
  assert.equal(heard.status, 0);
  for (const note of JSON.parse(heard.out).notes) {
    assert.equal(note.converged, true);
    assert.ok(Math.abs(note.cents) < 0.1, `${note.open}: ${note.cents}`);
  }
});

test('a constraint that binds is an answer, not a failure', () => {
  const narrow = { ...tube, shop: { spacing_mm: { max: 21 }, diameter_mm: { min: 7, max: 8 } } };
  const done = call(['layout', '-'], JSON.stringify(narrow));
  assert.equal(done.status, 0);
  const binding = JSON.parse(done.out).binding;
  assert.ok(binding.some((/** @type {any} */ each) => each.constraint === 'spacing_max'));
  assert.ok(binding.every((/** @type {any} */ each) => each.costs_cents > 0));
});

test('a wrong document: status 2, all violations on standard error, nothing on standard output', () => {
  const wrong = { ...tube, tube: { ...tube.tube, wall_mm: -1 }, foot: 3 };
  const done = call(['layout', '-'], JSON.stringify(wrong));
  assert.equal(done.status, 2);
  assert.equal(done.out, '');
  assert.deepEqual(JSON.parse(done.err), {
    violations: [
      { code: 'too_small', path: 'tube.wall_mm', value: -1, limit: 0.3 },
      { code: 'unknown_key', path: 'foot', value: null, limit: null },
    ],
  });
});

test('what is missing for a command, and what is no JSON or no UTF-8, is a wrong document', () => {
  const sound = call(['sound', '-'], JSON.stringify(tube));
  assert.equal(sound.status, 2);
  assert.deepEqual(JSON.parse(sound.err).violations.map((/** @type {any} */ v) => [v.code, v.path]), [
    ['needs', 'foot_mm'],
    ['needs', 'finger_holes'],
  ]);
  for (const input of ['', '{', Buffer.from([0x7b, 0x22, 0xff, 0x22, 0x7d]), '['.repeat(100000)]) {
    const done = call(['layout', '-'], input);
    assert.equal(done.status, 2);
    assert.equal(done.out, '');
    assert.equal(JSON.parse(done.err).violations.length, 1);
  }
});

test('wrong usage: status 1, nothing on standard output', () => {
  for (const words of [[], ['layout'], ['dance', '-'], ['layout', '-', '-'], ['help', 'dance'],
    ['layout', join(folder, 'absent.json')], ['layout', folder], ['spread', '-', '--builds', '0'],
    ['spread', '-', '--builds', '3x'], ['spread', '-', '--builds', '-3'], ['spread', '-', '--builds']]) {
    const done = call(words);
    assert.equal(done.status, 1, words.join(' '));
    assert.equal(done.out, '', words.join(' '));
    assert.ok(JSON.parse(done.err), words.join(' '));
  }
});

test('a link comes from standard input too, with what a mail has put into it', () => {
  const link = call(['link', '-'], JSON.stringify(tube)).out.trim();
  const given = call(['unlink', link]);
  assert.equal(given.status, 0);
  for (const input of [`${link}\n`, `> ${link.slice(0, 50)}\n> ${link.slice(50)}\n`]) {
    const piped = call(['unlink', '-'], input);
    assert.deepEqual([piped.status, piped.err], [0, '']);
    assert.equal(piped.out, given.out);
  }
  assert.equal(call(['unlink', '-'], 'no link').status, 2);
});

test('help is JSON too, for every verb', () => {
  const done = call(['help']);
  assert.equal(done.status, 0);
  assert.equal(done.err, '');
  for (const verb of JSON.parse(done.out).verbs) {
    const one = call(['help', verb]);
    assert.equal(one.status, 0);
    assert.ok(JSON.parse(one.out).usage.startsWith('canewright '));
  }
});

test('example and choices need no file', () => {
  const example = call(['example']);
  assert.equal(example.status, 0);
  assert.equal(call(['layout', '-'], example.out).status, 0);
  assert.ok(JSON.parse(call(['choices']).out).scales.length >= 4);
});

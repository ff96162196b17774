// tests/cli/hand_test.mjs -- `canewright hand FILE...`: JSON on standard output, the same in words beside it.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { fileURLToPath } from 'node:url';

const command = process.env.CANEWRIGHT ??
  fileURLToPath(new URL('../../build/native/canewright', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'hand-'));
after(() => rmSync(folder, { recursive: true }));

/** A file with a tube blown without holes. @param {string} name @param {number} hz */
function flute(name, hz, wall_mm = 3) {
  const file = join(folder, `${name}.json`);
  writeFileSync(file, JSON.stringify({ format: 'canewright/1', name,
    tube: { bore: [{ at_mm: 0, diameter_mm: 18 }], wall_mm, end_mm: 430 },
    sound_hole: { length_mm: 5, width_mm: 9.5 }, song: { lowest: 'G4', scale: 'minor pentatonic', holes: 5 },
    log: [{ foot: { at_mm: 390 } }, { read: { open: [], hz, sigma_cents: 2 } }] }));
  return file;
}
/** @param {string[]} words */
const call = (words) => spawnSync(command, ['hand', ...words], { encoding: 'utf8', timeout: 60000 });

test('several flutes: a hand that a document takes, and words', () => {
  const done = call([flute('one', 383), flute('two', 384), flute('three', 382)]);
  assert.equal(done.status, 0);
  const hand = JSON.parse(done.stdout);
  assert.deepEqual(hand.of, ['one', 'two', 'three']);
  assert.match(done.stderr, /^your voices act \d+\.\d % longer than measured, give or take \d+\.\d % from flute to flute$/m);
  assert.match(done.stderr, /^your breath lifts high notes by \d\.\d cents an octave/m);
  const next = { ...JSON.parse('{"format":"canewright/1"}'), pattern: hand,
    tube: { bore: [{ at_mm: 0, diameter_mm: 17 }], wall_mm: 3, end_mm: 430 },
    sound_hole: { length_mm: 5, width_mm: 9.5 }, song: { lowest: 'G4', scale: 'minor pentatonic', holes: 5 } };
  const laid = spawnSync(command, ['layout', '-'], { input: JSON.stringify(next), encoding: 'utf8' });
  assert.equal(laid.status, 0, laid.stderr);
  const linked = spawnSync(command, ['link', '-'], { input: JSON.stringify(next), encoding: 'utf8' }).stdout.trim();
  const back = spawnSync(command, ['unlink', linked], { encoding: 'utf8' });
  assert.deepEqual(JSON.parse(back.stdout).pattern, hand);
});

test('one flute is a hand of one; what is wrong in any of them is told with its number', () => {
  assert.equal(JSON.parse(call([flute('one', 383)]).stdout).flutes, 1);
  const done = call([flute('one', 383), flute('thin', 383, -1)]);
  assert.equal(done.status, 2);
  assert.equal(done.stdout, '');
  assert.equal(JSON.parse(done.stderr).violations[0].path, 'documents[1].tube.wall_mm');
  assert.equal(call([join(folder, 'nowhere.json')]).status, 1);
});

// tests/cli/virtual_makers_test.mjs -- thirty virtual makers, of the thousand that are a command.
// Run by: node --test tests/cli   (needs the native preset's virtual-makers)
//
// The goals over 1,000 builds are: within 10 cents 0.95, within 5 cents 0.70, sharp 0.02, 3 cuts a
// note, 40 steps; bands of 68 % cover 0.60 to 0.76, bands of 95 % at least 0.90. Thirty builds
// scatter, so shares are held to three standard deviations of a share at its goal below (above) it.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { fileURLToPath } from 'node:url';

const builds = 30;
const program = process.env.VIRTUAL_MAKERS ??
  fileURLToPath(new URL('../../build/native/virtual-makers', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'virtual-makers-'));
const out = join(folder, 'out.json');
/** @type {any} */
let made;

before(() => {
  const words = ['--builds', String(builds), '--seed', '7', '--json', out];
  const done = spawnSync(program, words, { stdio: 'ignore', timeout: 300000 });
  assert.equal(done.error, undefined);
  assert.equal(done.status, 0);
  made = JSON.parse(readFileSync(out, 'utf8'));
});
after(() => rmSync(folder, { recursive: true }));

/** Three standard deviations of a share. @param {number} share @param {number} count */
const spread = (share, count) => 3 * Math.sqrt((share * (1 - share)) / count);

test('who follows the planner ends in tune', () => {
  const { canewright } = made;
  assert.equal(canewright.finished, 1);
  assert.ok(canewright.within_10 >= 0.95 - spread(0.95, builds), `${canewright.within_10}`);
  assert.ok(canewright.within_5 >= 0.7 - spread(0.7, builds), `${canewright.within_5}`);
  assert.ok(canewright.sharp <= 0.02 + spread(0.02, builds), `${canewright.sharp}`);
});

test('with few cuts and steps', () => {
  assert.ok(made.canewright.cuts_per_note <= 3, `${made.canewright.cuts_per_note}`);
  assert.ok(made.canewright.steps <= 40, `${made.canewright.steps}`);
});

test('the bands cover what they say', () => {
  // notes of one build share their errors: a build counts, not a note
  for (const bands of Object.values(made.canewright.bands)) {
    assert.ok(bands.counted > 5 * builds);
    assert.ok(bands.cover_68 >= 0.6 - spread(0.6, builds) / 2, `${bands.cover_68}`);
    assert.ok(bands.cover_68 <= 0.76 + spread(0.76, builds) / 2, `${bands.cover_68}`);
    assert.ok(bands.cover_95 >= 0.9 - spread(0.9, builds) / 2, `${bands.cover_95}`);
  }
});

test('and better than without', () => {
  for (const other of [made.pattern, made.open_loop]) {
    assert.ok(made.canewright.within_10 >= other.within_10);
    assert.ok(made.canewright.within_5 > other.within_5);
  }
});

test('a wrong call is answered with how to call', () => {
  for (const words of [['--builds'], ['--nonsense', '3'], ['--builds', '0'], ['--builds', '1x'],
    ['--builds', '1.5'], ['--builds', '-1'], ['--builds', ''], ['--builds', '99999999999'], ['--seed', 'abc', '--builds', '1'],
    ['--first', '-1', '--builds', '1'], ['--builds', '1', '--seed']]) {
    const done = spawnSync(program, words, { encoding: 'utf8', timeout: 60000 });
    assert.equal(done.status, 2);
    assert.match(done.stderr, /usage: virtual-makers/u);
  }
});

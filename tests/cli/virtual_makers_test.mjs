// tests/cli/virtual_makers_test.mjs -- thirty virtual makers, of the thousand that are a command.
// Run by: node --test tests/cli   (needs the native preset's virtual-makers)
//
// Held to the README's figures (tests/data/figures.csv), which are of many more builds. Thirty scatter:
// a share may be three standard deviations of a share (binomial) worse than the figure, a median 10 %.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { fileURLToPath } from 'node:url';

import { figure } from '../support/figures.mjs';

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

/** A share that is 1 in so many builds may be a little less in truth. @param {string} id */
const share = (id) => Math.min(figure(id), 1 - 1 / figure('makers_builds'));
/** What thirty builds must come to at least, by a figure. @param {string} id */
const least = (id) => share(id) - spread(share(id), builds);

test('who follows the planner ends in tune', () => {
  const { canewright } = made;
  assert.equal(canewright.finished, 1);
  assert.ok(canewright.within_10 >= least('makers_within_10'), `${canewright.within_10}`);
  assert.ok(canewright.within_5 >= least('makers_within_5'), `${canewright.within_5}`);
  const sharp = Math.max(figure('makers_sharp'), 1 / figure('makers_builds'));
  assert.ok(canewright.sharp <= sharp + spread(sharp, builds), `${canewright.sharp}`);
});

test('with few cuts and steps', () => {
  const { cuts_per_note: cuts, steps } = made.canewright;
  assert.ok(cuts <= 1.1 * figure('makers_cuts'), `${cuts}`);
  assert.ok(steps <= 1.1 * figure('makers_steps'), `${steps}`);
});

test('the bands cover what the README says', () => {
  const { during, at_end: atEnd } = made.canewright.bands;
  for (const [id, covered] of /** @type {[string, number][]} */ ([
    ['makers_during_cover_68', during.cover_68], ['makers_during_cover_95', during.cover_95],
    ['makers_at_end_cover_68', atEnd.cover_68], ['makers_at_end_cover_95', atEnd.cover_95],
  ])) {
    // notes of one build share their errors: a build counts, not a note
    const said = figure(id) / 100;
    assert.ok(Math.abs(covered - said) <= spread(said, builds), `${id}: ${covered}`);
  }
  assert.ok(during.counted > 5 * builds && atEnd.counted > 5 * builds);
});

test('the makers without a bench do as badly as it says', () => {
  const { pattern, open_loop: first } = made;
  for (const [id, got] of /** @type {[string, number][]} */ ([
    ['copied_within_10', pattern.within_10], ['copied_within_5', pattern.within_5],
    ['copied_sharp', pattern.sharp], ['first_within_10', first.within_10],
    ['first_within_5', first.within_5], ['first_sharp', first.sharp],
  ])) {
    const said = figure(id);
    assert.ok(Math.abs(got - said) <= spread(said, builds) + 1 / builds, `${id}: ${got}`);
  }
});

test('it says what its truth shares with the core, and which tubes were put away', () => {
  assert.match(made.shared_with_core, /exactly/u);
  for (const why of ['rejected_a_note_not_met', 'rejected_nothing_to_saw', 'without_pattern'])
    assert.ok(Number.isInteger(made.tubes[why]), why);
  const put = made.tubes.rejected_a_note_not_met + made.tubes.rejected_nothing_to_saw;
  const rare = Math.max(figure('makers_rejected'), 1) / figure('makers_builds');
  assert.ok(put <= builds * (rare + spread(Math.min(rare, 0.5), builds)), `${put}`);
});

test('its truth is as far from the core as the README says', () => {
  const { lowest_note: lowest, intervals } = made.first_layout_cut_exactly;
  for (const [meanId, sdId, off] of /** @type {[string, string, any][]} */ ([
    ['makers_lowest_mean', 'makers_lowest_sd', lowest],
    ['makers_intervals_mean', 'makers_intervals_sd', intervals],
  ])) {
    // intervals of one flute share their errors: a build counts; three standard errors
    const sd = figure(sdId), error = (3 * sd) / Math.sqrt(builds);
    assert.ok(Math.abs(off.mean_cents - figure(meanId)) <= error, JSON.stringify(off));
    assert.ok(Math.abs(off.sd_cents - sd) <= error, JSON.stringify(off));
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

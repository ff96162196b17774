// tests/cli/next_test.mjs -- a whole build by the command alone: `next` is followed to the word by a
// maker whose flute is not quite what was measured. What the flute sounds comes from `sound` of
// another document (another voice, another bore): the same physics, so this checks the dialogue and
// the bookkeeping; tools/virtual-makers checks the method against other formulas.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';

const command = process.env.CANEWRIGHT ??
  fileURLToPath(new URL('../../build/native/canewright', import.meta.url));

/** @param {string} verb @param {unknown} document */
function ask(verb, document) {
  const done = spawnSync(command, [verb, '-'], { input: JSON.stringify(document), encoding: 'utf8' });
  assert.equal(done.status, 0, `${verb}: ${done.stderr}`);
  return JSON.parse(done.stdout);
}

const cents = (/** @type {number} */ a, /** @type {number} */ b) => 1200 * Math.log2(a / b);

const measured = {
  format: 'canewright/1', name: 'Heron reach',
  air: { room_c: 20 },
  tube: { bore: [{ at_mm: 0, diameter_mm: 18 }], wall_mm: 3, end_mm: 430, material: 'bamboo' },
  sound_hole: { length_mm: 5, width_mm: 9.5 },
  song: { lowest: 'G4', scale: 'minor pentatonic', holes: 5, tolerance_cents: 10 },
  shop: { bits: [3, 4, 5, 6, 7, 8, 9].map((mm) => ({ mm })), spacing_mm: { min: 16, max: 40 } },
};

/** The flute as it really is: nobody measured it so. */
class Truth {
  foot = 430;
  /** @type {Map<number, {at_mm: number, diameter_mm: number}>} */
  holes = new Map();

  /** @param {number[]} open @returns {number} */
  hz(open) {
    const cut = [...this.holes].sort(([a], [b]) => a - b);
    const heard = ask('sound', {
      ...measured, foot_mm: this.foot,
      tube: { ...measured.tube, bore: [{ at_mm: 0, diameter_mm: 18.12 }], wall_mm: 2.93 },
      sound_hole: { length_mm: 4.7, width_mm: 9.3 },
      finger_holes: cut.map(([, hole]) => hole),
      notes: [{ open: open.map((number) => cut.findIndex(([n]) => n === number) + 1) }],
    });
    return heard.notes[0].hz;
  }
}

test('next leads from the blank to a flute in tune', { timeout: 120_000 }, () => {
  const truth = new Truth();
  /** @type {any[]} */
  const log = [];
  let steps = 0;
  let answer = ask('next', { ...measured, log });
  const kinds = new Set();
  for (; answer.step.do !== 'done'; steps += 1) {
    assert.ok(steps < 60, `no end: ${JSON.stringify(answer.step)}`);
    const { step } = answer;
    kinds.add(step.do);
    const read = (/** @type {number[]} */ open) => {
      // whole cents up and down in turn: a meter
      const off = [1.5, -1.5, 0.5][log.length % 3];
      log.push({ read: { open, hz: truth.hz(open) * 2 ** (off / 1200), sigma_cents: 2 }, room_c: 20 });
    };
    if (step.do === 'read') read(step.open);
    else if (step.do === 'wait') log.push({ bore: 'sealed' });
    else if (step.do === 'foot' && !step.until) {
      truth.foot = step.at_mm + 0.15;  // a saw is no knife
      log.push({ foot: { at_mm: step.at_mm } });
    } else if (step.do === 'foot') {
      while (truth.hz(step.until.open) < step.until.hz) truth.foot -= 0.1;
      log.push({ foot: { at_mm: Math.round(truth.foot * 10) / 10 } });
      read(step.until.open);
    } else if (step.do === 'hole' && !step.until) {
      truth.holes.set(step.number, { at_mm: step.at_mm + 0.1, diameter_mm: step.diameter_mm + 0.03 });
      log.push({ hole: { number: step.number, at_mm: step.at_mm, diameter_mm: step.diameter_mm } });
    } else if (step.do === 'hole') {
      const hole = truth.holes.get(step.number);
      assert.ok(hole);
      while (truth.hz(step.until.open) < step.until.hz) hole.diameter_mm += 0.04;
      log.push({ hole: { number: step.number, at_mm: step.at_mm } });
      read(step.until.open);
    } else assert.fail(`not expected here: ${JSON.stringify(step)}`);
    answer = ask('next', { ...measured, log });
  }
  for (const note of answer.notes) {
    const off = cents(truth.hz(note.open), note.target_hz);
    assert.ok(Math.abs(off) < 6, `${note.name}: ${off.toFixed(1)} cents`);
  }
  assert.ok(answer.step.verdict.every((/** @type {any} */ v) => v.within));
  for (const kind of ['foot', 'read', 'hole', 'wait']) assert.ok(kinds.has(kind), kind);
  assert.ok(steps <= 40, `${steps} steps`);
  // undoing the last entry asks for the same thing again
  const before = ask('next', { ...measured, log: log.slice(0, -1) });
  assert.notEqual(before.step.do, 'done');
});

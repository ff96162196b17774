// tests/cli/tone_test.mjs -- the pitch of what `tone` renders, measured by a general library (numpy's FFT).
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { test } from 'node:test';
import { fileURLToPath } from 'node:url';

const command = process.env.CANEWRIGHT ??
  fileURLToPath(new URL('../../build/native/canewright', import.meta.url));
const script = fileURLToPath(new URL('tone_pitch.py', import.meta.url));

/** @param {string} program @param {string[]} words @param {unknown} input */
function run(program, words, input) {
  const done = spawnSync(program, words, { input: JSON.stringify(input), encoding: 'utf8', maxBuffer: 1 << 26 });
  assert.equal(done.status, 0, done.stderr);
  return JSON.parse(done.stdout);
}

// A track and a sound hole in the band where the jet's model is good.
const flute = {
  format: 'canewright/1',
  tube: { bore: [{ at_mm: 0, diameter_mm: 18 }], wall_mm: 3, end_mm: 400, above_mm: 80 },
  sound_hole: { length_mm: 4, width_mm: 9.5 }, track: { depth_mm: 0.9, width_mm: 9.5, length_mm: 30 }, foot_mm: 382,
  finger_holes: [160, 190, 230, 260, 300].map((at_mm) => ({ at_mm, diameter_mm: 7 })),
};

// Reference  numpy's FFT of the samples; `hz` is the balance's, reckoned without time (core/jet).
// Tolerance  1 cent at the design breath, 3 elsewhere (core/tone/blown.hpp).
test('a rendered tone has the pitch that the balance gives, by numpy', () => {
  for (const [open, register, breath, within] of [[[], 1, 0, 1], [[4, 5], 1, 0, 1], [[5], 2, 0, 1],
    [[], 1, -0.6, 3], [[4, 5], 1, 0.5, 3]]) {
    const tone = run(command, ['tone', '-'], { document: flute, open, register, breath, seconds: 1.6 });
    assert.ok(tone.holds, `${open} ${register} ${breath}`);
    const { hz } = run('/usr/bin/python3', [script], { samples: tone.samples, rate_hz: tone.rate_hz, from_s: 0.6, seconds: 0.9,
      near_hz: tone.hz });
    const off = 1200 * Math.log2(hz / tone.hz);
    assert.ok(Math.abs(off) <= within, `${open} of register ${register} at breath ${breath}: ${off.toFixed(3)} cents`);
  }
});

// tests/web/making.test.mjs -- the drawn steps of making a voice: their geometry, for any tube.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import fc from 'fast-check';
import { STEP_KEYS, holeEnds, surface, tubeOf } from '../../web/voice/making/steps.js';
import { clipped, laidOut } from '../../web/voice/making/steps_laid.js';
import { stepsOf } from '../../web/voice/making/steps_views.js';
import { DRAWN, DRAWN_STEPS, STEPS } from '../../web/voice/making/words.js';

const DOC = { tube: { bore: [{ at_mm: 0, diameter_mm: 18 }], wall_mm: 3, end_mm: 430, above_mm: 160 },
  plug: { offset_mm: 0.5, thickness_mm: 9 }, sound_hole: { length_mm: 5, width_mm: 10, ramp_mm: 9, edge_mm: 0.4 },
  block: { height_mm: 6, front_mm: 0.5 }, track: { depth_mm: 0.8, width_mm: 10, length_mm: 14 },
  chamber: { length_mm: 100, air_hole_mm: 8 }, song: {} };
const say = (what) => {
  assert.equal(typeof DRAWN[what], 'string', `no words for ${what}`);
  return DRAWN[what];
};
const cutOf = (steps, key) => steps[STEP_KEYS.indexOf(key)].views[0].cuts;
const area = (points) => Math.abs(points.reduce((sum, [x, y], i) => {
  const [a, b] = points[(i + 1) % points.length];
  return sum + x * b - a * y;
}, 0)) / 2;

/** Documents from the smallest to the largest that anybody may enter. */
const mm = (min, max) => fc.double({ min, max, noNaN: true });
const some = (arbitrary) => fc.option(arbitrary, { nil: undefined });
const documents = fc.record({ bore: mm(3, 60), wall: mm(0.3, 20), thin: some(mm(0.2, 20)), length: mm(1, 40), width: mm(1, 40),
  ramp: some(mm(0, 60)), edge: some(mm(0, 20)), height: some(mm(0.5, 60)), front: some(mm(-3, 10)), depth: some(mm(0.05, 5)),
  track: some(mm(1, 200)), air: some(mm(1, 60)), plug: some(mm(0.3, 100)), off: some(mm(0, 50)), bare: fc.boolean() })
  .map((o) => ({ tube: { bore: [{ at_mm: 0, diameter_mm: o.bore }], wall_mm: o.wall, end_mm: 400 },
    plug: { offset_mm: o.off, thickness_mm: o.plug }, sound_hole: { length_mm: o.length, width_mm: o.width, wall_mm: o.thin,
      ramp_mm: o.ramp, edge_mm: o.edge }, block: o.bare ? 'none' : { height_mm: o.height, front_mm: o.front },
    track: { depth_mm: o.depth, length_mm: o.track }, chamber: { air_hole_mm: o.air }, song: {} }));

describe('the drawn steps', () => {
  it('are as many as the words, each with words for those who do not see it', () => {
    const steps = stepsOf(DOC, null);
    assert.equal(steps.length, STEPS.length);
    assert.equal(DRAWN_STEPS.length, STEPS.length);
    assert.equal(new Set(DRAWN_STEPS).size, STEPS.length);
  });

  it('take away what the tube’s numbers say', () => {
    const steps = stepsOf(DOC, null);
    const across = (points, k) => [Math.min(...points.map((p) => p[k])), Math.max(...points.map((p) => p[k]))];
    assert.deepEqual(across(cutOf(steps, 'sound hole')[0], 0), [0, 4], 'a millimetre short of 5');
    assert.deepEqual(across(steps[3].views[1].cuts[0], 1), [-4.75, 4.75], 'half a millimetre narrower than 10');
    assert.deepEqual(across(cutOf(steps, 'air hole')[0], 0)[0], -22, '8 mm before a track of 14');
    assert.deepEqual(across(cutOf(steps, 'ramp')[0], 0), [4, 14], 'from the small hole to the ramp’s end: 5 + 9');
    const t = tubeOf(DOC, null);
    for (const [step, depth] of [[5, 0.4], [7, 0.8]]) {
      assert.ok(Math.abs(t.top - surface(t, step, -1) - depth) < 1e-9, `the track is ${depth} deep after step ${step}`);
    }
    assert.ok(Math.abs(surface(t, 6, 5) - 9.4) < 1e-9, 'the splitting edge 0.4 above the bore');
    // Chord of a circle: half the width at a height is the root of the radius squared less the height squared.
    assert.ok(Math.abs(t.outer ** 2 - t.top ** 2 - 5 ** 2) < 1e-9, 'the flat as wide as the sound hole');
  });

  it('cut something else each time; plug and seal cut nothing; nothing grows back', () => {
    const steps = stepsOf(DOC, null);
    const cuts = steps.map(({ views }) => JSON.stringify(views[0].cuts));
    assert.deepEqual([cuts[0], cuts[7]], ['[]', '[]']);
    const real = cuts.slice(1, 7);
    assert.equal(new Set(real).size, real.length);
    for (const key of STEP_KEYS.slice(1, 7)) assert.ok(cutOf(steps, key).every((points) => area(points) > 0.5), key);
    fc.assert(fc.property(documents, fc.double({ min: -300, max: 120, noNaN: true }), (doc, at) => {
      const t = tubeOf(doc, null);
      for (let step = 1; step <= 8; step += 1) {
        assert.ok(surface(t, step, at) <= surface(t, step - 1, at) + 1e-9, `step ${step} at ${at}`);
        assert.ok(surface(t, step, at) >= t.inner - 1e-9, `through the wall: step ${step} at ${at}`);
        assert.ok(holeEnds(t, step) >= holeEnds(t, step - 1));
      }
    }), { numRuns: 300, seed: 7 });
  });

  it('another tube is another drawing, in every step', () => {
    const other = { ...DOC, tube: { ...DOC.tube, bore: [{ at_mm: 0, diameter_mm: 14 }] } };
    const [one, two] = [DOC, other].map((doc) => stepsOf(doc, null).map(({ views }) => JSON.stringify(
      laidOut(views, 320, 14, say))));
    one.forEach((drawing, i) => assert.notEqual(drawing, two[i], STEP_KEYS[i]));
  });

  it('are drawn of numbers within the picture, whatever is entered', () => {
    fc.assert(fc.property(documents, fc.integer({ min: 180, max: 400 }), (doc, width) => {
      for (const { key, views } of stepsOf(doc, null)) {
        const { height, lines, words, dots } = laidOut(views, width, Math.min(14.4, width / 20), say);
        const points = [...lines.flatMap((line) => line.points), ...dots, ...words.map(({ x, y }) => [x, y])];
        for (const [x, y] of points) {
          assert.ok(Number.isFinite(x) && Number.isFinite(y), `${key}: ${x} ${y}`);
          assert.ok(x >= -1e-6 && x <= width + 1e-6 && y >= -1e-6 && y <= height + 1e-6, `${key}: ${x} ${y} of ${width} ${height}`);
        }
      }
    }), { numRuns: 300, seed: 7 });
  });

  it('a shape is cut at the picture’s rim', () => {
    const view = { from: 0, to: 2, low: 0, high: 1 };
    assert.equal(area(clipped([[-1, -1], [3, -1], [3, 3], [-1, 3]], view)), 2);
    assert.deepEqual(clipped([[3, 0], [4, 0], [4, 1]], view), []);
  });
});

// web/voice/making/steps_views.js: from where each step is looked at, and what is pointed at there.

/// <reference path="../types.d.ts" />
import { STEP_KEYS, box, cutsOf, holeEnds, outside, surface, trackDepth, tubeOf, walls } from './steps.js';

/** @typedef {import('./steps.js').Tube} Tube */
/** @typedef {import('./steps.js').View} View */
/** @typedef {import('./steps.js').Point} Point */
/** @typedef {import('./steps.js').Shape} Shape */

const BESIDE_MM = 5;   // of the tube, to either side of what matters

/** @param {Doc} doc one that has an answer @param {VoiceAnswer | null} voice @returns {import('./steps.js').Step[]} */
export function stepsOf(doc, voice) {
  const tube = tubeOf(doc, voice);
  return STEP_KEYS.map((key, i) => ({ key, views: viewsOf(tube, i + 1) }));
}

/** @param {Tube} t @param {number} step from 1 @returns {View[]} */
function viewsOf(t, step) {
  const mouth = t.behind - BESIDE_MM;
  const foot = t.back + BESIDE_MM;
  const slit = t.top - trackDepth(t, step) / 2;
  switch (step) {
    case 1: return [along(t, 1, mouth, foot, -t.outer, {
      lines: [...(t.face - t.plug > mouth ? [arrow('way', [mouth + 1, t.inner * 0.4], [t.face - t.plug - 0.5, t.inner * 0.4]),
        arrow('breath', [mouth + 1, -t.inner * 0.5], [t.face - t.plug - 0.5, -t.inner * 0.5])] : []),
      { what: 'mark', points: [[0, t.outer], [0, -t.outer]] },
      cross(t.face + (foot - t.face) * 0.5, -t.inner * 0.5, t.inner * 0.16)],
      labels: [label('chamber', mouth + 2, t.inner * 0.75), label('plug', t.face - t.plug / 2, t.inner * 0.8),
        label('line', 0, t.outer),
        label('blow', mouth + 3, -t.inner * 0.5, true), label('no air', t.face + (foot - t.face) * 0.5, -t.inner * 0.5, true)] })];
    case 2: return [along(t, 2, mouth, foot, t.inner * 0.2, {
      tools: [{ kind: 'file', at: t.length * 0.5, up: t.outer, degrees: 0 }],
      labels: [label('flat', (t.behind + t.airTo) / 2, (t.top + t.outer) / 2), label('wall left', t.airTo / 2,
        (t.inner + t.top) / 2, true)] }), ring(t)];
    case 3: return [along(t, 3, mouth, foot, t.inner * 0.2, {
      tools: [{ kind: 'drill', at: (t.airFrom + t.airTo) / 2, up: t.top, degrees: 90 }],
      labels: [label('air hole', (t.airFrom + t.airTo) / 2, (t.inner + t.top) / 2, true),
        label('slope', t.airTo + t.slope * 0.4, t.top - t.slope * 0.3)] }),
    above(t, 3, mouth, foot, { cuts: [round((t.airFrom + t.airTo) / 2, t.air / 2)],
      lines: [-0.5, 0.5].map((side) => ({ what: 'mark', points: [[t.airTo, side * t.trackWidth], [0, side * t.trackWidth]] })),
      labels: [label('track’s width', t.airTo / 2, -t.trackWidth / 2, true)] })];
    case 4: {
      const near = -t.length - BESIDE_MM;
      const far = t.length * 2 + BESIDE_MM;
      return [along(t, 4, near, far, t.inner * 0.45, {
        tools: [{ kind: 'knife', at: 0, up: t.top, degrees: 90 }],
        labels: [label('sound hole', holeEnds(t, 4) / 2, (t.inner + t.top) / 2, true)] }),
      above(t, 4, near, far, { cuts: [box(0, holeEnds(t, 4), -(t.width - t.narrow) / 2, (t.width - t.narrow) / 2)],
        lines: [{ what: 'later', points: [...box(0, t.length, -t.width / 2, t.width / 2), [0, -t.width / 2]] }],
        labels: [label('square', 0, t.width * 0.3), label('later', t.length, -t.width / 2, true)] })];
    }
    case 5: return [along(t, 5, t.airFrom - BESIDE_MM, t.length + BESIDE_MM, t.inner * 0.6, {
      tools: [{ kind: 'knife', at: t.airTo * 0.25, up: t.top, degrees: 155 }],
      labels: [label('half', t.airTo * 0.6, t.top - trackDepth(t, 5), true)] }),
    above(t, 5, t.airFrom - BESIDE_MM, t.length + BESIDE_MM, {
      cuts: [box(t.airTo, 0, -t.trackWidth / 2, t.trackWidth / 2)],
      lines: [arrow('way', [t.airTo * 0.46, 0], [-0.6, 0]), arrow('way', [t.airTo * 0.54, 0], [t.airTo + 0.6, 0])],
      labels: [label('track', t.airTo * 0.5, -t.trackWidth * 0.4, true)] }),
    test(t, 5, [label('wet finger', t.length / 2, slit), label('block', t.airTo * 0.5, t.top + t.block * 0.6)])];
    case 6: return [along(t, 6, -t.length * 0.6 - 2, t.back + BESIDE_MM, t.inner * 0.6, {
      tools: [{ kind: 'knife', at: t.length + t.ramp * 0.3, up: t.top + 0.3,
        degrees: Math.atan2(t.top - t.edgeUp, Math.max(t.ramp, 1)) * 180 / Math.PI }],
      labels: [label('splitting edge', t.length, (t.inner + t.edgeUp) / 2, true),
        ...(t.ramp > 0 ? [label('ramp', t.length + t.ramp * 0.7, surface(t, 6, t.length + t.ramp * 0.7), true)] : [])] }),
    test(t, 6, [label('whisper', t.length, t.edgeUp)])];
    case 7: return [along(t, 7, t.airFrom - BESIDE_MM, t.length + BESIDE_MM, t.inner * 0.6, {
      tools: [{ kind: 'knife', at: t.airTo * 0.25, up: t.top - t.depth / 2, degrees: 155 }],
      labels: [label('deeper', t.airTo * 0.6, t.top - t.depth, true)] }),
    test(t, 7, [label('lowest', t.length, t.edgeUp)])];
    default: {
      const view = along(t, 8, mouth, foot, -t.outer, {
        lines: [{ what: 'seal', points: [[mouth, -t.inner], [t.face - t.plug, -t.inner]] },
          { what: 'seal', points: [[t.face, -t.inner], [foot, -t.inner]] },
          { what: 'seal', points: outside(t, 8, t.airTo, 0) }],
        labels: [label('bore', t.back, -t.inner, true), label('sealed track', t.airTo * 0.5, t.top - t.depth, true)] });
      return [tied(t, view)];
    }
  }
}

/** @param {Tube} t @param {number} step @param {number} from @param {number} to @param {number} low
 * @param {Partial<View>} more @returns {View} */
function along(t, step, from, to, low, more) {
  return { kind: 'along', from, to, low, high: t.outer + 0.4, cuts: cutsOf(t, step), lines: [], tools: [], labels: [],
    bodies: [...walls(t, step, from, to), plugOf(t)], ...more };
}

/** The block laid on, and the way of the breath. @param {Tube} t @param {number} step @param {View['labels']} labels
 * @returns {View} */
function test(t, step, labels) {
  const from = t.behind - BESIDE_MM;
  const to = t.back + BESIDE_MM;
  const middle = (t.airFrom + t.airTo) / 2;
  const slit = t.top - trackDepth(t, step) / 2;
  /** @type {Point[]} */
  const way = [[Math.max(from, middle - t.air), t.inner * 0.55], [middle, t.inner * 0.75], [middle, t.inner], [middle + t.air * 0.3, slit],
    [holeEnds(t, step) - 0.4, slit]];
  return { ...along(t, step, from, to, t.inner * 0.3, {}), kind: 'test', high: Math.max(t.outer, t.top + t.block) + 0.4,
    cuts: [], bodies: [...walls(t, step, from, to), plugOf(t), ...blockOf(t)], lines: [{ what: 'breath', points: way }],
    labels: labels.filter(({ what }) => what !== 'block' || t.block > 0) };
}

/** @param {Tube} t @param {View} view @returns {View} */
function tied(t, view) {
  if (t.block <= 0) return view;
  const turn = Math.min(t.block * 0.22, t.outer * 0.1);
  const middle = (t.behind + t.front) / 2;
  const turns = [-2.2, 0, 2.2].map((k) => middle + k * turn);
  return { ...view, low: -t.outer - 2 * turn - 0.4, high: t.top + t.block + 2 * turn + 0.4,
    bodies: [...view.bodies, ...blockOf(t), ...turns.flatMap((at) => [{ what: 'cord', points: round(at, turn, t.top + t.block + turn) },
      { what: 'cord', points: round(at, turn, -t.outer - turn) }])],
    labels: [...view.labels, label('cord', turns[1], t.top + t.block + turn), label('tied block', t.behind
      + (t.front - t.behind) * 0.85, t.top + t.block * 0.7)] };
}

/** Seen from above: what is done already, and what is cut now. @param {Tube} t @param {number} step @param {number} from
 * @param {number} to @param {Partial<View>} more @returns {View} */
function above(t, step, from, to, more) {
  const half = t.trackWidth / 2;
  const hole = (t.width - t.narrow) / 2;
  return { kind: 'above', from, to, low: -t.outer, high: t.outer, cuts: [], lines: [], tools: [], labels: [], bodies: [
    { what: 'wall', points: box(from, to, -t.outer, t.outer) },
    { what: 'flat', points: box(t.behind, t.back, -t.flatHalf, t.flatHalf) },
    ...(step > 3 ? [{ what: 'open', points: round((t.airFrom + t.airTo) / 2, t.air / 2) }] : []),
    ...(step > 4 ? [{ what: 'open', points: box(0, holeEnds(t, step), -hole, hole) }] : []),
    ...(step > 5 ? [{ what: 'flat', points: box(t.airTo, 0, -half, half) }] : [])], ...more };
}

/** The tube from its end, the block laid on the new flat. @param {Tube} t @returns {View} */
function ring(t) {
  const open = Math.acos(Math.min(1, t.top / t.outer));
  /** @type {Point[]} */
  const cap = Array.from({ length: 17 }, (_, i) => { const a = open * (i / 8 - 1);
    return [t.outer * Math.sin(a), t.outer * Math.cos(a)]; });
  const lifted = t.outer - t.top + t.outer * 0.25;
  const block = t.block || t.outer * 0.5;
  const seat = Math.max(t.flatHalf, 1);
  return { kind: 'end', from: -t.outer * 1.1, to: t.outer * 1.1, low: t.inner * 0.2, high: t.top + lifted + block,
    bodies: [{ what: 'wall', points: round(0, t.outer) }, { what: 'bore', points: round(0, t.inner) },
      { what: 'block', points: box(-seat, seat, t.top + lifted, t.top + lifted + block) }],
    cuts: [cap], lines: [], tools: [],
    labels: [label('block', seat * 0.6, t.top + lifted + block * 0.6), label('no light', -seat * 0.5, t.top, true)] };
}

/** @param {Tube} t @returns {Shape} */
const plugOf = (t) => ({ what: 'plug', points: box(t.face - t.plug, t.face, -t.inner, t.inner) });
/** @param {Tube} t @returns {Shape[]} */
const blockOf = (t) => (t.block > 0 && t.front > t.behind ? [{ what: 'block', points: box(t.behind, t.front, t.top, t.top + t.block) }] : []);
/** @param {string} what @param {number} at @param {number} up @param {boolean} [under] */
const label = (what, at, up, under = false) => ({ what, at, up, under });
/** @param {string} what @param {Point} from @param {Point} to @returns {Shape} */
const arrow = (what, from, to) => ({ what, points: [from, to] });
/** @param {number} at @param {number} up @param {number} r @returns {Shape} */
const cross = (at, up, r) => ({ what: 'cross', points: [[at - r, up - r], [at + r, up + r], [at, up], [at - r, up + r],
  [at + r, up - r]] });
/** @param {number} at @param {number} radius @param {number} [up] @returns {Point[]} */
const round = (at, radius, up = 0) => Array.from({ length: 48 }, (_, i) => [at + radius * Math.cos(i * Math.PI / 24),
  up + radius * Math.sin(i * Math.PI / 24)]);

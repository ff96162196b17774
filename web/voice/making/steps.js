// web/voice/making/steps.js: what each step of making a voice takes away from this tube. Reckons, draws nothing.
//
// Places are in mm, as in web/widgets/section.js: `at` along the tube from the sound hole's upstream edge towards
// the foot, `up` from the tube's middle towards the sound hole; from above, `up` is across the tube.

/// <reference path="../types.d.ts" />
import { BLOCK_BEHIND_MM, sizesOf } from '../../widgets/section.js';

/** @typedef {[number, number]} Point */
/** @typedef {{what: string, points: Point[]}} Shape */
/** A tool, its tip, and the angle at which it comes, from the right over the top [degrees].
 * @typedef {{kind: 'knife' | 'file' | 'drill', at: number, up: number, degrees: number}} Tool */
/** @typedef {{what: string, at: number, up: number, under: boolean}} Label */
/** @typedef {{kind: 'along' | 'above' | 'end' | 'test', from: number, to: number, low: number, high: number, bodies: Shape[],
 *   cuts: Point[][], lines: Shape[], tools: Tool[], labels: Label[]}} View */
/** @typedef {{key: string, views: View[]}} Step */
/** @typedef {ReturnType<typeof tubeOf>} Tube */

export const STEP_KEYS = ['plug', 'flat', 'air hole', 'sound hole', 'track', 'ramp', 'depth', 'seal'];

const SHORT_MM = 1;          // what the sound hole is left short, as the words say
const NARROW_MM = 0.5;
const FLAT_RISES_MM = 2;     // along which the flat's ends come up
const MOST_WIDE = 1.9;       // of the tube's outer radius, what an opening can be drawn wide
const MOST_FLAT = 0.4;       // of the wall, where nobody has said what is left of it

/** The tube's sizes, those that nobody has said as they are usual.
 * @param {Doc} doc @param {VoiceAnswer | null} voice */
export function tubeOf(doc, voice) {
  const size = sizesOf(doc, voice);
  const hole = doc.sound_hole;
  const bore = doc.tube.bore[0].diameter_mm;
  const wall = doc.tube.wall_mm ?? ((doc.tube.outer_mm ?? bore) - bore) / 2;
  const inner = bore / 2;
  const outer = inner + wall;
  const width = Math.min(hole.width_mm, outer * MOST_WIDE);
  // A block needs a flat as wide as the sound hole; that much comes off a round tube whether or not it was measured.
  const flatDepth = Math.min(outer - Math.sqrt(Math.max(0, outer ** 2 - (width / 2) ** 2)), wall * MOST_FLAT);
  const left = hole.wall_mm !== undefined && hole.wall_mm < wall ? hole.wall_mm : wall - flatDepth;
  const top = inner + left;
  const depth = Math.min(size('track.depth_mm').mm, left * 0.9);
  const track = size('track.length_mm').mm;
  const air = size('chamber.air_hole_mm').mm;
  const ramp = Math.max(0, size('sound_hole.ramp_mm').mm);
  const stands = doc.block !== 'none';
  const length = hole.length_mm;
  return {
    bore, inner, outer, top, depth, track, air, ramp, length, width,
    edgeUp: ramp > 0 ? Math.min(inner + size('sound_hole.edge_mm').mm, top) : top,
    short: Math.min(SHORT_MM, length * 0.4), narrow: Math.min(NARROW_MM, width * 0.2),
    trackWidth: Math.min(size('track.width_mm').mm || width, outer * MOST_WIDE),
    airFrom: -track - air, airTo: -track,
    slope: Math.min(track * 0.3, left * 0.8),
    behind: -track - air - BLOCK_BEHIND_MM,
    back: length + Math.max(ramp, 1) + FLAT_RISES_MM,
    flatHalf: Math.sqrt(Math.max(0, outer ** 2 - top ** 2)),
    face: -(doc.plug?.offset_mm ?? 0), plug: size('plug.thickness_mm').mm,
    block: stands ? Math.max(size('block.height_mm').mm, 1) : 0,
    front: -size('block.front_mm').mm,
  };
}

/** How high the wall's outside stands after so many steps. @param {Tube} t @param {number} steps @param {number} at */
export function surface(t, steps, at) {
  if (steps < 2) return t.outer;
  const rise = Math.max(t.behind - at, at - (t.back - FLAT_RISES_MM), 0) / FLAT_RISES_MM;
  let up = t.top + (t.outer - t.top) * Math.min(rise, 1);
  if (at >= t.airTo && at <= 0) {
    if (steps >= 3) up = Math.min(up, t.top - t.slope + at - t.airTo);
    if (steps >= 5) up = Math.min(up, t.top - trackDepth(t, steps));
  }
  if (steps >= 6 && at >= t.length && at < t.length + t.ramp) {
    up = Math.min(up, t.edgeUp + (t.top - t.edgeUp) * (at - t.length) / t.ramp);
  }
  return up;
}

/** Half at first. @param {Tube} t @param {number} steps */
export const trackDepth = (t, steps) => (steps < 5 ? 0 : steps < 7 ? t.depth / 2 : t.depth);

/** Where the sound hole ends after so many steps. @param {Tube} t @param {number} steps */
export const holeEnds = (t, steps) => (steps < 4 ? 0 : steps < 6 ? t.length - t.short : t.length);

/** Where the surface may bend. @param {Tube} t */
const bends = (t) => [t.behind - FLAT_RISES_MM, t.behind, t.airTo, ...[0, t.depth / 2, t.depth].map((d) =>
  t.airTo + Math.max(0, t.slope - d)), 0, t.length, t.length + t.ramp, t.back - FLAT_RISES_MM, t.back];

/** The surface from `a` to `b`. @param {Tube} t @param {number} steps @param {number} a @param {number} b
 * @returns {Point[]} */
export function outside(t, steps, a, b) {
  const places = [a, ...bends(t).filter((at) => at > a && at < b).sort((one, two) => one - two), b];
  return places.map((at) => [at, surface(t, steps, at)]);
}

/** What is left of the tube's walls, the upper one in pieces. @param {Tube} t @param {number} steps
 * @param {number} from @param {number} to @returns {Shape[]} */
export function walls(t, steps, from, to) {
  const gaps = [...(steps >= 3 ? [[t.airFrom, t.airTo]] : []), ...(steps >= 4 ? [[0, holeEnds(t, steps)]] : [])];
  const starts = [from, ...gaps.map(([, end]) => end)];
  const ends = [...gaps.map(([begin]) => begin), to];
  return [{ what: 'wall', points: box(from, to, -t.outer, -t.inner) }, ...starts.flatMap((a, i) => (a < ends[i] ? [{
    what: 'wall', points: /** @type {Point[]} */ ([[a, t.inner], ...outside(t, steps, a, ends[i]), [ends[i], t.inner]]) }] : []))];
}

/** What this step takes off, along the tube. @param {Tube} t @param {number} step @returns {Point[][]} */
export function cutsOf(t, step) {
  /** @param {number} a @param {number} b @returns {Point[]} */
  const through = (a, b) => [[a, t.inner], ...outside(t, step - 1, a, b), [b, t.inner]];
  /** @param {number} a @param {number} b @returns {Point[]} */
  const off = (a, b) => [...outside(t, step - 1, a, b), ...outside(t, step, a, b).reverse()];
  switch (STEP_KEYS[step - 1]) {
    case 'flat': return [off(t.behind - FLAT_RISES_MM, t.back)];
    case 'air hole': return [[...through(t.airFrom, t.airTo).slice(0, -1), [t.airTo + t.slope, t.top],
      [t.airTo, t.top - t.slope], [t.airTo, t.inner]]];
    case 'sound hole': return [through(0, holeEnds(t, step))];
    case 'track': case 'depth': return [off(t.airTo, 0)];
    case 'ramp': return [[...outside(t, step - 1, holeEnds(t, step - 1), t.length + t.ramp),
      ...(t.ramp > 0 ? /** @type {Point[]} */ ([[t.length, t.edgeUp]]) : []), [t.length, t.inner],
      [holeEnds(t, step - 1), t.inner]]];
    default: return [];
  }
}

/** @param {number} a @param {number} b @param {number} low @param {number} high @returns {Point[]} */
export const box = (a, b, low, high) => [[a, low], [b, low], [b, high], [a, high]];

// web/widgets/section.js: the voice cut open along the tube: where each part lies. Reckons, draws nothing.
//
// Places are in mm: `at` along the tube from the sound hole's upstream edge towards the foot, `up` from the
// tube's middle towards the side of the sound hole.

/// <reference path="../voice/types.d.ts" />
import { valueAt } from '../state/path.js';

/** A size, and whether it was entered; else it is proposed, or taken for what nobody has said. `drawn`:
 * for the picture alone, no figure that anybody may read.
 * @typedef {{mm: number, entered: boolean, drawn?: boolean}} Size */
/** @typedef {{what: string, points: [number, number][], dashed: boolean}} Body */
/** A term, at the point that it names. @typedef {{what: string, path: string, at: number, up: number, mm: number | null,
 *   dashed: boolean}} Term */
/** @typedef {{from: number, to: number, low: number, high: number, bodies: Body[], terms: Term[],
 *   broken: boolean}} Section  `broken`: the chamber goes on towards the mouth */

// For the picture alone, where neither the maker nor the core says a size: shares of the bore, or mm.
/** @type {Record<string, number>} */
const USUAL = { 'chamber.length_mm': 3, 'chamber.air_hole_mm': 0.4, 'track.length_mm': 1.2,
  'track.depth_mm': 0.05,
  'block.height_mm': 0.3, 'plug.thickness_mm': 0.5 };
export const BLOCK_BEHIND_MM = 5;   // how far a block reaches beyond the air hole
const CHAMBER_SHOWN_MM = 12;
const BELOW_SHOWN_MM = 9;
const STEP_MM = 2;           // along which a wall that was thinned comes back to its own

/** @param {Doc} doc @param {VoiceAnswer | null} voice @returns {(path: string) => Size} */
export function sizesOf(doc, voice) {
  return (path) => {
    const own = valueAt(doc, path);
    if (typeof own === 'number') return { mm: own, entered: true };
    const proposed = voice?.proposed.find((one) => one.path === path);
    if (proposed !== undefined) return { mm: proposed.mm, entered: false };
    const part = voice?.as_cut.parts.find((one) => one.path === path);
    if (typeof part?.mm === 'number') return { mm: part.mm, entered: part.known !== 'taken' };
    return { mm: (USUAL[path] ?? 0) * doc.tube.bore[0].diameter_mm, entered: false,
      drawn: true };
  };
}

/** @param {Doc} doc one that has an answer @param {VoiceAnswer | null} voice @returns {Section} */
export function sectionOf(doc, voice) {
  const size = sizesOf(doc, voice);
  const { tube, sound_hole: hole } = doc;
  const bore = tube.bore[0].diameter_mm;
  const wall = tube.wall_mm ?? ((tube.outer_mm ?? bore) - bore) / 2;
  const inner = bore / 2;
  const outer = inner + wall;
  const thinned = Math.min(hole.wall_mm ?? wall, wall);
  const top = inner + thinned;
  const stands = doc.block !== 'none';

  const track = size('track.length_mm');
  const depth = size('track.depth_mm');
  const seat = Math.max(inner + 0.1, top - depth.mm);  // the track's floor
  const under = size('track.block_gap_mm');
  const gap = stands ? under.mm : 0;
  const airHole = size('chamber.air_hole_mm');
  const airTo = -track.mm;
  const airFrom = airTo - airHole.mm;
  const behind = airFrom - BLOCK_BEHIND_MM;
  const face = -(doc.plug?.offset_mm ?? 0);
  const plug = size('plug.thickness_mm');
  const chamber = size('chamber.length_mm');
  const length = hole.length_mm;
  const ramp = size('sound_hole.ramp_mm');
  const edge = size('sound_hole.edge_mm');
  const edgeUp = ramp.mm > 0 ? Math.min(inner + edge.mm, top) : top;
  const block = size('block.height_mm');
  const front = -(size('block.front_mm').mm);
  const walls = size('block.side_walls.height_mm');
  const wallsFrom = Math.max(0, front);
  const wallsLong = valueAt(doc, 'block.side_walls.length_mm') ?? length;
  const blockThere = stands && block.mm > 0;
  const crown = top + Math.max(block.mm, gap + 0.5);
  const wallsThere = stands && walls.mm > 0;

  const begins = face - plug.mm - chamber.mm;
  const above = tube.above_mm === undefined ? begins - 4 : Math.min(-tube.above_mm, begins);
  const highest = Math.min(behind - STEP_MM, face - plug.mm);
  const from = Math.min(Math.max(above, highest - CHAMBER_SHOWN_MM), highest);
  const back = length + Math.max(ramp.mm, 1) + STEP_MM;  // the wall has its own thickness again
  const to = Math.max(back, front, wallsFrom + wallsLong) + BELOW_SHOWN_MM;

  /** @type {Body[]} */
  const bodies = [];
  /** @param {string} what @param {[number, number][]} points @param {boolean} [dashed] */
  const put = (what, points, dashed = false) => bodies.push({ what, points, dashed });
  /** @param {number} a @param {number} b @param {number} low @param {number} high @returns {[number, number][]} */
  const box = (a, b, low, high) => [[a, low], [b, low], [b, high], [a, high]];

  put('wall', box(from, to, -outer, -inner));
  put('wall', [[from, inner], [airFrom, inner], [airFrom, top], [behind, top],
    [behind - (outer > top ? STEP_MM : 0), outer], [from, outer]]);
  put('wall', box(airTo, 0, inner, seat));
  put('wall', [[length, inner], [to, inner], [to, outer], [back, outer], [back - STEP_MM, top],
    [length + ramp.mm, top], [length, edgeUp]]);
  put('plug', box(face - plug.mm, face, -inner, inner), !plug.entered);
  if (from < begins) put('mouth', box(from, begins, -inner, inner));  // what is left of the tube there
  if (wallsThere) {
    put('side walls', box(wallsFrom, wallsFrom + wallsLong, top, top + walls.mm), !walls.entered);
  }
  if (blockThere) put('block', box(behind, front, top + gap, crown), !block.entered || (gap > 0 && !under.entered));

  const plugMiddle = face - plug.mm / 2;
  /** @type {Term[]} */
  const terms = [
    { what: 'chamber', path: 'chamber.length_mm', at: (Math.max(from, begins) + face - plug.mm) / 2, up: 0,
      mm: told(chamber), dashed: !chamber.entered },
    { what: 'air hole', path: 'chamber.air_hole_mm', at: (airFrom + airTo) / 2, up: inner + thinned / 2,
      mm: told(airHole), dashed: !airHole.entered },
    { what: 'plug', path: 'plug.thickness_mm', at: plugMiddle, up: 0, mm: told(plug), dashed: !plug.entered },
    { what: 'track', path: 'track.depth_mm', at: airTo * 0.45, up: (seat + top + gap) / 2, mm: told(depth),
      dashed: !depth.entered },
    ...(blockThere ? [{ what: 'block', path: 'block.height_mm', at: behind + (front - behind) * 0.3,
      up: top + block.mm * 0.6, mm: told(block),
      dashed: !block.entered }] : []),
    ...(wallsThere ? [{ what: 'side walls', path: 'block.side_walls.height_mm', at: wallsFrom + wallsLong * 0.4,
      up: top + walls.mm * 0.6,
      mm: walls.mm, dashed: !walls.entered }] : []),
    { what: 'sound hole', path: 'sound_hole.length_mm', at: length * 0.55, up: inner + thinned * 0.4,
      mm: length, dashed: false },
    { what: 'splitting edge', path: 'sound_hole.edge_mm', at: length, up: edgeUp,
      mm: ramp.mm > 0 ? edge.mm : null, dashed: ramp.mm > 0 && !edge.entered },
    ...(ramp.mm > 0 ? [{ what: 'ramp', path: 'sound_hole.ramp_mm', at: length + ramp.mm * 0.6,
      up: edgeUp + (top - edgeUp) * 0.6, mm: ramp.mm,
      dashed: !ramp.entered }] : []),
  ];
  return { from, to, low: -outer, high: Math.max(outer, blockThere ? crown : 0,
    wallsThere ? top + walls.mm : 0),
    bodies, terms: terms.sort((a, b) => a.at - b.at), broken: begins < from };
}

/** @param {Size} size */
const told = ({ mm, drawn }) => (drawn ? null : mm);

/** Heights of labels, in the order of what they name, none nearer to the next than `least`, all between 0
 * and `height` where they fit. @param {number[]} wanted @param {number} least @param {number} height */
export function spaced(wanted, least, height) {
  const put = wanted.map((y) => Math.max(y, least / 2));
  for (let i = 1; i < put.length; i += 1) put[i] = Math.max(put[i], put[i - 1] + least);
  let limit = height - least / 2;
  for (let i = put.length - 1; i >= 0 && put[i] > limit; i -= 1, limit -= least) put[i] = limit;
  const over = least / 2 - (put[0] ?? least);
  return over > 0 ? put.map((y) => y + over) : put;
}

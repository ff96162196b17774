// web/state/above.js: what lies above the sound hole, as entered or as the core proposes it for this
// very tube: where each part's mark is. What is neither entered nor proposed has none.

/// <reference path="../voice/types.d.ts" />
import { valueAt, withValue } from './path.js';

/**
 * Keys of the document that say what is above the sound hole.
 * @typedef {Answer & {track?: {length_mm?: number, width_mm?: number, depth_mm?: number},
 *   chamber?: {length_mm?: number, air_hole_mm?: number}}} Flute
 *
 * @typedef {'mouth' | 'chamber' | 'plug top' | 'plug' | 'air hole' | 'flat' | 'block' | 'track'
 *   | 'upstream edge' | 'centre' | 'splitting edge' | 'ramp'} Above
 * @typedef {{what: Above, at_mm: number, of: string[]}} AboveMark `of`: the sizes it follows from
 */

/** A proposal as it is written into the document: no ruler shows more. @param {number} mm */
export const rounded = (mm) => Math.round(mm * 100) / 100;

/** The answer with what is proposed where nothing is entered.
 * @param {Answer} answer @param {Proposal[]} proposed for this answer
 * @returns {{flute: Flute, proposals: Map<string, Proposal>}} */
export function withProposed(answer, proposed) {
  const open = proposed.filter((one) => valueAt(answer, one.path) === undefined
    && !(answer.block === 'none' && one.path.startsWith('block')));
  const flute = open.reduce((all, one) => withValue(all, one.path, rounded(one.mm)), answer);
  return { flute, proposals: new Map(open.map((one) => [one.path, one])) };
}

/** Sizes that cannot all be so on this tube, each set by the path that is too much.
 * @param {Flute} flute @returns {{path: string, needs_mm: number, has_mm: number}[]} */
export function misfits({ tube, plug, track, chamber }) {
  const above = tube.above_mm ?? Infinity;
  const bore = tube.bore[0].diameter_mm;
  const stop = (plug?.offset_mm ?? 0) + (plug?.thickness_mm ?? 0);
  const found = [
    { path: 'plug.thickness_mm', needs_mm: stop, has_mm: above },
    { path: 'chamber.length_mm', needs_mm: stop + (chamber?.length_mm ?? 0), has_mm: above },
    { path: 'track.length_mm', needs_mm: (track?.length_mm ?? 0) + (chamber?.air_hole_mm ?? 0), has_mm: above },
    { path: 'chamber.air_hole_mm', needs_mm: chamber?.air_hole_mm ?? 0, has_mm: bore },
  ];
  return found.filter(({ needs_mm: needs, has_mm: has }) => needs > has + 0.05);
}

/** What a maker makes there, from the mouth on. */
const PATHS = ['tube.above_mm', 'chamber.length_mm', 'plug.thickness_mm', 'plug.offset_mm',
  'chamber.air_hole_mm', 'track.length_mm', 'track.width_mm', 'track.depth_mm', 'sound_hole.wall_mm',
  'block.height_mm', 'block.width_mm', 'sound_hole.length_mm', 'sound_hole.width_mm', 'sound_hole.edge_mm',
  'sound_hole.ramp_mm'];

/** @typedef {{path: string, mm: number | null, one?: Proposal}} AboveSize `mm`: null where it is neither
 *   entered nor proposed, or does not fit; `one`: the proposal that it is */
/** @param {Flute} flute @param {Map<string, Proposal>} proposals both as withProposed gives them
 * @returns {AboveSize[]} */
export function aboveSizes(flute, proposals) {
  const wrong = misfits(flute).map(({ path }) => path);
  return PATHS.flatMap((path) => /** @type {AboveSize[]} */ (sizeOf(path)));

  /** @param {string} path */
  function sizeOf(path) {
    if (flute.block === 'none' && path.startsWith('block')) return [];
    const mm = valueAt(flute, path);
    if (typeof mm === 'number' && !wrong.includes(path)) return [{ path, mm, one: proposals.get(path) }];
    // A flat that nobody asked for is none; what is not known of the rest is a blank.
    return path === 'sound_hole.wall_mm' ? [] : [{ path, mm: null }];
  }
}

/** The places above the finger holes, those that are known and fit, from the mouth on.
 * @param {Flute} flute @returns {AboveMark[]} */
export function aboveMarks(flute) {
  const { tube, plug, track, chamber, sound_hole: hole, block } = flute;
  const wrong = misfits(flute).map(({ path }) => path);
  /** @param {string} path @param {number | undefined} mm */
  const fits = (path, mm) => (wrong.includes(path) ? undefined : mm);
  const face = -(plug?.offset_mm ?? 0);
  const top = less(face, fits('plug.thickness_mm', plug?.thickness_mm));
  const air = fits('chamber.air_hole_mm', chamber?.air_hole_mm);
  const begins = less(0, fits('track.length_mm', track?.length_mm));
  const chamberTop = less(top, fits('chamber.length_mm', chamber?.length_mm));
  const stands = block !== undefined && block !== 'none' && block.height_mm !== undefined;
  const ramp = hole.ramp_mm;
  /** @type {[Above, number | undefined, string[]][]} */
  const all = [
    ['mouth', less(0, tube.above_mm), ['tube.above_mm']],
    ['chamber', chamberTop, ['chamber.length_mm', 'plug.thickness_mm']],
    ['plug top', top, ['plug.thickness_mm']],
    ['plug', face, ['plug.offset_mm']],
    ['air hole', begins === undefined ? undefined : less(begins, air && air / 2), ['chamber.air_hole_mm',
      'track.length_mm']],
    ['flat', begins === undefined ? undefined : begins - (air ?? 0), ['track.length_mm', 'chamber.air_hole_mm']],
    ['track', begins, ['track.length_mm']],
    ['block', stands ? -(block.front_mm ?? 0) : undefined, ['block.height_mm']],
    ['upstream edge', 0, []], ['centre', hole.length_mm / 2, []], ['splitting edge', hole.length_mm, []],
    ['ramp', ramp === undefined || ramp === 0 ? undefined : hole.length_mm + ramp, ['sound_hole.ramp_mm']],
  ];
  return all.flatMap(([what, at_mm, of]) => (at_mm === undefined ? [] : [{ what, at_mm, of }]));
}

/** @param {number | undefined} from @param {number | undefined} by */
const less = (from, by) => (from === undefined || by === undefined ? undefined : from - by);

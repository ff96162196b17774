// web/paper/strip.js: the marking strip as one long drawing, in mm: x across from the centre line,
// y along from the sound hole's upstream edge towards the foot. Sheets are cut from it by tiles.js.

import { circle, frameOf, hatch, line, text } from './sheet.js';
import { flatHalf, sawFirst } from './cuts.js';
import { endNow, outerOf } from './facts.js';
import { aboveMarks } from '../state/above.js';
import { labelsOf, placed } from './labels.js';
import { BLOCK_BEHIND_MM } from '../widgets/section.js';
import { CENTRE_LINE, CUT_LEFT, SEAM } from './words.js';

/** @typedef {import('./sheet.js').Part} Part */
/** @typedef {import('./facts.js').Facts} Facts */
/** @typedef {import('./facts.js').Flute} Flute */

export const FLAP_MM = 8;       // glued or taped over the other edge
const AIR_MM = 2;               // between a hole's edge and words
const ROOM_MM = 24;             // words beside the holes need this much inside the strip
const COLUMN_MM = 42;  // else they stand outside it, in a column so wide
const UNKNOWN_TOP_MM = 45;      // shown above the track where the tube's end there is not known
const OFF_MM = 6;               // of each side, hatched where it is sawn off
const WORDS_MM = 26;            // the longest beside the holes and the sound hole
const BELOW_MM = 8;             // shown below the last saw cut

/**
 * What the strip marks, and where. `at_mm` is exactly the answer's figure.
 * @typedef {object} Mark
 * @property {import('../state/above.js').Above | 'hole' | 'foot' | 'saw' | 'end'} what
 * @property {number} at_mm
 * @property {string[]} [of] sizes that it follows from
 * @property {number} [number] of the finger hole
 *
 * @typedef {object} Strip
 * @property {number} x0 @property {number} x1 @property {number} y0 @property {number} y1 what is drawn
 * @property {number} end where the paper ends that is cut out, with its flap; words may stand beyond it
 * @property {number} words to both sides of the centre line nothing is cut [mm]
 * @property {number} half half the circumference [mm]
 * @property {Mark[]} marks
 * @property {Part[]} parts
 */

/** The places along the tube, those that are known. @param {Flute} flute @param {NextStep | null} [next] of the
 * Bench @returns {Mark[]} */
export function marksOf(flute, next = null) {
  const saw = sawFirst(flute, next);
  const end = endNow(flute);
  /** @type {[Mark['what'], number | undefined][]} */
  const all = [['foot', flute.foot_mm],
    ['saw', saw === 0 || flute.foot_mm + saw > end - 0.05 ? undefined : flute.foot_mm + saw],
    ['end', end - flute.foot_mm < 0.05 ? undefined : end],
  ];
  return [...aboveMarks(flute), ...all.flatMap(([what, at_mm]) => (at_mm === undefined ? [] : [{ what, at_mm }])),
    ...flute.finger_holes.map((hole, i) => ({ what: /** @type {const} */ ('hole'), at_mm: hole.at_mm,
      number: i + 1 }))];
}

/**
 * @param {Facts} facts
 * @param {'wrap' | 'edge'} way round the tube; or with its left edge along the tube's centre line
 * @returns {Strip}
 */
export function strip(facts, way) {
  const { flute } = facts;
  const half = outerOf(flute) * Math.PI / 2;
  const marks = marksOf(flute, facts.next);
  const at = (/** @type {Mark['what']} */ what) => marks.find((mark) => mark.what === what)?.at_mm;
  const widest = Math.max(flute.sound_hole.width_mm, flute.tube.bore[0].diameter_mm,
    flute.chamber?.air_hole_mm ?? 0, 2 * flatHalf(flute),
    ...flute.finger_holes.map((h) => h.diameter_mm));
  const beside = widest / 2 + AIR_MM;
  const inside = way === 'wrap' && half - beside >= ROOM_MM;
  const y0 = at('mouth') ?? Math.min(at('plug top') ?? 0, at('flat') ?? 0) - UNKNOWN_TOP_MM;
  const y1 = Math.min(endNow(flute), (at('saw') ?? flute.foot_mm) + BELOW_MM);
  const span = way === 'edge' ? { from: 0, to: beside + COLUMN_MM } : { from: -half, to: half };
  const column = inside || way === 'edge' ? beside : half + FLAP_MM + AIR_MM;
  const shape = { ...span, y0, y1, beside, way, at, inside };
  return {
    x0: span.from, half, y0, y1, marks, end: way === 'edge' ? span.to : half + FLAP_MM,
    words: beside + WORDS_MM,
    x1: way === 'edge' ? span.to : inside ? half + FLAP_MM : column + COLUMN_MM,
    parts: [
      ...outline(shape), ...voice(flute, shape), ...holes(flute, shape), ...foot(flute, shape),
      ...placed(labelsOf(facts, marks, inside).filter(({ at }) => at >= y0),
        { column, left: -beside, y0, y1, room: half - beside - AIR_MM / 2 }),
    ],
  };
}

/** @typedef {{from: number, to: number, y0: number, y1: number, beside: number, inside: boolean,
 *   way: 'wrap' | 'edge', at: (what: Mark['what']) => number | undefined}} Shape */

/** Edges to cut along, the centre line, the flap. @param {Shape} shape @returns {Part[]} */
function outline({ from, to, y0, y1, way, at }) {
  const foot = at('foot') ?? y1;
  const open = at('mouth') === undefined;  // the tube goes on, nobody said how far
  const edges = [line(from, y0, from, y1, 'line'),
    line(to, y0, to, y1, way === 'edge' ? 'fine' : 'line'),
    line(from, y0, to, y0, open ? 'dash' : 'line'),
    line(from, y1, to, y1, at('end') === y1 || at('end') === undefined ? 'line' : 'dash')];
  const words = { turned: true };
  if (way === 'edge') {
    return [...edges, text(CUT_LEFT, to - 2, y0 + 62, 2.1, words)];
  }
  return [
    ...edges, line(0, y0, 0, y1, 'chain'),
    line(to + FLAP_MM, y0, to + FLAP_MM, y1, 'fine'), line(to, y0, to + FLAP_MM, y0, 'fine'),
    line(to, y1, to + FLAP_MM, y1, 'fine'),
    ...hatch(to, y0, to + FLAP_MM, y1, 6),
    text(SEAM, from + 3, foot - 6, 2.1, words),
    text(CENTRE_LINE, 2.6, y0 + 18, 2.1, words),
  ];
}

/** Chamber, plug, air hole, flat, track, sound hole. What lies inside is dashed.
 * @param {Flute} flute @param {Shape} shape @returns {Part[]} */
function voice(flute, { at, from }) {
  const { sound_hole: hole, track, chamber } = flute;
  const [left, right] = from === 0 ? [0, 1] : [-1, 1];
  const bore = flute.tube.bore[0].diameter_mm / 2;
  const wide = hole.width_mm / 2;
  /** @type {Part[]} */
  const parts = [];
  for (const what of /** @type {const} */ (['chamber', 'plug top', 'plug'])) {
    const y = at(what);
    if (y !== undefined) parts.push(line(left * bore, y, right * bore, y, 'dash'));
  }
  const [face, top] = [at('plug') ?? 0, at('plug top')];
  if (top !== undefined) {
    parts.push(...[left * bore, right * bore].map((x) => line(x, top, x, face, 'dash')));
  }
  const [begins, flat, aired] = [at('track'), at('flat'), at('air hole')];
  const side = (track?.width_mm ?? hole.width_mm) / 2;
  if (begins !== undefined) {
    parts.push(...[left * side, right * side].map((x) => line(x, begins, x, 0, 'fine')),
      line(left * side, begins, right * side, begins, 'fine'));
  }
  if (aired !== undefined && chamber?.air_hole_mm !== undefined) {
    parts.push(circle(0, aired, chamber.air_hole_mm / 2), line(left * side, aired, right * side, aired,
      'hair'));
  }
  const block = typeof flute.block === 'object' ? flute.block : undefined;
  const front = at('block');
  if (block?.width_mm !== undefined && front !== undefined && flat !== undefined) {
    // As it lies on the flat: a block as wide as the tube covers half of it.
    const half = Math.min(block.width_mm / 2, outerOf(flute) * Math.PI / 4);
    const back = flat - BLOCK_BEHIND_MM;
    parts.push(...[left * half, right * half].map((x) => line(x, back, x, front, 'dash')),
      line(left * half, back, right * half, back, 'dash'), line(left * half, front, right * half, front, 'dash'));
  }
  const ramp = at('ramp');
  if (ramp !== undefined) {
    parts.push(...[left * wide, right * wide].map((x) => line(x, hole.length_mm, x, ramp, 'hair')),
      line(left * wide, ramp, right * wide, ramp, 'dash'));
  }
  const flats = flatHalf(flute);
  if (flat !== undefined && flats > 0) {
    parts.push(...[left * flats, right * flats].map((x) => line(x, flat, x, 0, 'dash')),
      line(left * flats, flat, right * flats, flat, 'dash'));
  }
  // The sound hole as a rule laid on the flat paper measures it. Traced round the tube it comes out a
  // little narrower than a calliper would have it (9 mm on a tube of 24: by 0.2), which can still be
  // cut; drawn wider it could not be put back.
  const y = hole.length_mm / 2;
  return [...parts, ...frameOf(left * wide, 0, right * wide, hole.length_mm, 'line'),
    line(left * (wide + 2), y, right * (wide + 2), y, 'hair')];
}

/** True to size, each with a line across the whole strip through its centre.
 * @param {Flute} flute @param {Shape} shape @returns {Part[]} */
function holes(flute, { from, to, beside, way }) {
  return flute.finger_holes.flatMap((hole) => {
    const r = hole.diameter_mm / 2;
    const inner = hole.inner_diameter_mm ?? hole.diameter_mm;
    return [
      circle(0, hole.at_mm, r),
      ...(inner > hole.diameter_mm + 0.05 ? [circle(0, hole.at_mm, inner / 2, 'dash')] : []),
      line(from, hole.at_mm, way === 'edge' ? beside + 3 : to, hole.at_mm, 'hair'),
      line(0, hole.at_mm - r - 2, 0, hole.at_mm + r + 2, 'hair'),
    ];
  });
}

/** The foot and what is sawn off. @param {Flute} flute @param {Shape} shape @returns {Part[]} */
function foot(flute, { from, to, y1, at }) {
  const saw = at('saw');
  const mm = flute.foot_mm;
  const end = Math.min(saw ?? y1, y1);
  return [
    line(from, mm, to, mm, 'bold'),
    ...(saw === undefined ? [] : [line(from, saw, to, saw, 'line')]),
    // Where no words stand.
    ...(y1 - mm < 0.5 ? [] : [...(from === 0 ? [] : hatch(from, mm, from + OFF_MM, end, 3)),
      ...hatch(to - OFF_MM, mm, to, end, 3)]),
  ];
}

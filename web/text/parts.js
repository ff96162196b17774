// web/text/parts.js: the parts above the sound hole: their names, how they are measured, and what is
// proposed for them by which rule. Loaded with whatever room speaks of them.

/// <reference path="../voice/types.d.ts" />
import { unitOf } from '../state/desk.js';
import { fine, lengthWords } from './numbers.js';

export const RAMP_MM = { label: 'Its length', full: 'Length of the ramp', note: 'along the tube, from the edge '
  + 'to the outside' };
export const EDGE = { label: 'Splitting edge', full: 'Height of the splitting edge', note: 'above the bore; '
  + 'empty: not known' };
export const BLOCK_HEIGHT = { label: 'Its height', full: 'Height of the block', note: 'above the tube; empty: '
  + 'not known' };
export const BLOCK_WIDTH = { label: 'Its width', full: 'Width of the block', note: 'across; empty: not known' };
export const BLOCK_FRONT = { label: 'Its front', full: 'Front of the block',
  note: 'behind the sound hole; flush is 0, over the hole with a minus' };
export const WALLS_MM = { label: 'Their height', full: 'Height of the side walls', note: 'above the tube' };
export const WALLS_THICKNESS = { label: 'Their thickness', full: 'Thickness of the side walls',
  note: 'across' };
export const WALLS_LENGTH = { label: 'Their length', full: 'Length of the side walls',
  note: 'along the tube; empty: as the sound hole' };

export const ABOVE_LINES = [
  { path: 'track.depth_mm', label: 'Track, depth', full: 'Depth of the track', note: 'sheets of paper, or a '
    + 'feeler gauge' },
  { path: 'track.width_mm', label: 'Track, width', full: 'Width of the track', note: 'where it meets the sound '
    + 'hole' },
  { path: 'track.length_mm', label: 'Track, length', full: 'Length of the track', note: 'air hole to sound '
    + 'hole' },
  { path: 'track.block_gap_mm', label: 'Gap under the block', full: 'Gap under the block',
    note: 'its seat above the track’s brim; none: 0' },
  { path: 'plug.thickness_mm', label: 'Plug, thickness', full: 'Thickness of the plug', note: 'a marked dowel, '
    + 'from the foot' },
  { path: 'chamber.air_hole_mm', label: 'Air hole', full: 'Diameter of the air hole', note: 'from the chamber '
    + 'into the track' },
  { path: 'chamber.length_mm', label: 'Chamber, length', full: 'Length of the chamber', note: 'mouth end to '
    + 'plug' },
];

/** Sizes of which a tenth of a millimetre is a lot. @param {string} path */
export const isThin = (path) => /depth_mm|gap_mm|edge_mm/.test(path);
/** @param {string} path @param {number} mm @param {State} s @param {Engine} engine */
export const sizeWords = (path, mm, s, engine) => (isThin(path)
  ? `${fine(Math.round(mm * 100) / 100, s)} ${unitOf(s) === 'inch' ? 'in' : 'mm'}` : lengthWords(mm, s,
    engine));

/** @param {string} path */
export function partName(path) {
  const line = ABOVE_LINES.find((one) => one.path === path);
  return line?.full ?? NAMES[path] ?? path.replace(/_mm$/, '').replaceAll(/[._]/g, ' ');
}
/** @type {Record<string, string>} */
const NAMES = { 'sound_hole.length_mm': 'Length of the sound hole', 'sound_hole.width_mm': 'Width of the sound '
  + 'hole',
  'sound_hole.wall_mm': 'Wall at the sound hole', 'sound_hole.ramp_mm': RAMP_MM.full,
    'sound_hole.edge_mm': EDGE.full,
  'block.height_mm': BLOCK_HEIGHT.full, 'block.width_mm': BLOCK_WIDTH.full, 'block.front_mm': BLOCK_FRONT.full,
  'block.side_walls.height_mm': WALLS_MM.full, 'block.side_walls.thickness_mm': WALLS_THICKNESS.full,
  'block.side_walls.length_mm': 'Length of the side walls',
  'tube.bore[0].diameter_mm': 'Bore', 'tube.bore': 'Bore', 'tube.wall_mm': 'Wall', 'plug.offset_mm': 'Plug’s '
    + 'face',
  'tube.above_mm': 'Tube above the line', track: 'Track', chamber: 'Chamber' };
/** What a maker does not know, in one word or two. @param {string} path */
export function groupName(path) {
  if (path.startsWith('block.side_walls')) return 'The side walls';
  if (path.startsWith('block')) return 'The block';
  return path.startsWith('sound_hole.ramp') ? 'The ramp' : path.startsWith('sound_hole.edge') ? 'The splitting '
    + 'edge'
    : partName(path);
}

/** The rule in words, by the core's name for it. @type {Record<string, string>} */
export const RULES = {
  as_wide_as_sound_hole: 'as wide as the sound hole',
  flush_with_sound_hole: 'flush with the sound hole',
  above_less_plug_and_mouth: 'what lies above the sound hole, less the plug and a bore for the mouth end',
  half_the_bore: 'half the bore',
  as_wide_as_the_track: 'as wide as the track',
  what_is_above: 'no more than there is above the sound hole',
  twice_the_sound_hole: 'twice the sound hole’s length',
  at_most_a_bore: 'no more than a bore',
  share_of_the_wall: 'low in the wall, in the track’s line',
  sound_hole_and_a_bit: 'a little more than the sound hole’s length',
  as_wide_as_the_tube: 'as wide as the tube',
  depth_by_bore: 'as makers cut it for such a bore',
  as_high_as_a_thin_track: 'where the track is as thin as paper, as high again: most of the air goes there',
  half_the_wall: 'half the wall, to leave it a floor',
  at_least_4_mm: 'thinner ones leak',
  over_the_plug: 'over the plug, so that the air hole opens above it',
  as_long_as_sound_hole_is_wide: 'as long as the sound hole is wide',
  at_least_8_mm: 'shorter ones do not lead the air',
};
/** @param {Proposal} one @param {boolean} taken @param {State} s @param {Engine} engine */
export function proposalWords(one, taken, s, engine) {
  const from = one.of.flatMap(({ path, mm }) => (mm === null ? [] : [`${lower(partName(path))} ${
    sizeWords(path, mm, s, engine)}`]));
  return `${taken ? 'As proposed' : `Proposed ${sizeWords(one.path, one.mm, s, engine)}`}: ${ruleOf(one)}${
    from.length === 0 ? '' : ` (${from.join(', ')})`}.`;
}

/** @param {Proposal} one */
export const ruleOf = ({ rule }) => (Object.hasOwn(RULES, rule) ? RULES[rule] : rule.replaceAll('_', ' '));

export const HOW_TO_MEASURE_THESE = 'How to measure these';
/** @type {[string, string][]} */
export const MEASURING = [
  ['Depth of the track', 'Lay a straight edge across it and slip under it sheets of paper until the last one '
    + 'drags; ten sheets of office paper are near 1 mm: measure a stack of yours. Or a feeler gauge.'],
  ['Width and length of the track', 'A ruler on the open track, before the block is tied.'],
  ['Plug', 'Push a dowel up from the foot until it meets the plug’s face and mark it where the tube ends; then '
    + 'a thinner one from the mouth. The tube’s length less both is the plug’s thickness.'],
  ['Air hole', 'The thickest drill shank that goes in; of an oblong hole the length and the width, multiplied, '
    + 'and the root of that times 1.13.'],
  ['Splitting edge', 'Look through the sound hole from the block’s side: a slip of card held upright on the '
    + 'bore’s roof, marked at the edge.'],
];

/** The marks of these parts. @type {Record<string, string>} */
export const ABOVE_MARKS = { mouth: 'Mouth end', chamber: 'Chamber, upper end (inside)',
  'plug top': 'Plug or node, upper face (inside)', plug: 'Plug or node, lower face (inside)',
  'air hole': 'Air hole, centre', flat: 'Flat begins', block: 'Block, front', track: 'Track begins',
  'upstream edge': 'Sound hole, upstream edge', centre: 'Sound hole, centre',
  'splitting edge': 'Splitting edge', ramp: 'Ramp ends' };
export const ENTERED = 'entered';
export const NOT_KNOWN = 'neither entered nor proposed';
/** Where a size comes from. @param {import('../state/above.js').AboveSize} of
 * @param {(path: string, mm: number) => string} write a size in words */
export function whereFrom({ mm, one }, write) {
  if (mm === null) return NOT_KNOWN;
  if (one === undefined) return ENTERED;
  const from = one.of.flatMap(({ path, mm: its }) => (its === null ? [] : [`${lower(partName(path))} ${
    write(path, its)}`])).join(', ');
  return `proposed: ${ruleOf(one)}${from === '' ? '' : ` (${from})`}`;
}
/** Sizes that cannot all be so. @param {string} path @param {string} needs @param {string} has */
export const doesNotFit = (path, needs, has) => `${partName(path)} does not fit: it needs ${needs}, there is ${
  has}. So it is not marked.`;

// The section.
export const DASHED = 'Drawn to scale. Dashed, and in thin figures: proposed, or taken because nobody has '
  + 'said.';
/** @type {Record<string, string>} */
export const TERMS = { chamber: 'chamber', 'air hole': 'air hole', plug: 'plug', track: 'track', block: 'block',
  'side walls': 'side walls', 'sound hole': 'sound hole', 'splitting edge': 'splitting edge', ramp: 'ramp' };
/** @param {string[]} names */
export const listed = (names) => (names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} `
  + `and ${names[names.length - 1]}`);
/** @param {string} text */
export const lower = (text) => text.charAt(0).toLowerCase() + text.slice(1);

// A tube without a node has no plug: made, seated, sealed and tested. Common practice, no source.
export const A_MADE_PLUG = 'A made plug';
export const NO_NODE = 'A dowel drilled through and a pipe have no node: make one.';
/** @type {[string, string][]} */
export const MADE_PLUG = [
  ['Make it', 'Of dry hardwood or dense cork, a push fit in the bore, both faces square. Too loose: one turn '
    + 'of thread or thin card round it. Mark its lower face’s depth on a dowel.'],
  ['Seat it', 'Push it in from the mouth end with the marked dowel until its lower face stands at its mark. A '
    + 'slip of card through the sound hole’s place tells whether it is flush.'],
  ['Seal it', 'Run a little wood glue or warm beeswax round both rims; in plastic pipe a glue meant for that '
    + 'plastic and wood. Let it dry before you test.'],
  ['Test it', 'Before the air hole is cut, close the mouth end with the lips and blow gently: nothing may come '
    + 'out at the foot. Or fill the chamber with water: none may come through in a minute.'],
];

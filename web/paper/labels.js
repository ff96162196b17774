// web/paper/labels.js: the words beside the marks of the strip, moved apart where marks are close.

import { pack } from '../widgets/pack.js';
import { flatHalf, sawFirst } from './cuts.js';
import { caps, line, text, widthOf } from './sheet.js';
import { AIR_HOLE, AIR_HOLE_WIDTH, AS_IT_IS, BEGINS_AT, BLANK_MM, BLOCK, CHAMBER, CHAMBER_LENGTH, CHAMBER_TOP,
  COME_BACK, FLAT, FOOT, MOUTH_END, NODE, PLUG, SAW_FIRST, SOUND_HOLE, RAMP_ENDS, SOUND_HOLE_CENTRE, SPLITTING_EDGE,
  TRACK, TRACK_BEGINS, UPSTREAM_EDGE, airHole, asProposed, blockWords, flatWords, holeLine, holeWords, longer, lowerFace,
  soundHoleWords, trackWords, upperFace } from './words.js';

/** @typedef {import('./sheet.js').Part} Part */
/** @typedef {import('./facts.js').Facts} Facts */
/** @typedef {import('./strip.js').Mark} Mark */

/**
 * @typedef {object} Label
 * @property {number} at of its mark [mm]
 * @property {'left' | 'right'} side
 * @property {string} head in small capitals, or a figure where `figure`
 * @property {string} [line] under it
 * @property {boolean} [figure]
 * @property {number} [edge] of what it names: half its width, where the leader begins [mm]
 */

const HIGH_MM = 6.6;

/** @param {Facts} facts @param {Mark[]} marks @param {boolean} both whether there is room on both sides
 * @returns {Label[]} */
export function labelsOf(facts, marks, both) {
  const { flute, both: length, mm, size, one, shift } = facts;
  const from = (/** @type {number} */ at) => length(at + shift);
  /** @type {Label[]} */
  const found = [];
  /** @param {Label['side']} side @param {number} at @param {string} head @param {string} line
   * @param {number} [edge] */
  const say = (side, at, head, line, edge) => found.push({ at, side: both ? side : 'right', head, line,
    edge });
  const known = new Map(marks.map((mark) => [mark.what, mark.at_mm]));
  /** @param {string} head @param {string[]} paths */
  const of = (head, ...paths) => (facts.proposed(paths) ? asProposed(head) : head);
  const { track, chamber, sound_hole: hole, plug } = flute;

  const mouth = known.get('mouth');
  const inner = known.get('chamber');
  const aired = known.get('air hole');
  const flat = known.get('flat');
  const begins = known.get('track');
  const top = known.get('plug top');
  const high = Math.min(top ?? 0, flat ?? 0);
  const stop = /bamboo|cane|reed/i.test(flute.tube.material ?? '') ? NODE : PLUG;
  const bore = flute.tube.bore[0].diameter_mm / 2;
  const wide = hole.width_mm / 2;
  const flats = flatHalf(flute);
  const side = (track?.width_mm ?? hole.width_mm) / 2;
  if (mouth === undefined) say('right', high - 40, MOUTH_END, BLANK_MM);
  else say('right', mouth + 4, MOUTH_END, from(mouth));
  if (inner === undefined) say('right', high - 30, CHAMBER, CHAMBER_LENGTH);
  else say('right', inner, of(CHAMBER_TOP, 'chamber.length_mm', 'plug.thickness_mm'), from(inner), bore);
  if (aired === undefined) {
    const wide = facts.wrong.includes('chamber.air_hole_mm') ? undefined : chamber?.air_hole_mm;
    say('right', (begins ?? -20) - 6, AIR_HOLE, wide === undefined ? AIR_HOLE_WIDTH : `⌀ ${length(wide)}`);
  } else say('right', aired, of(airHole(one(chamber?.air_hole_mm ?? 0)), 'chamber.air_hole_mm',
    'track.length_mm'), from(aired), (chamber?.air_hole_mm ?? 0) / 2);
  // in mm always: a rule of inches is too coarse for walls and depths
  say('left', flat ?? -18, FLAT, flatWords(hole.wall_mm === undefined ? undefined : mm(hole.wall_mm),
    flats > 0 ? size(2 * flats) : undefined), flats > 0 ? flats : undefined);
  if (top !== undefined) {
    say('left', top, of(upperFace(stop), 'plug.thickness_mm'), from(top), bore);
  }
  say('left', -(plug?.offset_mm ?? 0), of(lowerFace(stop), 'plug.offset_mm'), from(-(plug?.offset_mm ?? 0)), bore);
  if (typeof flute.block === 'object' && flat !== undefined) {
    const { width_mm: broad, height_mm: tall } = flute.block;
    say('left', flat - 1, of(BLOCK, 'block.width_mm', 'block.height_mm'), blockWords(broad === undefined ? undefined : size(broad),
      tall === undefined ? undefined : size(tall)));
  }
  if (begins === undefined) say('right', -10, TRACK, BEGINS_AT);
  else say('right', begins, of(TRACK_BEGINS, 'track.length_mm'), from(begins), side);
  if (track?.depth_mm !== undefined) {
    say('left', (begins ?? -10) / 3, of(TRACK, 'track.depth_mm', 'track.width_mm'),
      trackWords(track.width_mm === undefined ? undefined : size(track.width_mm), facts.thin(track.depth_mm)), side);
  }
  say('right', 0, UPSTREAM_EDGE, from(0), wide);
  say('right', hole.length_mm / 2, SOUND_HOLE_CENTRE, from(hole.length_mm / 2), wide);
  say('right', hole.length_mm, SPLITTING_EDGE, from(hole.length_mm), wide);
  const ramp = known.get('ramp');
  if (ramp !== undefined) say('right', ramp, of(RAMP_ENDS, 'sound_hole.ramp_mm'), from(ramp), wide);
  say('left', hole.length_mm, SOUND_HOLE, soundHoleWords(size(hole.length_mm), size(hole.width_mm)), wide);

  flute.finger_holes.forEach((hole, i) => {
    const [figure, other] = length(hole.at_mm + shift).split(' · ');
    const words = holeWords(i + 1);
    if (both) {
      found.push({ at: hole.at_mm, side: 'left', head: figure, line: other, figure: true },
        { at: hole.at_mm, side: 'right', head: words, line: facts.bit(hole) });
    } else {
      found.push({ at: hole.at_mm, side: 'right', head: `${figure} · ${other}`, figure: true,
        line: holeLine(i + 1, facts.bit(hole)) });
    }
  });
  const foot = flute.foot_mm;
  if (both) {
    const [figure, other] = from(foot).split(' · ');
    found.push({ at: foot, side: 'left', head: figure, line: other, figure: true });
    say('right', foot, FOOT, known.has('end') ? COME_BACK : AS_IT_IS);
  } else {
    found.push({ at: foot, side: 'right', figure: true, head: from(foot), line: FOOT });
  }
  const saw = known.get('saw');
  if (saw !== undefined) say('right', saw, SAW_FIRST, longer(one(sawFirst(flute, facts.next))));
  return found;
}

/**
 * @param {Label[]} labels
 * @param {{column: number, left: number, y0: number, y1: number, room: number}} where column: x of the words at the
 *   right; left: x where those at the left end; room: what these have before the paper's edge, or they get smaller
 * @returns {Part[]}
 */
export function placed(labels, { column, left, y0, y1, room }) {
  return (/** @type {const} */ (['left', 'right'])).flatMap((side) => {
    const mine = labels.filter((label) => label.side === side).sort((a, b) => a.at - b.at);
    const limit = Math.max(y1 - y0, mine.length * HIGH_MM);
    const tops = pack(mine.map((label) => label.at - y0 - HIGH_MM / 2), mine.map(() => HIGH_MM), limit);
    return mine.flatMap((label, i) => words(label, y0 + tops[i] + HIGH_MM / 2,
      side === 'left' ? left : column, side, side === 'left' ? Math.min(1, room / shelfOf(label)) : 1));
  });
}

/** How wide its words would be [mm]. @param {Pick<Label, 'head' | 'line' | 'figure'>} label */
export const shelfOf = ({ head, line: under = '', figure = false }) => Math.max(widthOf(under, 2.4), figure
  ? widthOf(head, 3.3, { bold: true }) : widthOf(head.toUpperCase(), 2, { caps: true }));

/** One label with its middle at `y`: what it is above its line, how far below; the line leads to
 * the mark. @param {Label} label @param {number} y @param {number} x @param {'left' | 'right'} side
 * @param {number} scale of the words @returns {Part[]} */
function words({ at, head, line: under = '', figure = false, edge }, y, x, side, scale) {
  /** @type {import('./sheet.js').Anchor} */
  const anchor = side === 'left' ? 'end' : 'start';
  const out = side === 'left' ? -1 : 1;
  const near = x - out * 0.8;
  const moved = Math.abs(y - at) > 0.3;
  /** @type {Part[]} */
  const parts = [figure ? text(head, x, y - 1, 3.3 * scale, { anchor, bold: true })
    : caps(head, x, y - 0.9, { anchor, size: 2 * scale }),
  text(under, x, y + 2.6, 2.4 * scale, { anchor })];
  const shelf = scale * shelfOf({ head, line: under, figure });
  if (!figure || moved) parts.push(line(near, y, x + out * shelf, y, 'hair'));
  const turn = near - out * 2;
  if (moved) parts.push(line(turn, at, near, y, 'hair'));
  if (edge !== undefined && turn * out > edge) {
    parts.push(line(out * edge, at, moved ? turn : near, at, 'hair'));
  }
  return parts;
}

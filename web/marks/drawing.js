// web/marks/drawing.js: the flute upright and to scale, beside a ruler, as SVG. Draws; decides
// nothing.

import { s } from '../widgets/dom.js';
import { INCH_MM } from '../state/desk.js';

/**
 * What is drawn, lengths in mm from the sound hole's upstream edge, places in px.
 * @typedef {object} Scene
 * @property {Answer} answer
 * @property {number} zero where the ruler begins [mm]
 * @property {boolean} inches
 * @property {number} scale [px/mm]
 * @property {number} top above the upstream edge this much is drawn [mm]
 * @property {number} bottom the lowest point drawn [mm]
 * @property {number} height [px]
 * @property {number} left of the tube's middle [px]
 * @property {number} reach how far to the right leaders go [px]
 * @property {number} outer outside diameter [mm]
 * @property {number[]} anchors heights of the rows' leaders: sound hole, holes, foot [px]
 */

/** @param {Scene} scene @returns {SVGSVGElement} */
export function drawing(scene) {
  const { height, reach } = scene;
  return s('svg', { width: reach, height, viewBox: `0 0 ${reach} ${height}`, class: 'flute',
    'aria-hidden': 'true', focusable: 'false' }, ...ruler(scene), ...tube(scene), ...holes(scene),
  ...leaders(scene));
}

/** Height of a place on the tube. @param {Scene} scene @param {number} mm */
export const yOf = (scene, mm) => (scene.top + mm) * scene.scale + EDGE_PX;

export const EDGE_PX = 6;
export const RULER_PX = 36;

/** Whether anything is sawn off. @param {Scene} scene */
const sawn = ({ answer }) => answer.cane.spare_mm >= 0.05;

/** @param {Scene} scene */
function ruler(scene) {
  const { scale, zero, bottom, inches } = scene;
  const unit = inches ? INCH_MM : 1;
  const labels = inches ? [1, 2, 4, 6, 12] : [10, 20, 50, 100, 200];
  const finer = inches ? [1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2] : [1, 2, 5, 10, 20, 50];
  const major = labels.find((step) => step * unit * scale >= 44) ?? labels[labels.length - 1];
  const minor = finer.find((step) => step * unit * scale >= 4.5) ?? major;
  const count = Math.floor((bottom - zero) / unit / minor + 1e-9);
  const every = Math.round(major / minor);
  const half = every % 2 === 0 ? every / 2 : every;
  const parts = [];
  // One path for all: each element costs a phone as much as a note's pitch.
  let ticks = `M${RULER_PX} ${yOf(scene, bottom)}V${yOf(scene, zero)}`;
  for (let i = 0; i <= count; i += 1) {
    const y = yOf(scene, zero + i * minor * unit);
    const long = i % every === 0 ? 11 : i % half === 0 ? 8 : 5;
    ticks += `M${RULER_PX} ${y}h${-long}`;
    if (i % every === 0) {
      parts.push(s('text', { x: RULER_PX - 14, y: y + 4, class: 'number', 'text-anchor': 'end' },
        String(Math.round(i * minor))));
    }
  }
  return [s('path', { d: ticks, class: 'tick' }), ...parts];
}

/** @param {Scene} scene */
function tube(scene) {
  const { answer, left, scale, outer, top, bottom } = scene;
  const half = outer * scale / 2;
  const y0 = yOf(scene, -top);
  const y1 = yOf(scene, answer.foot_mm);
  const end = yOf(scene, bottom);
  const broken = top < (answer.tube.above_mm ?? 0) - 0.5;
  const cut = bottom < answer.foot_mm + answer.cane.spare_mm - 0.5;
  const right = left + half;
  const head = broken
    ? `L${left + half / 3} ${y0 + 5} L${left - half / 3} ${y0 - 3} L${left - half} ${y0 + 2}` : '';
  // Engraver's shading: lines at equal angles round a cylinder crowd towards its edges.
  const shade = [-74, 22, 38, 52, 64, 74, 82].map((angle) =>
    `M${left + half * Math.sin(angle * Math.PI / 180)} ${y0 + 3}V${y1 - 1}`).join('');
  const parts = [
    s('path', { d: `M${left - half} ${y0} V${y1} H${right} V${y0} ${head} Z`, class: 'body' }),
    s('path', { d: shade, class: 'shade' }),
  ];
  const { ridge } = answer.tube;
  if (ridge !== undefined) {
    const y = yOf(scene, ridge.at_mm);
    for (const side of [-half, half]) parts.push(line(left + side / 2, y, left + side, y, 'ridge'));
  }
  if (sawn(scene)) {
    parts.push(s('path', { class: 'off', d: `M${left - half} ${y1} V${end} ${cut ? 'M' : 'H'}${right}${
      cut ? ` ${end}` : ''} V${y1}` }));
  }
  return [...parts, ...voice(scene)];
}

/** Plug and track, dashed since they lie inside or under the block. @param {Scene} scene */
function voice(scene) {
  const { answer, left, scale, top } = scene;
  const { sound_hole: hole, plug } = answer;
  const face = -(plug?.offset_mm ?? 0);
  const y = yOf(scene, face);
  // What nobody has measured is not drawn; of the plug only its face.
  const thick = Math.min(plug?.thickness_mm ?? 0, top + face - 1) * scale;
  const bore = answer.tube.bore[0].diameter_mm * scale;
  const wide = Math.min(hole.width_mm, scene.outer) * scale;
  const track = Math.min(top - 2, answer.track?.length_mm ?? 0) * scale;
  const edge = yOf(scene, 0);
  return [
    s('rect', { x: left - bore / 2, y: y - thick, width: bore, height: Math.max(thick, 0),
      class: 'plug' }),
    line(left - wide / 2, edge - track, left - wide / 2, edge, 'track'),
    line(left + wide / 2, edge - track, left + wide / 2, edge, 'track'),
    s('rect', { x: left - wide / 2, y: edge, width: wide, height: hole.length_mm * scale,
      class: 'opening' }),
  ];
}

/** @param {Scene} scene */
function holes(scene) {
  return scene.answer.finger_holes.map((hole) => s('circle', { cx: scene.left,
    cy: yOf(scene, hole.at_mm), r: Math.max(hole.diameter_mm * scene.scale / 2, 1.5),
    class: 'opening' }));
}

/** @param {Scene} scene */
function leaders(scene) {
  const { answer, anchors, left, scale, outer, reach, zero } = scene;
  const from = left + outer * scale / 2 + 3;
  const marks = [zero, ...answer.finger_holes.map((hole) => hole.at_mm), answer.foot_mm];
  return marks.map((mm, i) => {
    const y = yOf(scene, mm);
    const last = i === marks.length - 1;
    const start = last ? RULER_PX + 2 : from;
    const turn = Math.max(from, reach - 26);
    return s('path', { class: last && sawn(scene) ? 'cut' : 'leader',
      d: `M${start} ${y} H${turn} L${reach - 10} ${anchors[i]} H${reach - 2}` });
  });
}

/** @param {number} x1 @param {number} y1 @param {number} x2 @param {number} y2
 * @param {string} name */
const line = (x1, y1, x2, y2, name) => s('line', { x1, y1, x2, y2, class: name });

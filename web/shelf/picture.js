// web/shelf/picture.js: a flute lying on its shelf, to scale with the others, drawn from its marks.

import { s } from '../widgets/dom.js';

const USUAL_ABOVE_MM = 60;  // where the length towards the mouth was not measured

/** @param {Doc} doc */
const above = (doc) => doc.tube.above_mm ?? USUAL_ABOVE_MM;

/** @param {Doc} doc */
function outer(doc) {
  const bore = doc.tube.bore[0].diameter_mm;
  return doc.tube.outer_mm ?? bore + 2 * (doc.tube.wall_mm ?? 2);
}

/** @param {unknown} mm */
const finite = (mm) => typeof mm === 'number' && Number.isFinite(mm) && Math.abs(mm) < 5000;

/** Length of the drawing [mm], 0 where there is nothing to draw from.
 * @param {Doc} doc @param {Marks | null} marks */
export function lengthOf(doc, marks) {
  const parts = [marks?.foot_mm, above(doc), outer(doc), doc.sound_hole.length_mm, doc.sound_hole.width_mm];
  return marks !== null && parts.every(finite) ? above(doc) + marks.foot_mm : 0;
}

/** @param {Doc} doc @param {Marks | null} marks @param {number} longest on the shelf [mm] */
export function picture(doc, marks, longest) {
  if (marks === null || lengthOf(doc, marks) <= 0) return null;
  const across = outer(doc);
  const high = across + 4;
  const middle = high / 2;
  const { length_mm: length, width_mm: width } = doc.sound_hole;
  const shade = [0.22, 0.36, 0.45].map((share) => s('line', { class: 'shade', x1: -above(doc) + 2,
    x2: marks.foot_mm - 2, y1: middle + share * across, y2: middle + share * across }));
  return s('svg', { class: 'lying flute', viewBox: `${-above(doc) - 2} 0 ${longest + 4} ${high}`,
    preserveAspectRatio: 'xMinYMid meet', 'aria-hidden': 'true', focusable: 'false' },
  s('rect', { class: 'body', x: -above(doc), y: 2, width: above(doc) + marks.foot_mm, height: across, rx: 1 }),
  ...shade,
  s('rect', { class: 'opening', x: 0, y: middle - width / 2, width: length, height: width }),
  ...marks.finger_holes.filter((hole) => finite(hole.at_mm) && finite(hole.diameter_mm))
    .map((hole) => s('circle', { class: 'opening', cx: hole.at_mm, cy: middle, r: hole.diameter_mm / 2 })));
}

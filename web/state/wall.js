// web/state/wall.js: the wall, told by its thickness or by the outside diameter. Loaded when one is changed for
// the other.

import { isBlank } from './desk.js';
import { withValue } from './path.js';

const WALL = 'tube.wall_mm';
const OUTSIDE = 'tube.outer_mm';

/** The other figure follows from the answer, so that the marks stay where they are; before there are marks it is
 * not known. @param {Desk} desk @param {string} by `outer`, else the thickness */
export const wallBy = (desk, by) => desk.edit((s) => {
  const [from, to] = by === 'outer' ? [WALL, OUTSIDE] : [OUTSIDE, WALL];
  const { bore, wall_mm: wall, outer_mm: outer } = s.good.tube;
  const across = bore[0].diameter_mm;
  const thick = wall ?? ((outer ?? across) - across) / 2;
  const mm = to === WALL ? thick : across + 2 * thick;
  return { doc: withValue(withValue(s.doc, from, undefined), to, isBlank(s) ? null : Math.round(mm * 1000) / 1000) };
}, [WALL, OUTSIDE]);

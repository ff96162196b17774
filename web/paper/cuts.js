// web/paper/cuts.js: what paper reckons of a flute before it is drawn: a first saw cut, a flat.

import { endNow, outerOf } from './facts.js';

/** @typedef {import('./facts.js').Flute} Flute */

/** How much longer than the foot's mark to saw now, by the Bench's own step; 0 where it saws nothing, or has
 * not been asked [mm]. @param {Flute} flute @param {NextStep | null} next */
export function sawFirst(flute, next) {
  const { at_mm: at, until } = next?.step.do === 'foot' ? next.step : {};
  return at === undefined || until !== undefined ? 0 : Math.max(0, Math.min(at, endNow(flute)) - flute.foot_mm);
}

/** Half the width, along the tube's surface, of a flat that leaves this wall under its middle: the
 * arc over the chord at that depth. 0 where no flat is asked for, or where it would be narrower than
 * the sound hole, so that the wall alone does not say how wide it is.
 * @param {Flute} flute */
export function flatHalf(flute) {
  const { tube, sound_hole: hole } = flute;
  const radius = outerOf(flute) / 2;
  const wall = tube.wall_mm ?? radius - tube.bore[0].diameter_mm / 2;
  const depth = wall - (hole.wall_mm ?? wall);
  if (depth <= 0 || depth >= radius) return 0;
  const chord = 2 * Math.sqrt(depth * (2 * radius - depth));
  return chord < hole.width_mm ? 0 : radius * Math.acos(1 - depth / radius);
}

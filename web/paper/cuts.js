// web/paper/cuts.js: what paper reckons of a flute before it is drawn: a first saw cut, a flat.

import { endNow, outerOf } from './facts.js';

/** @typedef {import('./facts.js').Flute} Flute */

/** How much longer to saw first, as the station Marks says it [mm].
 * @param {Flute} flute */
export function sawFirst(flute) {
  const spare = endNow(flute) - flute.foot_mm;
  if (spare < 1) return 0;
  return Math.min(spare, Math.max(1, Math.round(Math.min(spare, flute.foot_mm * 0.02))));
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

// web/state/build.js: what the log of a build made of the tube.

/** @param {Doc} doc @returns {LogEntry[]} */
export const logOf = (doc) => doc.log ?? [];

/** The tube as the first `count` entries leave it. @param {Doc} doc @param {number} [count]
 * @returns {Stand} */
export function standing(doc, count = logOf(doc).length) {
  /** @type {Stand} */
  const stand = { foot_mm: doc.tube.end_mm, sound_hole: doc.sound_hole, holes: new Map() };
  for (const entry of logOf(doc).slice(0, count)) {
    if (entry.foot) stand.foot_mm = entry.foot.at_mm;
    if (entry.sound_hole) stand.sound_hole = entry.sound_hole;
    if (entry.hole) {
      const { number, at_mm, diameter_mm } = entry.hole;
      const before = stand.holes.get(number);
      stand.holes.set(number, { at_mm: before?.at_mm ?? at_mm, diameter_mm });
    }
    if (entry.narrow) {
      const before = stand.holes.get(entry.narrow.number);
      if (before) stand.holes.set(entry.narrow.number, { ...before, diameter_mm: entry.narrow.diameter_mm });
    }
  }
  return stand;
}

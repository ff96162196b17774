// web/state/hands.js: how a number of holes can be shared between the two hands.

const FINGERS = 4;  // of one hand, the thumb holds the flute

/** Holes of the upper and the lower hand, for each way; one hand where it can.
 * @param {number} holes @returns {number[][]} */
export function handSplits(holes) {
  const splits = [];
  for (let upper = 1; upper < holes; upper += 1) {
    if (upper <= FINGERS && holes - upper <= FINGERS) splits.push([upper, holes - upper]);
  }
  return holes <= FINGERS ? [...splits, [holes]] : splits;
}

/** The split nearest to the one there was. @param {number} holes @param {number[]} [before] */
export function handsFor(holes, before) {
  const wanted = before?.length === 2 ? before[0] : Math.floor(holes / 2);
  const splits = handSplits(holes).filter((s) => s.length === 2);
  return splits.reduce((best, s) => (Math.abs(s[0] - wanted) < Math.abs(best[0] - wanted) ? s : best));
}

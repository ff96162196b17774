// web/state/bore.js: a bore found as one figure, taken into a bore measured at several places.

import { withValue } from './path.js';

/** Product of two diameters along the tube, constant beyond the outermost places.
 * @param {BoreStation[]} bore @param {number} at */
function squared(bore, at) {
  const after = bore.findIndex((b) => b.at_mm >= at);
  const b = bore[after === -1 ? bore.length - 1 : after];
  const a = after > 0 ? bore[after - 1] : b;
  const t = b.at_mm > a.at_mm ? Math.max(0, Math.min(1, (at - a.at_mm) / (b.at_mm - a.at_mm))) : 0;
  /** @param {BoreStation} s */
  const across = (s) => s.across_mm ?? s.diameter_mm;
  return (a.diameter_mm + t * (b.diameter_mm - a.diameter_mm))
    * (across(a) + t * (across(b) - across(a)));
}

/** Bore of the even tube that holds as much water. @param {BoreStation[]} bore
 * @param {number} length_mm from the line */
export function meanBore(bore, length_mm) {
  const cuts = [0, ...bore.map((b) => b.at_mm).filter((at) => at > 0 && at < length_mm), length_mm];
  let sum = 0;
  for (let i = 1; i < cuts.length; i += 1) {
    const [from, to] = [cuts[i - 1], cuts[i]];
    // Simpson's rule is exact for a product of two straight lines.
    sum += (to - from) / 6 * (squared(bore, from) + 4 * squared(bore, (from + to) / 2)
      + squared(bore, to));
  }
  return Math.sqrt(sum / length_mm);
}

/** @param {number} mm */
const round = (mm) => Math.round(mm * 1000) / 1000;

/** The document with the mean bore found; its taper and its oval stay as measured.
 * @param {Doc} doc @param {Measured} found @param {number} length_mm filled @returns {Doc} */
export function withMeanBore(doc, found, length_mm) {
  const { bore } = doc.tube;
  const scale = (found.diameter_mm ?? 0) / meanBore(bore, length_mm);
  const scaled = bore.map((b) => ({ ...b, diameter_mm: round(b.diameter_mm * scale),
    ...(b.across_mm === undefined ? {} : { across_mm: round(b.across_mm * scale) }) }));
  return withValue(withValue(doc, 'tube.bore', scaled), 'shop.bore_mm', round(found.sigma_mm));
}

/** The document with the bore found at one of its places. @param {Doc} doc @param {Measured} found
 * @param {number} place @returns {Doc} */
export function withBoreAt(doc, found, place) {
  const put = withValue(doc, `tube.bore[${place}].diameter_mm`, found.diameter_mm);
  return withValue(put, 'shop.bore_mm', round(found.sigma_mm));
}

/** @param {Doc} doc @param {Measured} found @returns {Doc} */
export const withOutside = (doc, found) => withValue(withValue(doc, 'tube.wall_mm', undefined),
  'tube.outer_mm', found.outer_mm);

// web/text/ways.js: ways to find a bore one cannot see into: what to do, and what each is worth.

import { INCH_MM, unitOf } from '../state/desk.js';
import { centsWords, fine } from './numbers.js';

/** What is asked of the maker, in the order of entry. `amount` and the like are the core's names.
 * @typedef {{key: string, label: string, note?: string, length: boolean, suffix?: string,
 *   optional?: boolean}} Quantity */

const FILLED = { key: 'length_mm', label: 'Filled length', note: 'from the closed end to the brim',
  length: true };

/** @type {Record<string, {name: string, how: string, quantities: Quantity[]}>} */
export const WAYS = {
  water_g: {
    name: 'Water, weighed',
    how: 'Close one end, set the scale to zero with the tube on it, fill to the brim, dry the '
      + 'outside, weigh. It gives the mean bore of the piece filled.',
    quantities: [{ key: 'amount', label: 'Water', length: false, suffix: 'g' }, FILLED,
      { key: 'water_c', label: 'Its temperature', note: 'left empty: 20', length: false,
        suffix: '°C', optional: true }],
  },
  water_ml: {
    name: 'Water, by syringe',
    how: 'Close one end and count the millilitres until it is full to the brim. It gives the mean '
      + 'bore of the piece filled.',
    quantities: [{ key: 'amount', label: 'Water', length: false, suffix: 'ml' }, FILLED],
  },
  gauges: {
    name: 'Drill shanks',
    how: 'The thickest shank that goes in and the next that does not: the bore lies between, at its '
      + 'narrowest place as far as the shank reaches.',
    quantities: [{ key: 'go_mm', label: 'Goes in', length: true },
      { key: 'no_go_mm', label: 'Does not go in', length: true }],
  },
  girth: {
    name: 'Paper strip',
    how: 'Wind a strip of paper once round the tube, mark where it meets itself, lay it flat and '
      + 'measure. It gives the outside diameter, where the finger holes go.',
    quantities: [{ key: 'girth_mm', label: 'Once round', length: true }],
  },
};

/** @type {Record<string, [string, string]>} words, and what one step is of */
const WORTH = {
  calipers: ['Calipers at both ends', ''],
  gauges: ['Drill shanks, go and no-go', 'a step of 0.5 mm'],
  syringe: ['Water by syringe', ''],
  scale: ['Water on a scale of 0.1 g', '0.1 g'],
  girth: ['Paper strip outside, less the wall', ''],
};

/** @param {BoreWay} way @returns {string} */
export const wayName = ({ way }) => (Object.hasOwn(WORTH, way) ? WORTH[way][0]
  : way.replaceAll('_', ' '));

/** @param {BoreWay} way @param {State} state */
export function wayWorth(way, state) {
  const step = way.step_cents === undefined ? '' : `; ${WORTH[way.way]?.[1] || 'a step'} is ${
    centsFine(way.step_cents)}`;
  return `${fineLength(way.sigma_mm, state)}, ± ${centsFine(way.cents)}${step}`;
}

/** @param {BoreWay[]} ways */
export function bestWay(ways) {
  const best = ways.find((way) => way.best);
  return best === undefined ? '' : `Most precise on this tube: ${lower(wayName(best))}, ± ${
    centsFine(best.cents)} over all notes.`;
}

/** Down to a hundredth: a scale's step is worth that little. @param {number} cents */
const centsFine = (cents) => (cents < 0.1 ? `${cents < 0.005 ? 'under 0.01'
  : String(Math.round(cents * 100) / 100)} cents` : centsWords(cents));

/** An uncertainty, finer than any ruler. @param {number} mm @param {State} state */
export const fineLength = (mm, state) => `± ${fine(mm, state)} ${unitOf(state) === 'inch' ? 'in' : 'mm'}`;

/** @param {Measured} found @param {State} state */
export function foundWords({ diameter_mm: bore, outer_mm: outer, sigma_mm: sigma }, state) {
  const mm = bore ?? outer ?? 0;
  // A hundredth of a millimetre tells on the notes: finer than the rest of the page writes.
  const text = unitOf(state) === 'inch' ? `${(mm / INCH_MM).toFixed(3)} in` : `${mm.toFixed(2)} mm`;
  return `${bore === undefined ? 'Outside' : 'Bore'} ${text}, ${fineLength(sigma, state)}`;
}

/** @param {string} text */
const lower = (text) => text.charAt(0).toLowerCase() + text.slice(1);

// tests/wasm/compare.mjs -- where two JSON values differ by more than rounding.

import { figure } from '../support/figures.mjs';

const RELATIVE = figure('wasm_relative'); // as the README says

/**
 * A number near zero that is the difference of two large ones cannot agree to 1e-9 of itself. What
 * agrees to 1e-9 is the quantity under it: a frequency ratio for cents (1e-9 of a frequency is
 * 1200 / ln 2 * 1e-9 cents), the tube's end and the foot for what is between them, the whole for a
 * share of it (a chance, a departure).
 */
function scaleOf(key) {
  if (/cents/.test(key)) return 1200 / Math.LN2;
  if (key === 'spare_mm') return 100;
  if (key === 'overshoot') return 1;
  // What readings tell of a flute is fitted with slopes taken by differences, which are good to a
  // hundredth of the pitches' own agreement.
  if (['mean', 'sigma', 'prior_sigma', 'covariance'].includes(key)) return 100;
  return 0;
}

/** @returns {string[]} one line for each difference, empty when the two agree */
export function differences(one, two, path = '', key = '') {
  const kind = (v) => (v === null ? 'null' : Array.isArray(v) ? 'list' : typeof v);
  if (kind(one) !== kind(two)) return [`${path}: ${kind(one)} and ${kind(two)}`];
  if (kind(one) === 'number') {
    const size = Math.max(Math.abs(one), Math.abs(two), scaleOf(key));
    return Math.abs(one - two) <= RELATIVE * size ? [] : [`${path}: ${one} and ${two}`];
  }
  if (kind(one) === 'list') {
    if (one.length !== two.length) return [`${path}: ${one.length} and ${two.length} entries`];
    return one.flatMap((entry, i) => differences(entry, two[i], `${path}[${i}]`, key));
  }
  if (kind(one) === 'object') {
    const keys = [...new Set([...Object.keys(one), ...Object.keys(two)])].sort();
    return keys.flatMap((k) => (k in one && k in two
      ? differences(one[k], two[k], `${path}.${k}`, k)
      : [`${path}.${k}: only in ${k in one ? 'the first' : 'the second'}`]));
  }
  return one === two ? [] : [`${path}: ${JSON.stringify(one)} and ${JSON.stringify(two)}`];
}

/** How many numbers a JSON value holds: a comparison of nothing must not pass. */
export function countNumbers(value) {
  if (typeof value === 'number') return 1;
  if (value === null || typeof value !== 'object') return 0;
  return Object.values(value).reduce((sum, entry) => sum + countNumbers(entry), 0);
}

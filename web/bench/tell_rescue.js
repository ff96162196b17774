// web/bench/tell_rescue.js: a way out of trouble with its amounts and what it costs.

/// <reference path="./types.d.ts" />
import { lengthWords } from '../text/numbers.js';
import { bare } from '../text/sure.js';
import { FOR_GOOD, REVERSIBLE, WAYS, costOf, leavesSharp, lowersBy, raisesBy } from './words.js';

/** @param {RescueOption} option @param {State} s @param {Engine} engine
 * @returns {Way & {cost: string}} */
export function rescueWords(option, s, engine) {
  const { what, number = 0, size_mm: size = 0, length_mm: long = 0, target_hz: hz = 0 } = option;
  const { costs_cents: costs, shift_cents: shift } = option;
  const way = Object.hasOwn(WAYS, what) ? WAYS[what]({ number, size, long, hz: hz.toFixed(1) },
    (mm) => lengthWords(mm, s, engine)) : { name: what.replaceAll('_', ' '), how: '' };
  const sure = (option.sigma_cents ?? 0) >= 0.5 ? ` ± ${bare(option.sigma_cents ?? 0)}` : '';
  const parts = [
    typeof shift === 'number' && Math.abs(shift) >= 0.5 ? (shift < 0 ? lowersBy : raisesBy)(shift, sure) : '',
    typeof costs === 'number' && costs >= 0.5 ? leavesSharp(costs) : '',
    option.reversible ? REVERSIBLE : FOR_GOOD,
  ].filter((part) => part !== '');
  return { ...way, cost: costOf(parts) };
}

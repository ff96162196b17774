// web/bench/tell_readings.js: what the readings have told about this flute, and what they have not.

import { bare } from '../text/sure.js';
import { noteName, signed } from '../text/numbers.js';
import { ABOVE, AS_RECKONED, BELOW, NOTHING_HEARD, UNKNOWN, anOctave, notTold, noteWithOpen, shrunkBy }
  from './words.js';

/** The note whose band shrank most. @param {NextStep} next @returns {string} */
export function shrunk(next) {
  const heard = next.readings.filter((r) => r.trusted).length;
  if (heard === 0) return NOTHING_HEARD;
  const best = next.notes.filter((n) => n.before_cents !== null && n.sigma_cents !== null)
    .sort((a, b) => (a.sigma_cents ?? 1) / (a.before_cents ?? 1) - (b.sigma_cents ?? 1) / (b.before_cents ?? 1))[0];
  if (best === undefined) return '';
  return shrunkBy(heard, noteName(best.name) || noteWithOpen(best.open), bare(best.before_cents ?? 0),
    bare(best.sigma_cents ?? 0));
}

/** @param {string} name */
const unknown = (name) => (Object.hasOwn(UNKNOWN, name) ? UNKNOWN[name]
  : { name: name.replaceAll('_', ' '), above: ABOVE, below: BELOW });

/** @param {NextStep} next @returns {string[]} */
export function toldWords(next) {
  const not = next.unknowns.filter((u) => !u.told);
  const lines = next.unknowns.filter((u) => u.told).map((u) => {
    const { name, above, below } = unknown(u.name);
    const off = Math.abs(u.mean) < u.sigma ? AS_RECKONED : u.mean > 0 ? above : below;
    const size = u.name === 'drift' ? anOctave(`${off === AS_RECKONED ? signed(u.mean) : bare(Math.abs(u.mean))} ± ${bare(u.sigma)}`)
      : `${percent(u.mean, off === AS_RECKONED)} ± ${Math.round(u.sigma * 1000) / 10} %`;
    return `${name}: ${off} (${size}).`;
  });
  return not.length === 0 ? lines : [...lines, notTold(not.map((u) => unknown(u.name).name))];
}

/** The sign where no word before it is the sign. @param {number} share @param {boolean} bySign */
function percent(share, bySign) {
  const size = Math.abs(Math.round(share * 1000) / 10);
  return `${!bySign || size === 0 ? '' : share < 0 ? '−' : '+'}${size} %`;
}

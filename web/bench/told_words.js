// web/bench/told_words.js: what the readings have told about this flute, and what they have not.

import { bare } from '../text/sure.js';
import { noteName, signed } from '../text/numbers.js';

/** The note whose band shrank most. @param {NextStep} next @returns {string} */
export function shrunk(next) {
  const heard = next.readings.filter((r) => r.trusted).length;
  if (heard === 0) return 'Nothing has been heard yet: the bands are as wide as for any such flute.';
  const best = next.notes.filter((n) => n.before_cents !== null && n.sigma_cents !== null)
    .sort((a, b) => (a.sigma_cents ?? 1) / (a.before_cents ?? 1) - (b.sigma_cents ?? 1) / (b.before_cents ?? 1))[0];
  if (best === undefined) return '';
  const name = noteName(best.name) || `the note with ${best.open.join(', ')} open`;
  return `${heard === 1 ? 'One reading has' : `${heard} readings have`} shrunk the band of ${name} from ± ${
    bare(best.before_cents ?? 0)} to ± ${bare(best.sigma_cents ?? 0)} cents.`;
}

/** What each unknown is, and what it means to be above and below its model.
 * @type {Record<string, {name: string, above: string, below: string}>} */
const UNKNOWN = {
  sound_hole: { name: 'Sound hole', above: 'pulls flatter than its size says', below:
    'pulls less flat than its size says' },
  sound_speed: { name: 'Air in the bore', above: 'warmer or drier than reckoned', below:
    'cooler or heavier than reckoned' },
  bore: { name: 'Bore', above: 'acts wider than measured', below: 'acts narrower than measured' },
  wall: { name: 'Wall', above: 'acts thicker than measured', below: 'acts thinner than measured' },
  holes: { name: 'Finger holes', above: 'act larger than measured', below: 'act smaller than measured' },
  drift: { name: 'Your breath', above: 'lifts the high notes', below: 'lets the high notes sag' },
};

/** @param {NextStep} next @returns {string[]} */
export function toldWords(next) {
  const told = next.unknowns.filter((u) => u.told);
  const not = next.unknowns.filter((u) => !u.told);
  const lines = told.map((u) => {
    const known = Object.hasOwn(UNKNOWN, u.name) ? UNKNOWN[u.name] : null;
    const name = known?.name ?? u.name.replaceAll('_', ' ');
    const off = Math.abs(u.mean) < u.sigma ? 'as reckoned' : u.mean > 0 ? known?.above ?? 'above'
      : known?.below ?? 'below';
    const size = u.name === 'drift' ? `${signed(u.mean)} ± ${bare(u.sigma)} cents an octave`
      : `${percent(u.mean)} ± ${Math.round(u.sigma * 1000) / 10} %`;
    return `${name}: ${off} (${size}).`;
  });
  if (not.length === 0) return lines;
  const names = not.map((u) => (Object.hasOwn(UNKNOWN, u.name) ? UNKNOWN[u.name].name
    : u.name.replaceAll('_', ' ')));
  return [...lines, `Not told by the readings, so they stay as assumed: ${names.join(', ').toLowerCase()}.`];
}

/** @param {number} share */
const percent = (share) => `${share < 0 ? '−' : '+'}${Math.abs(Math.round(share * 1000) / 10)} %`;

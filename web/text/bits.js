// web/text/bits.js: a hole's width as it is written: never rounded past what it costs.

import { INCH_MM } from '../state/desk.js';

/** A size that is off by less is that size [cents]. */
export const SAME_CENTS = 2;
const FINEST = 64;  // of an inch: the finest set of bits by fractions (common practice, no source)

/** The maker's own bit that makes a hole so wide: with a hand, as much wider as theirs come out (Burn::hole_m of
 * core/bench/aim). A hole that is cut is as wide as it is: a bit's name is only that of its width.
 * @param {{shop?: {bits?: Bit[]}, pattern?: any, log?: LogEntry[]}} doc @param {number} number of the hole
 * @param {number} mm @returns {Bit | undefined} */
export function ownBit({ shop, pattern, log }, number, mm) {
  const wider = log?.some(({ hole }) => hole?.number === number) ? 0 : pattern?.burn?.mean_mm ?? 0;
  return shop?.bits?.find((bit) => Math.abs(Math.max(bit.mm + wider, bit.mm / 2) - mm) < 0.005);
}

/** @param {number} off [mm] @param {number | null | undefined} perTenth cents that 0.1 mm of width make; not
 *   known: as good as nothing is lost */
const costs = (off, perTenth) => Math.abs(off) * 10 * Math.abs(perTenth ?? Infinity) > SAME_CENTS;

/** In mm: tenths where these do, else hundredths. In inches: the fraction that is this size, else thousandths.
 * @param {number} mm @param {number | null | undefined} perTenth @param {string} unit
 * @param {Pick<Engine, 'writeLength'>} engine */
export function holeSize(mm, perTenth, unit, engine) {
  if (unit !== 'inch') {
    const tenths = Math.round(mm * 10) / 10;
    return costs(tenths - mm, perTenth) ? String(Math.round(mm * 100) / 100) : tenths.toFixed(1);
  }
  const near = Math.round(mm / INCH_MM * FINEST) / FINEST * INCH_MM;
  return costs(near - mm, perTenth) ? `${(mm / INCH_MM).toFixed(3)}″` : engine.writeLength(near, 'inch', FINEST);
}

/** The fractions on either side of a size that is none; '' where one is. @param {number} mm
 * @param {number | null | undefined} perTenth @param {Pick<Engine, 'writeLength'>} engine */
export function betweenBits(mm, perTenth, engine) {
  if (!holeSize(mm, perTenth, 'inch', engine).includes('.')) return '';
  const below = Math.floor(mm / INCH_MM * FINEST);
  const [a, b] = [below, below + 1].map((n) => engine.writeLength(n / FINEST * INCH_MM, 'inch', FINEST));
  return `${a.replace('″', '')} to ${b}`;
}

/** The note whose own hole this is: the open hole nearest the sound hole; of several the plain
 * one, with all holes below it open too. @param {number} hole @param {Note[]} notes */
export function noteOf(hole, notes) {
  const own = notes.filter((note) => note.open.length > 0 && Math.min(...note.open) === hole);
  return own.sort((a, b) => b.open.length - a.open.length)[0];
}

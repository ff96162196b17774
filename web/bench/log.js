// web/bench/log.js: the log of a build: what an entry rests on, and what is put into it. No document is
// changed in place.

/// <reference path="./types.d.ts" />
import { withValue } from '../state/path.js';
import { FILLED_AND_OPENED } from './words.js';

export { logOf, standing } from '../state/build.js';

/** An empty log is none: the document is as before the build. @param {Doc} doc
 * @param {LogEntry[]} log @returns {Doc} */
export const withLog = (doc, log) => withValue(doc, 'log', log.length > 0 ? log : undefined);

/** The number of the finger hole an entry is about; 0: none. @param {LogEntry} entry */
export const holeOfEntry = (entry) => (entry.hole ?? entry.undercut ?? entry.narrow)?.number ?? 0;

/** Entries that cannot stand without this one: where it is the cut that made a hole, all that is
 * done to that hole later, and every reading with it open. Rising.
 * @param {LogEntry[]} log @param {number} index @returns {number[]} */
export function dependents(log, index) {
  const number = log[index]?.hole?.number;
  if (number === undefined) return [];
  if (log.slice(0, index).some((entry) => entry.hole?.number === number)) return [];
  return log.flatMap((entry, i) => (i > index
    && (holeOfEntry(entry) === number || entry.read?.open.includes(number)) ? [i] : []));
}

/** @param {LogEntry[]} log @param {number[]} gone */
export const without = (log, gone) => log.filter((_, i) => !gone.includes(i));

/** To be put behind the log together; what was cut comes before what was heard of it.
 * @param {NextStep['step']} step done by ear @param {AsMeasured} measured
 * @param {{hz: number, sigma_cents: number, first_hz: number, first_sigma_cents: number}} heard
 * @param {boolean} cut whether anything was cut: what was heard before it is told too, since one breath
 * blew both @param {number | undefined} room_c @returns {LogEntry[]} */
export function entriesByEar(step, measured, heard, cut, room_c) {
  const open = step.until?.open ?? [];
  const after = readEntry(open, heard, room_c);
  if (!cut) return [after];
  const before = readEntry(open, { hz: heard.first_hz, sigma_cents: heard.first_sigma_cents }, room_c);
  return [before, cutEntry(step, measured), after];
}

/** @param {NextStep['step']} step @param {AsMeasured} measured @returns {LogEntry} */
export function cutEntry(step, measured) {
  const at_mm = measured.at_mm ?? step.at_mm ?? 0;
  const number = step.number ?? 0;
  const { error_mm } = measured;
  if (step.do === 'foot') return { foot: { at_mm }, ...(error_mm === undefined ? {} : { error_mm }) };
  if (step.do === 'undercut') return { undercut: { number } };
  return { hole: { number, at_mm, ...(measured.diameter_mm === undefined ? {}
    : { diameter_mm: measured.diameter_mm }), ...(measured.bit_mm === undefined ? {} : { bit_mm: measured.bit_mm }) } };
}

const MOST_BURNED_MM = 1;  // wider than this beyond its bit, another one made it: judgement
const SAME_SIZE_MM = 0.005;

/** The bit of mine that made a hole, where its size was measured and not taken over from the card: what burning adds is
 * learned from both. One that is as wide as another bit of mine was made by that one, and tells nothing.
 * @param {NextStep['step']} step @param {number | undefined} wide_mm @param {Bit[]} owned */
export function madeWith(step, wide_mm, owned) {
  const bit = step.diameter_mm;
  if (bit === undefined || wide_mm === undefined || wide_mm === asItComesOut(step)) return undefined;
  if (Math.abs(wide_mm - bit) > MOST_BURNED_MM) return undefined;
  /** @param {number} size */
  const owns = (size) => owned.some(({ mm }) => Math.abs(mm - size) < SAME_SIZE_MM);
  return owns(bit) && !owns(wide_mm) ? bit : undefined;
}

/** How wide the hole of a step will be, in this maker's hand. @param {NextStep['step']} step */
export const asItComesOut = (step) => step.wide_mm ?? step.diameter_mm;

/** @param {number[]} open @param {{hz: number, sigma_cents: number}} heard
 * @param {number | undefined} room_c @returns {LogEntry} */
export const readEntry = (open, { hz, sigma_cents }, room_c) => ({
  read: { open, hz: round(hz, 100), sigma_cents: Math.max(0.1, round(sigma_cents, 100)) },
  ...(room_c === undefined ? {} : { room_c }),
});

/** What a way out of trouble comes to in the log; empty: nothing happened to the flute.
 * @param {RescueOption} option @param {number} size_mm as measured @param {Stand} stand
 * @returns {LogEntry[]} */
export function entriesOfRescue(option, size_mm, stand) {
  const number = option.number ?? 0;
  switch (option.what) {
    case 'narrow': return [{ narrow: { number, diameter_mm: size_mm } }];
    // The same size, further down: for the model a hole filled and opened anew.
    case 'one_side': return [{ narrow: { number, diameter_mm: size_mm }, note: FILLED_AND_OPENED }];
    case 'foot_disc': return [{ foot_plug: { opening_mm: size_mm } }];
    case 'foot_sleeve': return [{ foot: { at_mm: size_mm }, note: 'sleeve' }];
    case 'shade_sound_hole': return [{ sound_hole: { length_mm: size_mm,
      width_mm: stand.sound_hole.width_mm } }];
    default: return [];
  }
}

/** @param {number} value @param {number} per */
const round = (value, per) => Math.round(value * per) / per;

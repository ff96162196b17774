// web/shelf/own/own_doc.js: a flute that exists, from its entries to a document whose log says what is there.
// Reckons, draws nothing.

import { withFittingHands } from '../../state/fresh.js';

/** Of a row: a hole, or the foot. Lengths from the sound hole's upstream edge [mm].
 * @typedef {{at?: number, wide?: number, hz?: number}} OwnRow */
/** @typedef {{bore: number, wall: number, length: number, width: number, room?: number, name?: string,
 *   show?: Doc['show'], holes: OwnRow[], foot: OwnRow}} OwnFlute */

const A4_HZ = 440;
const SEMITONE = 100;
const READ_CENTS = 4;   // of a pitch that was typed (common practice, no source)
const SEMITONES = 12;

/** @param {number} a @param {number} b */
const cents = (a, b) => SEMITONE * SEMITONES * Math.log2(a / b);

/** Of a row of holes, the fingerings from all covered to all open: one more from the foot each.
 * @param {number} holes @returns {number[][]} */
export const upwards = (holes) => Array.from({ length: holes + 1 }, (_, n) =>
  Array.from({ length: n }, (_, k) => holes - n + 1 + k));

const JUST_SHARP = 10;  // no more than may stay
/** The note that a flute's lowest is to become: the nearest; while nothing but the foot is cut, which only raises it,
 * the next one up. @param {number} hz @param {boolean} up @param {number} [a4_hz] */
export function rootOf(hz, up, a4_hz = A4_HZ) {
  const steps = cents(hz, a4_hz) / SEMITONE;
  const step = up ? Math.ceil(steps - JUST_SHARP / SEMITONE) : Math.round(steps);
  return thousandth(a4_hz * 2 ** (step / SEMITONES));
}
/** @param {number} value */
const thousandth = (value) => Math.round(value * 1000) / 1000;

/** The scale that what is heard lies nearest to; the first where nothing tells.
 * @template {{cents: number[]}} S @param {S[]} scales whose last step begins it anew
 * @param {(number | undefined)[]} heard from all covered up, which is there @returns {S} */
export function nearestScale(scales, heard) {
  /** @param {S} scale */
  const misfit = ({ cents: steps }) => heard.reduce((/** @type {number} */ sum, hz, n) => {
    const last = steps.length - 1;
    const step = steps[n % last] + steps[last] * Math.floor(n / last);
    return hz === undefined ? sum : sum + Math.abs(cents(hz, heard[0] ?? hz) - step);
  }, 0);
  const misfits = scales.map(misfit);
  return scales[misfits.indexOf(Math.min(...misfits))];
}

/** The song that these pitches are, lowest first. @param {number[]} hz @param {'as it is' | 'in tune'} how
 * @param {number} [lowest] to begin on, else its own @param {number} [a4_hz] @returns {Doc['song']} */
export function songOf(hz, how, lowest, a4_hz = A4_HZ) {
  const begin = lowest ?? (how === 'in tune' ? rootOf(hz[0], false, a4_hz) : hz[0]);
  const own = hz.map((each) => cents(each, hz[0]));
  const steps = how === 'as it is' ? own.map((c) => Math.round(c * 10) / 10) : [];
  if (how === 'in tune') {
    // where the scale begins on no note of its own, what is nearest to most counts
    const shift = cents(hz[0], a4_hz) - SEMITONE * Math.round(cents(hz[0], a4_hz) / SEMITONE);
    for (const c of own) {
      const near = SEMITONE * Math.round((c + shift) / SEMITONE);
      steps.push(Math.max(near, steps.length === 0 ? 0 : steps[steps.length - 1] + SEMITONE));
    }
    steps[0] = 0;
  }
  return { lowest: { hz: thousandth(begin) }, scale: { cents: steps }, holes: hz.length - 1,
    fingerings: upwards(hz.length - 1) };
}

/** Rows that are there: a hole that has no place is not cut. @param {OwnFlute} own */
export const cutHoles = (own) => own.holes.flatMap((row, i) => (row.at === undefined ? [] : [{ ...row, number: i + 1 }]));

/** Every pitch from all covered up, with what was reckoned where none was heard.
 * @param {OwnFlute} own @param {(number | null)[]} [reckoned] the same notes @returns {(number | undefined)[]} */
export const pitches = (own, reckoned = []) => [own.foot, ...own.holes.slice().reverse()]
  .map((row, n) => row.hz ?? reckoned[n] ?? undefined);

/** The flute without readings, for `sound`: what its unheard notes should be. Of a half-made one the lowest alone.
 * @param {OwnFlute} own @returns {any} */
export function silentDoc(own) {
  const cut = cutHoles(own);
  return { ...bareDoc(own), foot_mm: own.foot.at,
    finger_holes: cut.map((row) => ({ at_mm: row.at, diameter_mm: row.wide ?? guessed(own) })),
    notes: upwards(cut.length < own.holes.length ? 0 : cut.length).map((open) => ({ open })) };
}

const USUAL_HOLE = 0.4;  // of the bore, where a size was not measured
/** @param {OwnFlute} own */
const guessed = (own) => Math.round(USUAL_HOLE * own.bore * 10) / 10;

/** @param {OwnFlute} own @returns {any} */
function bareDoc({ name, show, bore, wall, length, width, room, foot }) {
  return { format: 'canewright/1', ...(name ? { name } : {}), ...(show ? { show } : {}),
    ...(room === undefined ? {} : { air: { room_c: room } }),
    tube: { bore: [{ at_mm: 0, diameter_mm: bore }], wall_mm: wall, end_mm: foot.at },
    sound_hole: { length_mm: length, width_mm: width } };
}

/** What of a song is the maker's, whatever is played. @param {Partial<Doc['song']>} song */
export const ofAnySong = ({ a4_hz, tolerance_cents, good_enough_cents, play_c } = {}) => Object.fromEntries(Object.entries(
  { a4_hz, tolerance_cents, good_enough_cents, play_c }).filter(([, value]) => value !== undefined));

/** The flute with a log: foot, holes from the foot up, then what was heard. What is still to be made of it is made by
 * this maker, as their flutes taught; a whole one may be anybody's.
 * @param {OwnFlute} own @param {Doc['song']} song @param {Partial<Doc>} [habits] of this maker @returns {Doc} */
export function ownDoc(own, song, habits = {}) {
  const room = own.room === undefined ? {} : { room_c: own.room };
  const cut = cutHoles(own);
  /** @type {LogEntry[]} */
  const log = [{ foot: { at_mm: own.foot.at ?? 0 } },
    ...cut.slice().reverse().map(({ number, at = 0, wide }) => ({
      hole: { number, at_mm: at, ...(wide === undefined ? {} : { diameter_mm: wide }) } }))];
  const there = new Set(cut.map((row) => row.number));
  [own.foot, ...own.holes.slice().reverse()].forEach((row, n) => {
    const open = upwards(own.holes.length)[n];
    if (row.hz === undefined || !open.every((number) => there.has(number))) return;
    log.push({ read: { open, hz: row.hz, sigma_cents: READ_CENTS }, ...room });
  });
  const { shop, pattern } = habits;
  const bare = bareDoc(own);
  const air = { ...habits.air, ...bare.air };
  const half = cut.length < own.holes.length;
  return withFittingHands({ ...bare, ...(Object.keys(air).length > 0 ? { air } : {}), ...(shop === undefined ? {} : { shop }),
    ...(half && pattern !== undefined ? { pattern } : {}), song: { ...ofAnySong(habits.song), ...song }, log, ...(half ? {} : {
    finger_holes: own.holes.map((row) => ({ at_mm: row.at ?? 0, diameter_mm: row.wide ?? guessed(own) })) }) });
}

/** Whose line it is that the core refuses; '' where it is none's. @param {string} path @param {Doc} doc
 * @param {number} holes */
export function lineOf(path, doc, holes) {
  const entry = doc.log?.[Number(/^log\[(\d+)\]/.exec(path)?.[1])];
  const hole = entry?.hole?.number ?? Number(/^finger_holes\[(\d+)\]/.exec(path)?.[1] ?? NaN) + 1;
  if (hole >= 1) return `${path.endsWith('diameter_mm') ? 'wide' : 'at'}${hole}`;
  if (entry?.read) return path.endsWith('room_c') ? 'room' : `hz${holes + 1 - entry.read.open.length}`;
  if (entry?.foot || /^(foot_mm|tube\.end_mm)$/.test(path)) return `at${holes + 1}`;
  const [, line = ''] = [[/^tube\.bore/, 'bore'], [/^tube\.wall_mm/, 'wall'], [/^sound_hole\.length_mm/, 'length'],
    [/^sound_hole\.width_mm/, 'width'], [/^air\.room_c/, 'room']].find(([of]) => /** @type {RegExp} */ (of).test(path)) ?? [];
  return /** @type {string} */ (line);
}

/** Which notes were heard, in the order of the log's readings: how many holes are open.
 * @param {Pick<OwnFlute, 'holes' | 'foot'>} own */
export const heardOf = ({ holes, foot }) => [foot, ...holes.slice().reverse()].flatMap((row, n) => (row.hz !== undefined
  && holes.slice(holes.length - n).every((one) => one.at !== undefined) ? [n] : []));

/** Every pitch as it is believed: one that does not fit the others is what they say of its note. The same list where
 * all fit. @param {(number | undefined)[]} hz from all covered up @param {NextStep} next @param {OwnFlute} own */
export function believed(hz, next, own) {
  const heard = heardOf(own);
  const doubted = new Set(next.readings.flatMap(({ trusted }, i) => (trusted || heard[i] === undefined ? [] : [heard[i]])));
  if (doubted.size === 0) return hz;
  return hz.map((one, n) => {
    const note = next.notes.find(({ open }) => open.length === n);
    return !doubted.has(n) || note === undefined || note.now_cents === null ? one
      : note.target_hz * 2 ** (note.now_cents / (SEMITONE * SEMITONES));
  });
}

/** Rows as they are copied from a table: place, width, pitch; a row with nothing in it is a hole that is not cut. A
 * heading is none, nor a column that only counts the rows. In a line without tabs a whole number and the fraction
 * after it are one length. @param {string} text @returns {string[][]} */
export function pastedRows(text) {
  const lines = text.replace(/^(?:[^\S\t]*\r?\n)+|(?:\r?\n)+$/g, '').split(/\r?\n/)
    .filter((line) => line.trim() !== '' || /\t|;/.test(line));
  const table = lines.map((line) => {
    const cells = line.split(/\t|;|,\s+/).map((cell) => cell.trim());
    if (cells.length > 1) return cells;
    const [at = '', wide = '', ...pitch] = line.trim().replace(/(^|\s)(\d+)\s+(?=\d+\/\d)/g, '$1$2\u00a0').split(/[^\S\u00a0]+/);
    return [at, wide, pitch.join(' ')].map((cell) => cell.replace('\u00a0', ' '));
  }).filter(([first, ...rest]) => /\d/.test(first) || (first === '' && !rest.some((cell) => /[a-z]{3}/i.test(cell))));
  const counted = table.length > 0 && table.every((cells, n) => cells.length > FIELDS && Number.isInteger(Number(cells[0]))
    && Number(cells[0]) === Number(table[0][0]) + n);
  return counted ? table.map((cells) => cells.slice(1)) : table;
}
/** Of a row: place, width, pitch. */
export const FIELDS = 3;

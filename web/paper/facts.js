// web/paper/facts.js: what the sheets say about a flute, taken from the state once.

import { datumShift, fractionOf, unitOf } from '../state/desk.js';
import { misfits, withProposed } from '../state/above.js';
import { bandOf } from '../state/sure.js';
import { betweenBits, holeSize, ownBit } from '../text/bits.js';
import { about } from '../text/marks.js';
import { fine, noteName } from '../text/numbers.js';
import * as build from '../text/version.js';
import { plain } from './names.js';
import { NAMELESS, datumWords, imprintWords } from './words.js';

/** What is absent becomes a blank to fill in. @typedef {import('../state/above.js').Flute} Flute */

/** @typedef {ReturnType<typeof factsOf>} Facts */

/**
 * @param {State} state @param {Pick<Engine, 'writeLength'>} engine
 * @param {{maker?: string, today?: string, url?: string, voice?: VoiceAnswer | null, next?: NextStep | null}}
 *   [more] `voice`, `next`: what the core says of this very answer, where it has been asked
 */
export function factsOf(state, engine, { maker = '', today = '', url = '', voice = null, next = null } = {}) {
  const { flute, proposals } = withProposed(state.answer, voice?.proposed ?? []);
  const fraction = fractionOf(state) === 64 ? 64 : 32;
  const shift = datumShift({ show: state.doc.show, sound_hole: flute.sound_hole });
  /** @param {number} mm @param {string} unit */
  const write = (mm, unit) => engine.writeLength(mm, unit, fraction).replace(/^-/, '−');
  /** @param {number} mm a length or distance */
  const mm = (mm) => write(mm, 'mm');
  /** @param {number} mm */
  const inch = (mm) => write(mm, 'inch');
  const inches = unitOf(state) === 'inch';
  const datum = state.doc.show?.datum ?? 'centre';
  return {
    flute, proposals, voice, next, shift, mm, inch, datum, maker: plain(maker), today, url,
    inches,
    /** Whether any of these sizes is proposed, not entered. @param {string[]} paths */
    proposed: (paths) => paths.some((path) => proposals.has(path)),
    /** What cannot be so on this tube. */
    wrong: misfits(flute).map(({ path }) => path),
    /** Depths of hundredths, bare, in the maker's unit. @param {number} length */
    thin: (length) => `${fine(Math.round(length * 100) / 100, state)} ${inches ? 'in' : 'mm'}`,
    /** For the words of rooms that share them. */
    state, engine,
    name: plain(state.doc.name ?? '') || NAMELESS,
    about: about(state),
    datumWords: datumWords(datum),
    imprint: imprint(build),
    /** "12.0 mm · 15/32″", the maker's own unit first. @param {number} length */
    both: (length) => (inches ? `${inch(length)} · ${mm(length)} mm` : `${mm(length)} mm · ${inch(length)}`),
    /** In the maker's unit, with it. @param {number} length */
    one: (length) => (inches ? inch(length) : `${mm(length)} mm`),
    /** The same without "mm". @param {number} length */
    size: (length) => (inches ? inch(length) : mm(length)),
    /** The bit as its box names it, else its size in both units. @param {FingerHole} hole */
    bit(hole) {
      const own = ownBit(flute, flute.finger_holes.indexOf(hole) + 1, hole.diameter_mm);
      const slope = noteOf(flute.finger_holes.indexOf(hole) + 1, flute.notes)?.cents_per_tenth_mm;
      const [mine, byInch] = ['mm', 'inch'].map((unit) => holeSize(hole.diameter_mm, slope, unit, engine));
      // A bit's size as it is on its shaft, 7.25 or 3.175; any diameter as lengths are written.
      const size = own === undefined ? mine
        : String(Math.round(own.mm * 1000) / 1000);
      return own?.label ? `⌀ ${plain(own.label)} · ${size} mm` : inches
        ? `⌀ ${byInch} · ${size} mm` : `⌀ ${size} mm · ${byInch}`;
    },
    /** Between which fractions of an inch a hole lies that is none; '' of a bit of the maker's own.
     * @param {FingerHole} hole */
    between(hole) {
      const own = ownBit(flute, flute.finger_holes.indexOf(hole) + 1, hole.diameter_mm);
      const slope = noteOf(flute.finger_holes.indexOf(hole) + 1, flute.notes)?.cents_per_tenth_mm;
      return own ? '' : betweenBits(hole.diameter_mm, slope, engine);
    },
    /** How sure a note is [cents], where that was reckoned. @param {number[]} open */
    sigma: (open) => (state.sureOf === state.answer ? bandOf(state, open) : null),
  };
}

/** Which build drew it; nothing where the page was not built. @param {Record<string, string>} build */
const imprint = ({ VERSION, COMMIT, DATE, SHA256 }) => (SHA256 === '' ? ''
  : imprintWords(VERSION, DATE, COMMIT.slice(0, 10), SHA256.slice(0, 16)));

/** Outside diameter: what paper is wrapped round [mm]. @param {Flute} flute */
export function outerOf({ tube }) {
  return tube.outer_mm ?? tube.bore[0].diameter_mm + 2 * (tube.wall_mm ?? 0);
}

/** Where the tube ends now: sawn or not yet [mm]. @param {Flute} flute */
export function endNow({ tube, log }) {
  const sawn = (log ?? []).flatMap((entry) => (entry.foot === undefined ? [] : [entry.foot.at_mm]));
  return Math.min(tube.end_mm, ...sawn);
}

/** The note whose own hole this is: the open hole nearest the sound hole; of several the plain
 * one, with all holes below it open too. @param {number} hole @param {Note[]} notes */
export function noteOf(hole, notes) {
  return notes.filter((note) => note.open.length > 0 && Math.min(...note.open) === hole)
    .sort((a, b) => b.open.length - a.open.length)[0];
}

/** @param {Note[]} notes */
export const lowestOf = (notes) => notes.find((note) => note.open.length === 0);

/** @param {Note | undefined} note */
export const named = (note) => noteName(note?.name);

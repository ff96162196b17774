// web/paper/list.js: the marks as a list, for whoever has only a ruler.

import { circle, frame, line, caps, text, wrapped } from './sheet.js';
import { lowestOf, named, noteOf } from './facts.js';
import { sawFirst } from './cuts.js';
import { marksOf } from './strip.js';
import { band } from '../text/sure.js';
import { misfits } from '../state/above.js';
import { doesNotFit } from '../text/parts.js';
import { cautions } from '../text/cautions.js';
import { AIR_HOLE, CARE, CHAMBER, FOOT_MARK, LIST_HEADS, LIST_TITLE, MARKS, MOUTH_END, PLUG_THICKNESS, PROPOSED_NOTE,
  SAW, SEE_VOICE, TRACK_LENGTH, asProposed, distanceWords, holeMark, listAbout, longer, notEntered, slackWords, trackWords } from './words.js';

/** @typedef {import('./sheet.js').Part} Part */
/** @typedef {import('./facts.js').Facts} Facts */

const ROW_MM = 8.4;
const LOW_MM = 6.9;  // of a row without a note of its own
/** Left edges of the columns [mm]. */
const AT = { mark: 0, datum: 58, centre: 88, bit: 116, slack: 143, note: 163 };

/**
 * How far a mark may be off before its own note alone is off by the cents allowed [mm].
 * @param {Note | undefined} note @param {number} tolerance @param {boolean} foot
 * @returns {number | null}
 */
export function slack(note, tolerance, foot) {
  const each = foot ? note?.cents_per_mm_foot : note?.cents_per_mm;
  return typeof each === 'number' && Math.abs(each) > 0.01 ? tolerance / Math.abs(each) : null;
}

/** @param {Facts} facts @returns {{mark: string, at_mm: number, bit: string, note?: Note,
 *   foot?: boolean}[]} */
export function rowsOf(facts) {
  const { flute } = facts;
  const air = flute.chamber?.air_hole_mm;
  const { sound_hole: hole, track } = flute;
  return marksOf(flute, facts.next).flatMap(({ what, at_mm, number, of }) => {
    if (what === 'flat') return [];
    if (what === 'hole') {
      const own = flute.finger_holes[(number ?? 1) - 1];
      const between = facts.between(own);
      return [{ mark: holeMark(number), at_mm, bit: `${facts.bit(own)}${between === '' ? '' : ` (${between})`}`,
        note: noteOf(number ?? 0, flute.notes) }];
    }
    if (what === 'foot') {
      return [{ mark: FOOT_MARK, at_mm, bit: SAW, note: lowestOf(flute.notes), foot: true }];
    }
    const bit = what === 'air hole' && air !== undefined ? `⌀ ${facts.both(air)}`
      : what === 'track' && track?.width_mm !== undefined && track.depth_mm !== undefined
        ? trackWords(facts.size(track.width_mm), facts.thin(track.depth_mm)).replace(', ', ' · ')
      : what === 'centre' ? `${facts.size(hole.length_mm)} × ${facts.one(hole.width_mm)}`
        : what === 'saw' ? longer(facts.one(sawFirst(flute, facts.next))) : '';
    return [{ mark: facts.proposed(of ?? []) ? asProposed(MARKS[what]) : MARKS[what], at_mm, bit }];
  }).sort((a, b) => a.at_mm - b.at_mm);
}

/** @param {Facts} facts @returns {import('./sheet.js').Sheet[]} */
export function listSheets(facts) {
  const { flute, name, about, imprint, shift, datumWords } = facts;
  const tolerance = flute.song.tolerance_cents ?? 10;
  const title = LIST_TITLE;
  const rows = rowsOf(facts);
  const centred = facts.datum === 'centre';
  /** @type {Part[]} */
  const parts = [
    ...frame({ title, name, about: listAbout(about, tolerance), imprint, inches: facts.inches }, 1, 1),
    caps(LIST_HEADS.mark, AT.mark, 22), caps(LIST_HEADS.datum, AT.datum, 22),
    caps(centred ? '' : LIST_HEADS.centre, AT.centre, 22), caps(LIST_HEADS.bit, AT.bit, 22),
    caps(LIST_HEADS.slack, AT.slack, 22), caps(LIST_HEADS.note, AT.note, 22),
    line(0, 24, 176, 24, 'fine')];
  let y = 24;
  for (const { mark, at_mm, bit, note, foot = false } of rows) {
    const strong = note !== undefined;
    y += strong ? ROW_MM : LOW_MM;
    const may = slack(note, tolerance, foot);
    const sure = note === undefined ? '' : band(facts.sigma(note.open));
    const [above, below] = [y - 4.2, y - 1.2];
    parts.push(text(mark, AT.mark, y - 2.4, strong ? 3.2 : 2.8, { bold: strong }),
      ...figure(facts, at_mm + shift, AT.datum, above, below, strong),
      ...(centred ? [] : figure(facts, at_mm - flute.sound_hole.length_mm / 2, AT.centre, above, below,
        false)),
      ...bit.split(' · ').map((words, i) => text(words, AT.bit, i === 0 ? above : below, 2.5)),
      text(may === null ? '' : `± ${facts.one(may)}`, AT.slack, above, 2.5),
      text(named(note), AT.note, above, 3, { bold: true }), text(sure, AT.note, below, 2.1),
      line(0, y, 176, y, 'hair'));
  }
  y += 7;
  const notes = [distanceWords(datumWords, centred), slackWords(tolerance),
    ...(facts.proposals.size > 0 ? [`${PROPOSED_NOTE}: ${SEE_VOICE}`] : []), ...misfitWords(facts), ...blanks(facts)];
  for (const note of notes) {
    for (const words of wrapped(note, 2.6, 172)) {
      parts.push(text(words, 0, y, 2.6));
      y += 3.7;
    }
    y += 1;
  }
  const care = cautions(flute.tube.material ?? '').slice(0, 2).flatMap(({ lines }) => lines);
  if (y < 222) parts.push(caps(CARE, 0, y + 2));
  y += 6;
  for (const words of care) {
    if (y > 240) break;
    parts.push(circle(1, y - 0.8, 0.4, 'fine', true), text(words, 3, y, 2.5));
    y += 3.7;
  }
  return [{ label: title, parts: parts.filter((part) => part.is !== 'text' || part.text !== '') }];
}

/** @param {Facts} facts @param {number} at @param {number} x @param {number} above
 * @param {number} below @param {boolean} strong @returns {Part[]} */
function figure({ mm, inch, inches }, at, x, above, below, strong) {
  const [first, second] = inches ? [inch(at), `${mm(at)} mm`] : [`${mm(at)} mm`, inch(at)];
  return [text(first, x, above, strong ? 3.2 : 2.8, { bold: strong }), text(second, x, below, 2.2)];
}

/** @param {Facts} facts */
export const misfitWords = (facts) => misfits(facts.flute).map(({ path, needs_mm: needs, has_mm: has }) =>
  doesNotFit(path, facts.one(needs), facts.one(has)));

/** What nobody has told the page, to be filled in by hand. @param {Facts} facts */
function blanks({ flute: { tube, track, chamber, plug } }) {
  const unknown = [
    tube.above_mm === undefined && MOUTH_END, plug?.thickness_mm === undefined && PLUG_THICKNESS,
    chamber?.length_mm === undefined && CHAMBER, chamber?.air_hole_mm === undefined && AIR_HOLE,
    track?.length_mm === undefined && TRACK_LENGTH,
  ].filter((what) => what !== false);
  return unknown.length === 0 ? [] : [notEntered(unknown)];
}

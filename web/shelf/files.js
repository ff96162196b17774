// web/shelf/files.js: flutes as files: one, or the whole shelf; and back, always beside what is there.

import { isDocument, isObject, parsed } from '../state/keep.js';
import { work } from '../state/keeper.js';
import { isMarks, keptMarks, marksOf as ofAnswer, withPlan } from '../state/plan.js';
import { add, shelfOf } from './flutes.js';
import { fileName } from './names.js';
import { NO_FLUTE, NO_FLUTES, NO_RECKONING, NO_SHELF, codeWords, nameOf, onlySome, outOfFile, tooLargeFlute,
  tooLargeShelf } from './words.js';

const SHELF = 'canewright-shelf/1';
export const MOST_FLUTE_BYTES = 262144;
export const MOST_SHELF_BYTES = 4194304;
const DEEPEST = 12;  // a document has six levels

/** Offers a text as a file. @param {string} name @param {string} text */
export function download(name, text) {
  const address = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60000);
}

/** @typedef {Pick<Kept, 'doc' | 'good' | 'typed' | 'aside'> & {marks?: Marks | null}} Marked */

/** One flute: its document, as the command reads it too; what was typed and could not be read, the last
 * document with an answer, and the plan of a build lie under `x`. How it was begun is no matter of whom it is given to.
 * @param {Marked} kept */
export function fluteText({ doc: bare, good, typed, aside: { begun: _, ...aside }, marks }) {
  const doc = marks ? withPlan(bare, marks) : bare;
  const whole = JSON.stringify(bare) === JSON.stringify(good) && Object.keys(typed).length === 0
    && Object.keys(aside).length === 0;
  return `${JSON.stringify(whole ? doc
    : { ...doc, x: { ...(isObject(doc.x) ? doc.x : {}), good, typed, aside } }, null, 2)}\n`;
}

/** @param {State | Marked} kept */
export const downloadFlute = (kept) => download(`${fileName(nameOf(kept.doc))}.json`,
  fluteText('answer' in kept ? { ...kept, marks: keptMarks(kept) } : kept));

/** The whole shelf. @param {Marked[]} kept */
export const shelfText = (kept) => `${JSON.stringify({ format: SHELF, made: new Date().toISOString(),
  flutes: kept.map(({ doc, good, typed, aside, marks }) => ({ doc, good, typed, aside,
    ...(marks && doc.log?.length ? { marks } : {}) })) }, null, 1)}\n`;

/** A copy made of nothing but plain lists and objects, without keys that mean something to the
 * language. Throws where it is too deep. @param {any} value @param {number} [depth] @returns {any} */
export function fresh(value, depth = 0) {
  if (depth > DEEPEST) throw new Error('too deep');
  if (Array.isArray(value)) return value.map((item) => fresh(item, depth + 1));
  if (!isObject(value)) return value;
  return Object.fromEntries(Object.entries(value)
    .filter(([key]) => !['__proto__', 'constructor', 'prototype'].includes(key))
    .map(([key, item]) => [key, fresh(item, depth + 1)]));
}

/** Of a whole shelf each flute stays as it was; one that came alone may be a friend's.
 * @param {any} item one flute of a file @returns {(Kept & {marks: Marks | null}) | null} */
function keptOf(item) {
  const { x, ...doc } = item.doc === undefined ? item : { ...item.doc, x: item };
  const extra = isObject(x) ? x : {};
  const own = item.doc === undefined && isObject(x)
    ? Object.fromEntries(Object.entries(x).filter(([key]) => !['good', 'typed', 'aside', 'plan'].includes(key))) : {};
  const whole = { ...doc, ...(Object.keys(own).length > 0 ? { x: own } : {}) };
  const kept = parsed(JSON.stringify({ doc: whole, good: isDocument(extra.good) ? extra.good : whole,
    typed: extra.typed, aside: item.doc === undefined ? { ...extra.aside, begun: 'file' } : extra.aside }));
  const marks = item.doc === undefined ? extra.plan : item.marks;
  return kept && { ...kept, marks: isMarks(marks) ? marks : null };
}

/** Faults of an unfinished flute, which the page shows beside the field; others mean that this is no
 * flute's document. */
const UNFINISHED = ['too_small', 'too_large', 'out_of_order', 'overlap', 'missing_fingering', 'needs',
  'missing', 'not_a_note', 'bad_hole_number'];

/**
 * Flutes from a file, each judged by the core, all or those that are right.
 * @param {Desk} desk @param {string} text
 * @returns {Promise<{kept: {kept: Kept, marks: Marks | null}[], refused: number, why: string}>}
 */
export async function read(desk, text) {
  /** @type {any} */
  let file = null;
  try {
    file = fresh(JSON.parse(text));
  } catch { /* said below */ }
  const shelf = file?.format === SHELF;
  const items = shelf ? file.flutes : [file];
  if (!Array.isArray(items) || !isObject(file)) {
    return { kept: [], refused: 1, why: NO_SHELF };
  }
  const workshop = await desk.engine.workshop();
  const found = { kept: /** @type {{kept: Kept, marks: Marks | null}[]} */ ([]), refused: 0, why: '' };
  for (const item of items) {
    const kept = isObject(item) && JSON.stringify(item).length <= MOST_FLUTE_BYTES ? keptOf(item) : null;
    if (kept === null) {
      found.refused += 1;
      found.why = NO_FLUTE;
      continue;
    }
    let reply = await workshop.layout(kept.doc);
    const bad = reply.violations?.find((v) => !UNFINISHED.includes(v.code));
    if (bad === undefined && !reply.answer) reply = await workshop.layout(kept.good);
    if (bad !== undefined || reply.fault !== undefined
      || reply.violations?.some((v) => !UNFINISHED.includes(v.code))) {
      found.refused += 1;
      found.why = bad === undefined ? NO_RECKONING : codeWords(bad);
      continue;
    }
    // The plan of a build stays that of the version that made it, until the maker has chosen.
    const own = kept.doc.log?.length && kept.marks !== null
      ? { ...kept.marks, lowest: marksOf(reply.answer)?.lowest } : null;
    found.kept.push({ kept, marks: own ?? marksOf(reply.answer) });
  }
  return found;
}

/** @param {Answer | undefined} answer @returns {Marks | null} */
export const marksOf = (answer) => (answer === undefined ? null : ofAnswer(answer));

/** What a flute is, however it came. @param {Kept} kept */
const whole = ({ doc, typed, aside: { begun: _, ...aside } }) => work({ doc, typed, aside });

/** Puts the flutes of a file on the shelf; in words what came of it, and the first of them, one that was there
 * already only where none is new.
 * @param {Desk} desk @param {File} file @returns {Promise<{words: string, first?: string}>} */
export async function bringIn(desk, file) {
  if (file.size > MOST_SHELF_BYTES) return { words: tooLargeShelf(file.name) };
  const text = await file.text();
  if (file.size > MOST_FLUTE_BYTES && !text.slice(0, 200).includes(SHELF)) {
    return { words: tooLargeFlute(file.name) };
  }
  const { kept, refused, why } = await read(desk, text);
  const there = new Map(shelfOf().map((flute) => [whole(flute.kept), flute.id]));
  /** @type {string[]} */
  const added = [];
  /** @type {string[]} */
  const same = [];
  try {
    for (const flute of kept) {
      const mine = whole(flute.kept);
      const old = there.get(mine);
      if (old !== undefined) same.push(old);
      else {
        const id = add(flute.kept, flute.marks);
        there.set(mine, id);
        added.push(id);
      }
    }
  } catch {
    return { words: onlySome(added.length, kept.length), first: added[0] };
  }
  return { words: added.length + same.length + refused === 0 ? NO_FLUTES : outOfFile(added.length, same.length, refused, why),
    first: added[0] ?? same[0] };
}

// web/shelf/words.js: what the shelf says: a flute's key and state, links, file names.

import { about } from '../text/marks.js';
import { countWord } from '../text/numbers.js';

export const NAME_BYTES = 80;  // of UTF-8, the document's limit

/** A name within a sentence that is not marked up: its writing direction stays its own.
 * @param {string} text */
export const isolated = (text) => `\u2068${text}\u2069`;

/** @param {Pick<Doc, 'name'>} doc */
export const nameOf = (doc) => {
  const name = (doc.name ?? '').trim();
  return name === '' ? 'A flute without a name' : name;
};

/** "G4 minor pentatonic, five holes". @param {Doc} doc @param {Marks | null} marks */
export function keyWords(doc, marks) {
  const notes = [{ open: [], name: marks?.lowest ?? null }];
  const words = about(/** @type {any} */ ({ answer: { song: doc.song, notes } }));
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** How far the build has come. @param {Doc} doc */
export function buildWords(doc) {
  const log = doc.log ?? [];
  const cut = new Set(log.flatMap((e) => e.hole?.number ?? [])).size;
  const readings = log.filter((e) => e.read !== undefined).length;
  const holes = doc.song.holes;
  if (log.length === 0) return 'planned';
  const made = cut === 0 ? 'begun, no hole yet' : cut >= holes ? 'all holes cut'
    : `${countWord(cut)} of ${countWord(holes)} holes cut`;
  return readings === 0 ? made : `${made}, ${readings} reading${readings === 1 ? '' : 's'}`;
}

/** Whether it can teach the next one. @param {Doc} doc */
export const isRead = (doc) => (doc.log ?? []).some((e) => e.read !== undefined);

/** @param {number} at [ms] */
export const dateWords = (at) => (at > 0 ? new Date(at).toLocaleDateString(undefined,
  { day: 'numeric', month: 'short', year: 'numeric' }) : '');

/** @type {Record<string, string>} */
const LINKS = {
  not_a_link: 'This is not a link to a flute.',
  link_cut_off: 'The end of this link is missing: a chat or mail program has cut it. Ask for it again, '
    + 'best as a QR code or a file.',
  link_damaged: 'A letter of this link has changed on the way. Ask for it again.',
  link_newer: 'This link was made by a newer version of this page. Load the page anew, then open the '
    + 'link again.',
  link_too_long: 'This link is longer than any that this page makes.',
};

/** Why a link was not opened. @param {Reply<unknown>} reply */
export function linkSentence({ violations, fault }) {
  const code = violations?.[0]?.code ?? '';
  if (Object.hasOwn(LINKS, code)) return LINKS[code];
  if (violations === undefined) return `The link could not be read, which is our fault. (${fault})`;
  return `The link is whole, but a figure in it cannot be (${violations[0]?.path}: ${
    code.replaceAll('_', ' ')}).`;
}

/** Why no link was made. @param {Reply<unknown>} reply @param {boolean} log is in it */
export function noLinkSentence({ violations, fault }, log) {
  const code = violations?.[0]?.code;
  if (code === 'link_too_long') {
    return log ? 'With its log this flute is too long for a link. Leave the log out, or send the file.'
      : 'This flute is too long for a link. Send the file.';
  }
  return `No link could be made (${code?.replaceAll('_', ' ') ?? fault}). Send the file.`;
}

/** Bytes of UTF-8. @param {string} text */
const bytes = (text) => new TextEncoder().encode(text).length;

/** As much of a name as a document takes, whole characters only. @param {string} name */
export function fitted(name) {
  let fits = '';
  for (const character of name.replace(/\s+/g, ' ').trim()) {
    if (bytes(fits + character) > NAME_BYTES) break;
    fits += character;
  }
  return fits.trim();
}

/** @param {string} name of the flute that was copied */
export function copyName(name) {
  const ending = ' (copy)';
  const room = NAME_BYTES - bytes(ending);
  let fits = '';
  for (const character of name.trim() || 'Flute') {
    if (bytes(fits + character) > room) break;
    fits += character;
  }
  return fits + ending;
}

const NAME_UNITS = 60;

/** A name that every file system takes: no controls, marks of direction, half characters or
 * separators, and no more than two marks over a letter. @param {string} name */
export function fileName(name) {
  const clean = name.replace(/[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g, '-')
    .replace(/[\p{Cc}\p{Cf}\p{Co}\p{Cn}\p{Zl}\p{Zp}]/gu, '').replace(/[\\/:*?"<>|#%&{}$!'`@+=^~;,]/g, '-')
    .replace(/(\p{M}{2})\p{M}+/gu, '$1').replace(/\s+/g, ' ').replace(/-{2,}/g, '-');
  let short = '';
  for (const character of clean) {
    if (short.length + character.length > NAME_UNITS) break;
    short += character;
  }
  const bare = short.replace(/^[\s.\-\p{M}]+|[\s.-]+$/gu, '');
  return bare === '' || /^(con|prn|aux|nul|com\d|lpt\d)$/i.test(bare) ? `flute ${bare}`.trim() : bare;
}

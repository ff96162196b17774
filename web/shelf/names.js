// web/shelf/names.js: names of flutes and of files, cut to what a document and any file system takes.

import { COPY_ENDING, COPY_STEM, FILE_STEM } from './words.js';

const NAME_BYTES = 80;  // of UTF-8, the document's limit

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
  const room = NAME_BYTES - bytes(COPY_ENDING);
  let fits = '';
  for (const character of name.trim() || COPY_STEM) {
    if (bytes(fits + character) > room) break;
    fits += character;
  }
  return fits + COPY_ENDING;
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
  return bare === '' || /^(con|prn|aux|nul|com\d|lpt\d)$/i.test(bare) ? `${FILE_STEM} ${bare}`.trim() : bare;
}

// web/paper/names.js: names as the maker typed them, fit for paper, PDF and file names.

import { wellFormed } from '../engine/start_core.js';
import { FILE_STEM } from './words.js';

// Controls, and signs that turn the order of what follows or have no width; but for the two joiners
// that some scripts are spelled with.
const UNSEEN = /(?![\u200C\u200D])[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu;
const MARKS = /(\p{M}{2})\p{M}+/gu;  // letters of living scripts need two at most; more is a tower

/** One line of text without what could disturb its neighbours. @param {string} name */
export function plain(name) {
  return wellFormed(name).normalize('NFC').replace(/[\t\n\r]+/g, ' ').replace(UNSEEN, '')
    .replace(MARKS, '$1').replace(/\s+/g, ' ').trim();
}

// Windows-1252 above Latin-1, as in the PDF standard's WinAnsiEncoding (ISO 32000-1, annex D).
const MORE = '€‚ƒ„…†‡ˆ‰Š‹ŒŽ‘’“”•–—˜™š›œžŸ';
// Signs of ours that the fonts have not, by those they have.
const INSTEAD = /** @type {Record<string, string>} */ ({ '″': '"', '⌀': 'Ø', '−': '–', '♯': '#',
  '♭': 'b', '♮': '' });

/** Our own signs by such as the PDF's fonts have. @param {string} text */
export const forPdf = (text) => text.replace(/[″⌀−♯♭♮]/g, (sign) => INSTEAD[sign]);

/** Whether the PDF's fonts have all of it. @param {string} text */
export const inPdfFonts = (text) => [...forPdf(text)].every((sign) => {
  const code = sign.codePointAt(0) ?? 0;
  return (code >= 32 && code < 127) || (code >= 160 && code < 256) || MORE.includes(sign);
});

/** A file name that no system minds. @param {string} name @param {string} what */
export function fileName(name, what) {
  const stem = [...plain(name).replace(/[<>:"/\\|?*'`$%&;()[\]{}#~^]/g, ' ').replace(/\s+/g, ' ')]
    .slice(0, 40).join('').replace(/^[\s.-]+|[\s.]+$/g, '');
  return `${stem === '' ? FILE_STEM : stem}, ${what}`;
}

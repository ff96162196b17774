// web/single/unpack.js: for canewright.html: a part that is kept in the page compressed (Zstandard, RFC
// 8878) in an element that is never run, which makes the file a third as long. Browsers unpack gzip by
// themselves, which is 80 kB longer.
//
// Five characters are four bytes, as digits to the base 85: a quarter more, where base64 is a third
// more. The digits are the characters from ( to ~ without < and \, so that none means anything to
// HTML. The first character says how many bytes the last four have too many.

import { decompress } from 'fzstd';

/** @param {string} text @returns {Uint8Array<ArrayBuffer>} */
function bytesOf(text) {
  const fours = (text.length - 1) / 5;
  const bytes = new Uint8Array(4 * fours);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < fours; i += 1) {
    let value = 0;
    for (let k = 5 * i + 1; k <= 5 * i + 5; k += 1) {
      const code = text.charCodeAt(k);
      value = 85 * value + code - 40 - Number(code > 60) - Number(code > 92);
    }
    view.setUint32(4 * i, value);
  }
  return bytes.subarray(0, bytes.length - Number(text[0]));
}

/** @param {string} id @returns {Promise<ArrayBuffer>} */
export async function unpacked(id) {
  const plain = decompress(bytesOf(document.getElementById(id)?.textContent ?? '0'));
  return /** @type {ArrayBuffer} */ (plain.buffer).slice(plain.byteOffset, plain.byteOffset + plain.byteLength);
}

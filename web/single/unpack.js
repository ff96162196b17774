// web/single/unpack.js: for canewright.html: a part that is kept in the page compressed (LZMA, as xz writes
// its older form) in an element that is never run, which makes the file a third as long. Browsers unpack gzip
// by themselves, which is 110 kB longer; Zstandard is 35 kB longer.
//
// A character is seven bits: a sixth more than the bytes, where base64 is a third more and digits to the
// base 85 a quarter. Three of the 128 mean something to a page even in such an element (nothing, the
// return, <): these stand as the characters from ! on in Latin's next block, two bytes each in the file.
// The first character says how many bits the last one has too many.

// By their files: the library's own entry would bring what packs, too. It types that entry alone.
// @ts-expect-error
import { Decoder } from '../../node_modules/lzma1/lib/decoder.js';
// @ts-expect-error
import { InputBuffer, OutputBuffer } from '../../node_modules/lzma1/lib/streams.js';

const MEANING = [0, 13, 60];
const FROM = 0xa1;

/** @param {string} text @returns {Uint8Array<ArrayBuffer>} */
function bytesOf(text) {
  const bytes = new Uint8Array(Math.floor((7 * (text.length - 1) - Number(text[0])) / 8));
  let held = 0;
  let bits = 0;
  let at = 0;
  for (let k = 1; k < text.length; k += 1) {
    const code = text.charCodeAt(k);
    held = (held << 7 | (code < 128 ? code : MEANING[code - FROM])) & 0x3fff;
    bits += 7;
    if (bits < 8) continue;
    bits -= 8;
    if (at < bytes.length) bytes[at] = held >> bits;
    at += 1;
  }
  return bytes;
}

/** @param {string} id @returns {Promise<ArrayBuffer>} */
export async function unpacked(id) {
  const packed = bytesOf(document.getElementById(id)?.textContent ?? '0');
  const plain = new OutputBuffer(4 * packed.length);
  new Decoder().decompress(new InputBuffer(packed), plain);
  return /** @type {ArrayBuffer} */ (plain.toArray().slice().buffer);
}

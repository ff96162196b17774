// web/shelf/own/recount.js: the sheet's entries when the flute has another number of holes: what was typed of a hole
// stays that hole's, of the foot the foot's. Reckons, draws nothing.

const ASIDE = 'aside ';

/** @param {Record<string, string>} texts by line: at1, wide1, hz1, ...; the foot's row is the one after the last hole
 * @param {number} from @param {number} to @returns {Record<string, string>} */
export function recounted(texts, from, to) {
  /** @type {Record<string, string>} */
  const next = { ...texts, holes: String(to) };
  /** @param {string} key @param {string} as */
  const move = (key, as) => {
    const text = next[key];
    delete next[key];
    if (text !== undefined) next[as] = text;
  };
  for (const stem of ['at', 'hz']) move(`${stem}${from + 1}`, `${ASIDE}${stem} foot`);
  for (const stem of ['at', 'wide', 'hz']) {
    for (let row = to + 1; row <= from; row += 1) move(`${stem}${row}`, `${ASIDE}${stem}${row}`);
    for (let row = from + 1; row <= to; row += 1) move(`${ASIDE}${stem}${row}`, `${stem}${row}`);
  }
  for (const stem of ['at', 'hz']) move(`${ASIDE}${stem} foot`, `${stem}${to + 1}`);
  return next;
}

// web/state/keep.js: keeps the document and the texts as typed in this browser, so that nothing
// typed is lost by a reload or a dead battery.

const KEY = 'canewright/1';
const LARGEST = 262144;  // characters; more than this we never wrote

/**
 * What was kept, or null. Shape is checked here, values by the core.
 * @returns {Kept | null}
 */
export function recall() {
  try {
    const text = localStorage.getItem(KEY);
    if (text === null || text.length > LARGEST) return null;
    const kept = JSON.parse(text);
    if (!isObject(kept) || !isDocument(kept.doc) || !isDocument(kept.good)) return null;
    const { doc, good, station } = kept;
    return {
      doc, good,
      typed: typedTexts(kept.typed),
      aside: isObject(kept.aside) ? kept.aside : {},
      station: typeof station === 'string' ? station : '',
    };
  } catch {
    return null;
  }
}

/** @param {Kept} kept @returns {boolean} false: this browser keeps nothing */
export function keep(kept) {
  try {
    const { doc, good, typed, aside, station } = kept;
    localStorage.setItem(KEY, JSON.stringify({ doc, good, typed, aside, station }));
    return true;
  } catch {
    return false;
  }
}

/** @param {unknown} value @returns {value is Record<string, any>} */
function isObject(value) {
  return value !== null && typeof value === 'object' && !Array.isArray(value);
}

/** The parts without which the page has nothing to show.
 * @param {any} value @returns {value is Doc} */
function isDocument(value) {
  return isObject(value) && isObject(value.tube) && isObject(value.sound_hole)
    && isObject(value.song) && Array.isArray(value.tube.bore) && value.tube.bore.length > 0
    && value.tube.bore.every(isObject);
}

/** @param {unknown} value @returns {Record<string, Typed>} */
function typedTexts(value) {
  if (!isObject(value)) return {};
  return Object.fromEntries(Object.entries(value).filter(([, t]) =>
    isObject(t) && typeof t.text === 'string' && typeof t.unit === 'string'
    && (t.problem === null || (isObject(t.problem) && typeof t.problem.code === 'string'))));
}

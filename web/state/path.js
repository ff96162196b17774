// web/state/path.js: read and change one value in a document by a path such as
// "tube.bore[0].diameter_mm". Documents are never changed in place.

/** @param {string} path @returns {(string | number)[]} */
export function steps(path) {
  return path.split(/[.[\]]+/).filter((s) => s !== '')
    .map((s) => (/^\d+$/.test(s) ? Number(s) : s));
}

/** @param {any} root @param {string} path @returns {any} undefined where nothing is */
export function valueAt(root, path) {
  let here = root;
  for (const step of steps(path)) {
    if (here === null || typeof here !== 'object' || !Object.hasOwn(here, step)) return undefined;
    here = here[step];
  }
  return here;
}

/**
 * A copy with the value at the path replaced; undefined takes the key out. Branches that were
 * absent are made; empty ones that a removal leaves behind go too, but for a block: one of which nothing
 * is measured stands there all the same.
 * @template T
 * @param {T} root @param {string} path @param {unknown} value @returns {T}
 */
export function withValue(root, path, value) {
  return put(root, steps(path), value);
}

/** @param {any} here @param {(string | number)[]} way @param {unknown} value @returns {any} */
function put(here, way, value) {
  const [step, ...rest] = way;
  const index = typeof step === 'number';
  const copy = Array.isArray(here) ? [...here]
    : here !== null && typeof here === 'object' ? { ...here } : index ? [] : {};
  const next = rest.length === 0 ? value : put(copy[step], rest, value);
  const emptied = rest.length > 0 && value === undefined && Object.keys(next).length === 0
    && !(step === 'block' && copy[step]);
  if (next !== undefined && !emptied) copy[step] = next;
  else if (index) copy.splice(step, 1);
  else delete copy[step];
  return copy;
}

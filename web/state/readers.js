// web/state/readers.js: what was typed -> a value for the document. Every number goes through the
// core's one reader; nothing here knows what is allowed.

/** @param {Engine} engine @param {{optional?: boolean}} [how] @returns {Reader} */
export function lengthReader(engine, how = {}) {
  return (text, unit) => {
    if (how.optional && text.trim() === '') return { value: undefined };
    const read = engine.readLength(text, unit);
    return 'mm' in read ? { value: read.mm } : { problem: read.violations[0] };
  };
}

/** A number without a length's unit: degrees, per cent, hertz, cents.
 * @param {Engine} engine @param {{optional?: boolean}} [how] @returns {Reader} */
export function numberReader(engine, how = {}) {
  return (text) => {
    if (how.optional && text.trim() === '') return { value: undefined };
    const read = /[a-z"'′″]/i.test(text) ? null : engine.readLength(text, 'mm');
    return read !== null && 'mm' in read ? { value: read.mm }
      : { problem: { code: 'not_a_number', path: '', value: text } };
  };
}

/** How notes are read and said: as the core does, until text/naming.js knows the maker's way.
 * @type {{read: Reader, say: (name: string) => string}} */
export const notes = { read: (text) => ({ value: text.trim() }), say: (name) => name };

/** @type {Reader} */
export const textReader = (text) => ({ value: text === '' ? undefined : text });

const PLACES = 1e9;  // what is left of a binary sum that is no whole step: 0.1 + 0.2

/** A step on from a value, wherever that lies: a step back leads to the same value again.
 * @param {number} value @param {number} step */
export function stepped(value, step) {
  const next = Math.round((value + step) * PLACES) / PLACES;
  // A value with more places than that keeps them, as well as it can.
  return Math.round((next - step) * PLACES) / PLACES === value ? next : value + step;
}

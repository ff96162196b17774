// web/state/bits.js: a set of bits as it is typed, and one to begin with. Loaded when somebody names bits.

/** Items stand apart by semicolon, line, or comma and space: a bare comma may be a decimal one, but not after a
 * fraction or a unit, nor before a fraction. @param {string} text */
function items(text) {
  return text.replace(/(\/\d+|[^\s\d,;]),/g, '$1;').replace(/,(?=(\d+[ -])?\d+\/)/g, ';').split(/;|\n|,\s+/).map((item) => item.trim()).filter((item) => item !== '');
}

/** A drill set such as "4, 5, 5.5, 7/64 in"; bits that are there already by their names too ("#12", "6 mm rod").
 * @param {Engine} engine @param {() => Bit[]} [owned] @returns {Reader} */
export function bitsReader(engine, owned = () => []) {
  /** @type {Map<string, Bit>} */
  const named = new Map();
  return (text, unit) => {
    for (const bit of owned()) if (bit.label !== undefined) named.set(bit.label, bit);
    /** @type {Bit[]} */
    const bits = [];
    for (const item of items(text)) {
      const known = named.get(item);
      if (known !== undefined) {
        bits.push(known);
        continue;
      }
      const read = engine.readLength(item, unit);
      if (!('mm' in read)) return { problem: { code: 'not_a_bit', path: '', value: item } };
      // Nobody drills a finger hole of 2 inches: 2 mm is meant, or the half of a fraction.
      if (unit === 'inch' && /^\d+$/.test(item)) return { problem: { code: 'whole_inches', path: '', value: item } };
      const inch = /in|["″]/i.test(item) ? item : unit === 'inch' && !/mm/i.test(item)
        ? `${item} in` : null;
      bits.push(inch === null ? { mm: read.mm } : { mm: read.mm, label: inch });
    }
    return bits.length > 0 ? { value: bits } : { problem: { code: 'no_bits', path: '' } };
  };
}

/** A set to begin with, to be replaced by the maker's own: around the diameters of the marks.
 * @param {Answer} answer @returns {Bit[]} */
export function drilled(answer) {
  const all = answer.finger_holes.map((hole) => hole.diameter_mm);
  const step = Math.max(...all) < 5 ? 0.5 : 1;
  const first = Math.max(1, Math.round(Math.min(...all) / step) - 2);
  const last = Math.round(Math.max(...all) / step) + 2;
  return Array.from({ length: last - first + 1 }, (_, i) => ({ mm: (first + i) * step }));
}

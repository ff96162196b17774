// tests/e2e/any_documents.mjs -- flutes as different as makers' are, from a seed: names short and long, four to six
// holes, mm and inches, tubes of 9 to 26 mm, large errors, heard and unheard.

/** Numbers from 0 up to 1 (mulberry32, public domain). @param {number} seed */
function numbers(seed) {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = Math.imul(a ^ (a >>> 15), a | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const NAMES = ['A', 'Heron reach, fourth cane', 'Rohr', 'The long one from the far bank of the river, second cut, after the flood',
  'Schilfrohrflötenversuchsanordnung', '竹笛 第三號', 'Ò'];
const SCALES = ['minor pentatonic', 'natural minor', 'major', 'major pentatonic'];
const LETTERS = ['C', 'C#', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'G#', 'A', 'Bb', 'B'];

/** @param {number} seed @param {number} count @returns {any[]} documents, each of another name */
export function documents(seed, count) {
  const next = numbers(seed);
  /** @template T @param {T[]} of @returns {T} */
  const one = (of) => of[Math.floor(next() * of.length)];
  /** @param {number} a @param {number} b @param {number} [digits] */
  const from = (a, b, digits = 1) => Number((a + (b - a) * next()).toFixed(digits));
  return Array.from({ length: count }, (_, i) => {
    const bore = from(9, 26);
    const end = Math.round(bore * from(19, 25));
    const holes = one([4, 5, 6]);
    // What a whole tube without holes gives, by the speed of sound alone, and a few semitones up: room for a saw.
    const hz = 345 / 2 / (end / 1000 + bore * 0.0015) * 2 ** (from(1, 4) / 12);
    const key = Math.round(69 + 12 * Math.log2(hz / 440));
    const heard = next() < 0.35;
    return {
      format: 'canewright/1', name: `${one(NAMES)} ${i}`,
      show: one([undefined, { unit: 'mm', fraction: 32, datum: 'splitting edge' }, { unit: 'inch', fraction: 64, datum: 'centre' },
        { unit: 'inch', fraction: 16, datum: 'upstream edge' }]),
      air: { room_c: from(12, 31), humidity_percent: from(20, 90, 0) },
      tube: { material: one(['bamboo', 'cane', 'pipe', undefined]), end_mm: end, above_mm: Math.round(bore * 8),
        bore: [{ at_mm: 0, diameter_mm: bore }, ...(next() < 0.5 ? [] : [{ at_mm: end - 20, diameter_mm: from(bore * 0.94, bore) }])],
        wall_mm: from(bore * 0.08, bore * 0.2) },
      plug: { offset_mm: from(0, 2), ...(next() < 0.5 ? {} : { thickness_mm: 9 }) },
      sound_hole: { length_mm: from(bore * 0.22, bore * 0.32), width_mm: from(bore * 0.4, bore * 0.6) },
      ...(next() < 0.6 ? {} : { block: { height_mm: from(2, 6) } }),
      song: { lowest: next() < 0.2 ? 'free' : `${LETTERS[key % 12]}${Math.floor(key / 12) - 1}`, scale: one(SCALES), holes,
        ...(next() < 0.3 ? { tolerance_cents: 3 } : {}) },
      shop: { ...(next() < 0.5 ? {} : { ruler_mm: 2, bore_mm: 1, wall_mm: 0.5, sound_hole_mm: 0.5, bit_mm: 0.4, temperature_c: 8 }),
        ...(next() < 0.3 ? { bits: [3, 4, 4.5, 5, 6, 7, 8.5].map((mm) => ({ mm })) } : {}),
        ...(next() < 0.4 ? { spacing_mm: { min: 15 } } : {}) },
      ...(heard ? { log: [{ foot: { at_mm: end - 5 } }, { read: { open: [], hz: Number((hz * 0.93).toFixed(1)), sigma_cents: 5 } },
        { read: { open: [], hz: Number((hz * 0.935).toFixed(1)), sigma_cents: 5 } }] } : {}),
    };
  }).map((doc) => JSON.parse(JSON.stringify(doc)));
}

// tests/web/paper_flutes.mjs -- invented flutes for the tests of what is printed.

/** Own writing of lengths, in place of the core's. */
export const engine = {
  writeLength(mm, unit, fraction) {
    if (unit !== 'inch') return mm.toFixed(1);
    const marks = Math.round(Math.abs(mm) / 25.4 * fraction);
    let [top, bottom] = [marks % fraction, fraction];
    while (top > 0 && top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
    const whole = Math.floor(marks / fraction);
    const part = top === 0 ? '' : `${top}/${bottom}`;
    return `${mm < 0 && marks > 0 ? '-' : ''}${[whole || !part ? whole : '', part].filter((x) => x !== '')
      .join(' ')}″`;
  },
};

const note = (open, name, cents, more = {}) => ({ open, name, target_hz: 400 * 2 ** (cents / 1200),
  hz: 400 * 2 ** (cents / 1200), cents: 0, interval_cents: cents, cents_per_mm: 4.2,
  cents_per_tenth_mm: 1, cents_per_mm_foot: open.length === 0 ? -4 : null, converged: true, ...more });

/** A layout with holes at these places. */
export function flute({ bore = 18.2, wall = 2.9, foot = 388.137, end = 420, above = 150,
  holes = [156.271, 177.083, 226.693, 261.029, 295.617], diameters = [], ...more } = {}) {
  const count = holes.length;
  return {
    format: 'canewright/1', name: 'Alder ford, second cane',
    tube: { bore: [{ at_mm: 0, diameter_mm: bore }], wall_mm: wall, end_mm: end, above_mm: above },
    plug: { offset_mm: 0, thickness_mm: 10 }, sound_hole: { length_mm: 5.5, width_mm: 9, wall_mm: 2.5 },
    track: { depth_mm: 0.9, width_mm: 9, length_mm: 18 }, chamber: { length_mm: 100, air_hole_mm: 10 },
    song: { lowest: 'G4', scale: 'minor pentatonic', holes: count, a4_hz: 440, tolerance_cents: 10 },
    foot_mm: foot,
    finger_holes: holes.map((at_mm, i) => ({ at_mm, diameter_mm: diameters[i] ?? 7 })),
    notes: Array.from({ length: count + 1 }, (_, i) => note(
      Array.from({ length: i }, (_, k) => count - i + 1 + k), `G${4 + i}`, i * 200)),
    binding: [], converged: true, worst_cents: 0, ...more,
  };
}

/** What only the tube's two ends and the sound hole are known of. */
export function bare() {
  const all = flute({ plug: undefined, track: undefined, chamber: undefined,
    sound_hole: { length_mm: 5.5, width_mm: 9 } });
  delete all.tube.above_mm;
  return all;
}

export const LONG = flute({ foot: 702.313, end: 760, above: 180,
  holes: [301.117, 338.9, 388.25, 441.66, 499.031, 560.404] });
export const WIDE = flute({ bore: 60, wall: 6, foot: 610.2, end: 640,
  holes: [250.5, 300.25, 361.125, 420.0625, 480.3], diameters: [14, 14, 15, 15, 16] });
export const THIN = flute({ bore: 7, wall: 1, foot: 190.4, end: 191, above: 60,
  holes: [70.7, 84.3, 100.1, 118.9], diameters: [3, 3, 3.2, 3.5] });
export const ALL = { usual: flute(), bare: bare(), long: LONG, wide: WIDE, thin: THIN };

/** A state as the page has it. */
export const stateOf = (answer, show = { unit: 'mm', fraction: 32, datum: 'centre' }) => ({
  doc: { ...answer, show }, good: { ...answer, show }, answer, sure: null, sureOf: answer, aside: {},
  trial: null });

/** Names that have broken other pages: each must come out as text. */
export const HOSTILE = [
  '<img src=x onerror=alert(1)>', '"><svg/onload=alert(1)>', '</title><script>alert(1)</script>',
  ') Tj ET Q \\ ((( endstream', 'a\\) \\\\', '\u202Egnp.exe\u202C left', '\u2066iso\u2069late\u200B\uFEFF',
  'Z' + '\u0335\u0321\u0322\u0327'.repeat(20) + 'algo', 'lone \uD800 and \uDC00 halves',
  '../../etc\\passwd: *?|', 'CON', '.. .', 'тростник', '\u0000\u0007bell\r\nline', 'é'.repeat(40),
];

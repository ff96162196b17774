// tests/wasm/documents.mjs -- documents to try: the committed ones, and made-up ones by number.
import { readFileSync, readdirSync } from 'node:fs';

const data = new URL('../data/', import.meta.url);

/** The same before there is a plan: no foot, no holes. */
export function unplanned({ foot_mm, finger_holes, ...bare }) {
  return bare;
}

/** After a layout, with two holes made: one drilled where it should be, one with the wrong bit. */
export function partlyMade(document, { foot_mm, finger_holes }) {
  const rounded = (value) => Math.round(value * 10) / 10;
  const holes = finger_holes.map(({ at_mm, diameter_mm }, i) => ({
    at_mm: rounded(at_mm),
    diameter_mm: rounded(diameter_mm),
    ...(i === 1 && { fixed: 'diameter' }),
    ...(i === finger_holes.length - 1 && { fixed: 'at' }),
  }));
  return { ...document, foot_mm, finger_holes: holes };
}

/** [{name, document}] of a folder of tests/data: `repro` are those that were once answered wrongly. */
export function storedDocuments(kept = 'documents') {
  const folder = new URL(`${kept}/`, data);
  return readdirSync(folder).filter((name) => name.endsWith('.json')).sort()
    .map((name) => ({ name, document: JSON.parse(readFileSync(new URL(name, folder), 'utf8')) }));
}

/** Uniform numbers in [0, 1) from a seed: a 32-bit linear congruential generator with the
 *  constants of Numerical Recipes (Press et al., "An even quicker generator", from memory). */
export function numbersFrom(seed) {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

const VARIANTS = ['uniform', 'tapered', 'oval', 'outer', 'bits', 'undercut', 'thinned',
  'ridge', 'foot_plug', 'free', 'own_scale', 'lossless', 'flat', 'hands'];

/**
 * One made-up flute with holes already in it, so that `sound` and `layout` both have work.
 * The variant goes round with the number; sizes are random within what a maker meets.
 */
export function madeUpDocument(number) {
  const next = numbersFrom(number * 7919 + 17);
  for (let i = 0; i < 4; ++i) next(); // the first ones still show the seed's pattern
  const between = (low, high) => low + (high - low) * next();
  const rounded = (value) => Math.round(value * 100) / 100; // what a maker would type, 0.01 mm
  const variant = VARIANTS[number % VARIANTS.length];
  const holes = 4 + (number % 3);
  const bore = rounded(between(8, 22));
  const wall = rounded(between(0.8, Math.min(4, 0.25 * bore)));
  const foot = rounded(bore * between(15, 24));

  const document = {
    format: 'canewright/1',
    name: `made up ${number}, ${variant}`,
    air: { room_c: rounded(between(8, 32)), humidity_percent: Math.round(between(20, 90)) },
    tube: { bore: [{ at_mm: 0, diameter_mm: bore }], wall_mm: wall, end_mm: rounded(1.25 * foot) },
    plug: { offset_mm: rounded(between(0, 1)) },
    sound_hole: { length_mm: rounded(0.28 * bore), width_mm: rounded(0.5 * bore) },
    foot_mm: foot,
    finger_holes: Array.from({ length: holes }, (_, i) => ({
      at_mm: rounded(foot * (0.45 + (0.42 * i) / (holes - 1))),
      diameter_mm: rounded(bore * between(0.3, 0.45)),
    })),
    song: {
      // An open pipe's half wave with about two bores of end correction: near what it can play.
      lowest: { hz: rounded(345000 / (2 * (foot + 2 * bore))) },
      scale: 'minor pentatonic', holes, a4_hz: 440,
    },
    shop: { spacing_mm: { min: rounded(0.9 * bore) } },
  };
  const { tube, song, shop, finger_holes: list } = document;
  const last = tube.bore[0];
  switch (variant) {
    case 'tapered': tube.bore.push({ at_mm: foot, diameter_mm: rounded(0.94 * bore) }); break;
    case 'oval': last.across_mm = rounded(0.95 * bore); break;
    case 'outer': delete tube.wall_mm; tube.outer_mm = rounded(bore + 2 * wall); break;
    case 'bits': shop.bits = [0.26, 0.31, 0.34, 0.41, 0.46, 0.52].map((r) => ({ mm: rounded(r * bore) })); break;
    case 'undercut': for (const hole of list) hole.inner_diameter_mm = rounded(1.2 * hole.diameter_mm); break;
    case 'thinned': document.sound_hole.wall_mm = rounded(0.7 * wall); break;
    case 'ridge': tube.ridge = { at_mm: rounded(0.25 * foot), opening_mm: rounded(0.85 * bore) }; break;
    case 'foot_plug': document.foot_plug = { opening_mm: rounded(0.7 * bore), thickness_mm: 4 }; break;
    case 'free': song.lowest = 'free'; break;
    case 'own_scale': song.scale = { cents: [0, 200, 300, 500, 700, 900, 1000].slice(0, holes + 1) }; break;
    case 'lossless': document.air = { sound_speed_m_s: 345, density_kg_m3: 1.18, lossless: true }; break;
    case 'flat': document.fingers = 'flat'; break;
    case 'hands':
      shop.hands = [Math.floor(holes / 2), holes - Math.floor(holes / 2)];
      shop.spacing_mm.max = rounded(1.6 * bore);
      break;
    default: break;
  }
  return document;
}

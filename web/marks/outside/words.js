// web/marks/outside/words.js: what is said of parts that lie beyond what the reckoning was checked for.

export const BEYOND = 'Beyond what was checked';
export const TRUST_LESS = 'So far the reckoning was compared with finite elements or with measurements. What lies beyond is '
  + 'reckoned on as if it went on alike: trust these notes less, and read them before you cut close.';
/** @param {string} part @param {string} size @param {string} end @param {boolean} over */
export const beyond = (part, size, end, over) => `${part}: ${size}; checked ${over ? 'up' : 'down'} to ${end}.`;
/** @param {number} hole @param {string} left @param {string} wide */
export const woodLeft = (hole, left, wide) => `${left} of wood is left between holes ${hole} and ${hole + 1}; checked where `
  + `it is as wide as the wider hole, ${wide}.`;
/** @param {string} opening @param {string} bore */
export const noDisc = (opening, bore) => `The disc’s opening, ${opening}, is wider than the bore at the foot, ${bore}: reckoned as if `
  + 'there were no disc.';
/** @param {number} hole */
export const holeWidth = (hole) => `Width of hole ${hole}`;
/** Parts that are no entry of the page where they stand. @type {Record<string, string>} */
export const PARTS = { 'tube.wall_mm': 'Wall', 'tube.outer_mm': 'Outside diameter', 'sound_hole.length_mm': 'Length of the sound hole',
  'sound_hole.width_mm': 'Width of the sound hole', 'sound_hole.wall_mm': 'Wall at the sound hole',
  'plug.offset_mm': 'Plug’s face behind the line' };
export const BORE = 'Bore';

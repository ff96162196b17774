// web/text/verdict.js: what the tube can become, in words.

import { lengthWords, noteName } from './numbers.js';

export const SHORT = 'short_tube';

/** The first line says most. @param {State} state @param {Engine} engine @returns {string[]} */
export function verdict(state, engine) {
  const { cane, song, tube, notes } = state.answer;
  /** @param {number} mm */
  const words = (mm) => lengthWords(mm, state, engine);
  const lines = [];
  const sounding = cane.lowest_hz === null ? '' : `Uncut and without holes it sounds at about ${
    Math.round(cane.lowest_hz)} Hz${cane.lowest_name === null ? ''
    : `, so ${noteName(cane.lowest_name)} is the lowest note it can give`}.`;
  if (song.lowest === 'free') {
    lines.push('It keeps its length, and its own lowest note carries the song.', sounding);
  } else if (cane.warnings.includes(SHORT)) {
    lines.push('Too short for this lowest note.', sounding, 'Choose a higher one, or let it float.');
  } else {
    const asked = noteName(notes.find((note) => note.open.length === 0)?.name) || 'the lowest note';
    lines.push(`Long enough for ${asked}: ${cane.spare_mm < 0.05 ? 'nothing'
      : words(cane.spare_mm)} to saw off.`, sounding);
  }
  lines.push(evenness(cane.taper_percent, cane.oval_percent, tube.bore.length));
  lines.push(`It sounds over ${Math.round(cane.length_to_bore)} times its bore.`);
  if (cane.bore_air_c !== null) {
    lines.push(`Breath warms the air inside to about ${Math.round(cane.bore_air_c)} °C.`);
  }
  return lines;
}

/** @param {number} taper @param {number} oval @param {number} stations */
function evenness(taper, oval, stations) {
  const shape = [];
  if (stations < 2) {
    shape.push('Bore measured at one place and taken as the same all along; '
      + 'a second station tells whether it tapers.');
  } else if (Math.abs(taper) < 0.5) {
    shape.push('Bore even from end to end.');
  } else {
    const way = taper > 0 ? 'narrows' : 'widens';
    const much = Math.abs(taper) < 4 ? 'slightly' : 'clearly';
    shape.push(`Bore ${way} ${much} towards the foot, by ${round(taper)} %; the marks allow for it.`);
  }
  if (oval >= 0.5) shape.push(`Oval by up to ${round(oval)} %; reckoned as the round bore of the same area.`);
  return shape.join(' ');
}

/** @param {number} percent */
const round = (percent) => String(Math.round(Math.abs(percent) * 10) / 10);

/** @type {Record<string, string>} */
const WARNINGS = {
  sound_hole_outside_range: 'This sound hole lies outside the sizes the reckoning was checked for; '
    + 'trust the marks less.',
  bore_outside_range: 'This bore lies outside the sizes the reckoning was checked for; trust the '
    + 'marks less.',
  wall_thick: 'The wall is thicker for this bore than the reckoning was checked for; trust the marks '
    + 'less.',
  short_tube: 'The tube is too short for the lowest note asked for.',
  bore_beyond_end: 'A bore is measured beyond the tube’s end.',
  sound_hole_wall_thick: 'The wall at the sound hole is thicker than the tube’s.',
  above_short: 'Little is left above the line for plug, track, chamber and mouth end.',
};

/** @param {string} code */
export const warning = (code) => (Object.hasOwn(WARNINGS, code) ? WARNINGS[code]
  : `Take care: ${code.replaceAll('_', ' ')}.`);

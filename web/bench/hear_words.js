// web/bench/hear_words.js: what the ear says, and what to do about it.

/// <reference path="./types.d.ts" />

/** Why there is no tone. @type {Record<string, string>} */
export const WHY_NOT = {
  none: 'Blow, and hold the note.',
  bad_input: 'The microphone gives what cannot be read. Start listening again.',
  frame_too_short: 'One moment.',
  silence: 'Nothing to hear yet. Blow, and hold the note.',
  not_periodic: 'Noise, but no note yet. Blow, and hold it.',
  noisy: 'Too much noise around. Come nearer, or find a quieter place.',
  too_low: 'That is a hum or a voice, lower than a flute.',
  too_high: 'That is a whistle, higher than a flute.',
  weak_fundamental: 'That sounds like a voice or a string, not like a flute.',
  gliding: 'It glides. Blow evenly and hold it.',
  too_soft: 'Too soft. Come nearer.',
};

/** @type {Record<HeldTone['state'], string>} */
export const HELD = {
  no_tone: 'Blow, and hold the note.',
  too_soft: 'Too soft, or too noisy around. Come nearer.',
  clipped: 'Too loud for the microphone. Move a little away.',
  jumped: 'It jumped to the second register. Blow softer.',
  hold_longer: 'Hold it a little longer, evenly.',
  ready: 'Good, keep holding.',
};

/** @param {Hearing} hearing @returns {string} */
export function hearWords({ on, trouble, frame, held, taken }) {
  if (on === 'off') return trouble;
  if (on === 'starting') return 'Asking for the microphone …';
  if (taken) return 'Got it. Breathe.';
  if (held === null) return 'Listening.';
  if (held.state !== 'no_tone') return HELD[held.state] ?? HELD.no_tone;
  return frame !== null && Object.hasOwn(WHY_NOT, frame.why_not) ? WHY_NOT[frame.why_not] : HELD.no_tone;
}

/** What strokes there were: "2 strokes and a light one". @param {number} strokes @param {number} light
 * what a light one counts */
export function strokeWords(strokes, light) {
  const whole = Math.floor(strokes + 1e-9);
  const lights = Math.round((strokes - whole) / light);
  const parts = [whole > 0 ? `${whole} ${whole === 1 ? 'stroke' : 'strokes'}` : '',
    lights > 0 ? (whole > 0 ? (lights === 1 ? 'a light one' : `${lights} light ones`)
      : lights === 1 ? 'one light stroke' : `${lights} light strokes`) : ''].filter((p) => p !== '');
  return parts.join(' and ') || 'no stroke';
}

const COUNTS = ['no', 'one', 'two', 'three', 'four', 'five', 'six'];

/** What to do on the way to the mark. @param {StrokeAdvice} advice @param {boolean} begun whether a
 * stroke was made before */
export function adviceWords({ what, count }, begun) {
  if (what === 'stop') return 'Stop here.';
  if (what === 'light') return 'One light stroke.';
  if (what === 'blow') return 'Blow once more: too close to tell.';
  const words = COUNTS[count] ?? String(count);
  const many = begun ? `${words} more like that` : `${words} ${count === 1 ? 'stroke' : 'strokes'}`;
  return `${many.charAt(0).toUpperCase()}${many.slice(1)}.`;
}

export const CLEAR = 'Tap out char and dust, wipe, let it cool. Then blow.';

// web/bench/tell_ear.js: what to do about what was heard.

/// <reference path="./types.d.ts" />
import { BLOW_AGAIN, ONE_LIGHT, STOP_HERE, firstStrokes, moreStrokes, strokeCounts } from './words.js';

/** What strokes there were: "2 strokes and a light one". @param {number} strokes @param {number} light
 * what a light one counts */
export function strokeWords(strokes, light) {
  const whole = Math.floor(strokes + 1e-9);
  return strokeCounts(whole, Math.max(0, Math.round((strokes - whole) / light)));
}

/** What to do on the way to the mark. @param {StrokeAdvice} advice @param {boolean} begun whether a
 * stroke was made before */
export function adviceWords({ what, count }, begun) {
  if (what === 'stop') return STOP_HERE;
  if (what === 'light') return ONE_LIGHT;
  if (what === 'blow') return BLOW_AGAIN;
  return begun ? moreStrokes(count) : firstStrokes(count);
}

// web/ear/tell.js: what the ear says.

/// <reference path="./types.d.ts" />
import { ASKING, GOT_IT, HELD, LISTENING, WHY_NOT } from './words.js';

/** @param {Hearing} hearing @returns {string} */
export function hearWords({ on, trouble, frame, held, taken }) {
  if (on === 'off') return trouble;
  if (on === 'starting') return ASKING;
  if (taken) return GOT_IT;
  if (held === null) return LISTENING;
  if (held.state !== 'no_tone') return HELD[held.state] ?? HELD.no_tone;
  return frame !== null && Object.hasOwn(WHY_NOT, frame.why_not) ? WHY_NOT[frame.why_not] : HELD.no_tone;
}

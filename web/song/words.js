// web/song/words.js: what the room Song says.

// The station: what the flute shall play.
export const FINGER_HOLES = 'Finger holes';
export const CENTS = 'cents';

// The lowest note, and the scale on it.
export const LOWEST = 'Lowest note';
export const A_NOTE = 'A note';
export const A_FREQUENCY = 'A frequency';
export const LET_FLOAT = 'Let it float';
export const LOWEST_NOTE = { label: 'Note', note: 'with its octave' };
export const FREQUENCY = 'Frequency';
/** @param {number | null | undefined} hz of the note it floats to, where known */
export const floatWords = (hz) => 'The tube keeps its length; the scale stands on its own lowest note'
  + `${hz ? `, about ${Math.round(hz)} Hz` : ''}.`;
export const SCALE = 'Scale';
export const OWN_STEPS = 'steps of my own';
export const STEPS = { label: 'Steps in cents', note: 'upwards from 0, a space between' };

// The fingering chart.
export const FINGERING = 'Fingering';
export const CHART = 'Fingering chart, hole 1 nearest the sound hole';
export const CHART_NOTE = 'Filled is covered, ring is open. Touch a hole to change it.';
export const TO_USUAL = 'Back to the usual fingering';
export const NOTE = 'Note';
/** A step that no usual name is known for. @param {number} number */
export const stepName = (number) => `step ${number}`;
/** @param {string} note @param {number} hole */
export const holeOfNote = (note, hole) => `${note}, hole ${hole}`;
export const OPEN = 'open';
export const COVERED = 'covered';

// To hear it.
export const HEAR = 'Hear it';
export const STOP = 'Stop';
export const AS_LAID_OUT = 'as laid out, up and down';

// web/marks/words.js: what the room Marks says.

// The station: which ruler, and from where. The choices stand within the sentence.
export const FROM_THE = 'From the ';
export const MEASURED_FROM = 'Measured from the sound hole’s';
export const IN = ' in ';
export const UNIT = 'Unit';
/** @param {number} fraction */
export const inches = (fraction) => `inches, 1/${fraction}`;

// What is wrong with the entries; waiting for the marks.
export const LAST_GOOD = 'These are the last good marks. ';
export const NO_MARKS = 'No marks yet. ';
export const WAIT_FOR = 'They wait for: ';
/** @param {string} path @param {string} wrong */
export const entryWrong = (path, wrong) => `${path || 'Entry'}: ${wrong}`;
export const STOPPED = 'You stopped the reckoning of what you entered since. ';
/** @param {string} fault */
export const failed = (fault) => 'The calculation failed, which is our fault, not yours. Your entries '
  + `are kept. (${fault}) `;
export const AGAIN = 'Reckon it again';
export const STOP = 'Stop';

// Below the marks.
export const PRINT = 'Print';
export const HELD = 'What holds the marks back';
export const CARE = 'Care';

// The marks, a row each.
export const ROWS = 'Marks, from the sound hole to the foot';
/** Where the ruler begins. @param {string} datum */
export const zeroWords = (datum) => (datum === 'upstream edge' ? 'the sound hole’s upstream edge'
  : datum === 'splitting edge' ? 'the splitting edge' : 'centre of the sound hole');
/** @param {string} length @param {string} width */
export const soundHoleSize = (length, width) => `${length} long × ${width} wide`;
export const BIT = 'bit ';  // before the bit's size, only heard
/** @param {number} number */
export const holeName = (number) => `hole ${number}`;
/** @param {number} number */
export const holeCut = (number) => `hole ${number}, cut`;
export const FOOT = 'foot';
export const SAW_HERE = 'saw here';
export const SAND = 'sand off';
export const SAW_LONG = 'saw long';
/** @param {string} at */
export const sawFirst = (at) => `first at ${at}`;
export const AS_IT_IS = 'as it is';
/** @param {string} length */
export const sawnOff = (length) => `${length} off`;
/** What a step of the ruler does. @param {string} step @param {string} cents */
export const perStepUp = (step, cents) => `${step} up: ${cents} cents`;
/** @param {string} step @param {string} cents */
export const perStepOff = (step, cents) => `next ${step.replace('1 ', '')}: ${cents}\u00a0cents`;
export const NO_NOTE = 'no note of its own';
export const SILENT = 'does not speak';

// How sure the notes are.
export const HOW_SURE = 'How sure';
export const HEARD_HERE = 'This flute has been heard: the Bench says how sure each note is by now.';
export const ONE_MOMENT = 'One moment.';
/** @param {string} fault */
export const notReckoned = (fault) => 'How sure the notes are could not be reckoned, which is our '
  + `fault; the marks stand. (${fault})`;
export const BANDS = 'What makes the bands';
export const TRY = 'Try it on 10,000 flutes';

// Every note.
export const NOTES = 'Notes';
export const WILL_SOUND = 'How they will sound';
export const LAID_OUT = 'The notes as laid out';
export const NOTE = 'Note';
export const HOLES = 'Holes';
export const OFF_BY = 'Off by';
export const REGISTER = 'First register. “Up” is towards the sound hole: moving a hole up, or opening '
  + 'it wider, sharpens its note.';
/** @param {string} off */
export const notSettled = (off) => `${off}, not settled`;
/** @param {string} step @param {string} cents */
export const perWider = (step, cents) => `${step} wider: ${cents}`;
export const ALL_COVERED = 'all covered';
/** @param {number[]} holes */
export const openWords = (holes) => `${holes.join(', ')} open`;

export const ABOVE = 'Marks above the sound hole';

// How it is known.
export const HOW_KNOWN = 'How do you know?';
export const TAKE_CARE = 'Take care. ';

// What makes the bands.
export const MEANS = '± means: of three flutes made so, two come within it. The shop is what measuring, '
  + 'marking and drilling do. The voice, with the breath and the holes’ edges, is known only once it is '
  + 'blown.';
export const LARGEST = 'Largest first, over all notes';
/** @param {number} near @param {number} far shares of all flutes */
export const within = (near, far) => `Every note within 5 cents: ${ofFlutes(near)}; within 20: ${
  ofFlutes(far)}.`;
/** @param {number} share */
const ofFlutes = (share) => `${Math.round(share * 100)} % of flutes`;

// Flutes built by chance.
export const BUILT = 'Flutes built';
/** @param {string} count */
export const tryOn = (count) => `Try it on ${count} flutes`;
export const TRY_AGAIN = 'Try again';
export const BEGINNING = 'Beginning.';
export const IN_CENTS = 'Bands in cents';
export const RECKONED = 'reckoned';
/** @param {string} count */
export const flutes = (count) => `${count} flutes`;
export const ALL_WITHIN = 'all within 10 cents';

// web/shelf/own/words.js: a flute that exists, and what flutes teach.

import { noteName } from '../../text/numbers.js';
import { FOOT } from '../words.js';

// A flute you have, and what flutes teach.

export const A_FLUTE_YOU_HAVE = 'A flute you have';
export const WHAT_IT_IS_FOR = 'Measure it once and blow its notes. It says what its voice, holes and breath are like, which '
  + 'measurement to repeat, and how it would be on another tube. What you cannot measure may stay empty, and holes that are '
  + 'not cut yet.';
/** @param {string} unit @param {string} datum */
export const rulerNote = (unit, datum) => `Figures in ${unit === 'inch' ? 'inches' : unit}, places from the sound hole’s ${datum}. Instead:`;
export const inThe = (/** @type {string} */ unit) => (unit === 'inch' ? 'inches' : unit);
export const HOLES = 'Finger holes';
export const NAME = 'Name';
export const BORE = 'Bore', WALL = 'Wall', LENGTH = 'Sound hole, along', WIDTH = 'Sound hole, across', ROOM = 'Room, °C';
export const PLACE = 'place', WIDE = 'width', SOUNDS = 'sounds';
export const soundsNote = () => `Sounds: this hole and all below it open, in hertz or as ${noteName('G4')} −3. Places from the `;
/** @param {string} row @param {string} what */
export const cell = (row, what) => `${row}: ${what}`;
/** @param {string} row @param {string} text */
export const notAPitch = (row, text) => `${row}: “${text}” is no pitch. Write hertz, or a note and cents: 392 or ${noteName('G4')} −3.`;
/** @param {string} row */
export const outOfOrder = (row) => `${row}: its place does not lie below the one before. Measure both again.`;
/** @param {number} rows @param {number} fit */
export const tooManyRows = (rows, fit) => `These are ${rows} rows, and from here on there is room for ${fit}. Say first how many holes it has.`;
/** @param {number} fields */
export const tooManyFields = (fields) => `These rows have ${fields} entries: place, width and pitch have room here.`;
export const NEEDS_FOOT = 'Say what it sounds with all holes covered.';
export const MISSING = 'Still needed: ';
export const RECKONING = 'Reckoning …';
/** @param {string} words */
export const refused = (words) => `This cannot be: ${words}`;
/** @param {string} name @param {string} off */
export const noteLine = (name, off) => `${name}: ${off}`;
export const NOT_HEARD = ', not heard';
/** @param {string} row @param {number} cents */
export const doesNotFit = (row, cents) => `${row} does not fit the others: what it sounds is ${Math.abs(cents)} cents `
  + `${cents > 0 ? 'higher' : 'lower'} than they say. Blow it again, and measure ${row === FOOT ? 'its place' : 'that hole’s place and width'} again.`;
/** @param {string[]} rows whose widths were not measured */
export const measureFirst = (rows) => `What would mend ${rows.join(', ')} is not told: measure ${rows.length === 1 ? 'its width' : 'their widths'} first.`;
/** @param {string[]} rows */
export const blowFirst = (rows) => `Of what was not heard nothing is told to be mended: blow ${rows.join(', ')}.`;
export const ALL_FIT = 'The readings fit each other.';
export const TOO_FEW = 'Blow two notes or more, and it can say whether they fit.';
export const IN_TUNE = 'Nothing to mend: every note is within 5 cents of its place.';
/** @param {string[]} flat */
export const canOpen = (flat) => `Flat, and can be opened: ${flat.join(', ')}.`;
/** @param {string[]} sharp */
export const isSharp = (sharp) => `Sharp, and nothing comes off again: ${sharp.join(', ')}.`;
/** @param {string} row @param {number} cents @param {number} band @param {{name: string, cost: string}[]} ways */
export const mendLine = (row, cents, band, ways) => `${row}, ${Math.abs(cents)} ± ${band} cents ${cents > 0 ? 'sharp' : 'flat'}. ${
  ways.map(({ name, cost }, n) => `${n > 0 ? 'Or: ' : ''}${name}. ${cost}`).join(' ')}`;
export const BY_EAR = 'By microphone', BY_EAR_NOTE = 'Or blow them one after the other, from all covered up: each goes into its '
  + 'field, where you can write over it. To hear one again, go to its field.';
/** @param {number[]} open @param {number} holes */
export const blowNow = (open, holes) => (open.length === 0 ? 'Blow with all holes covered'
  : open.length === holes ? 'Blow with all holes open' : open.length === 1 ? `Blow with hole ${open[0]} open`
    : `Blow with hole ${open[0]} and those below it open`);
/** @param {string} row @param {string} hz */
export const heardNow = (row, hz) => `${row}: ${hz} Hz`;
export const ONE_BACK = 'The one before again', LEAVE_OUT = 'Leave this one out', ALL_HEARD = 'That is all of them.';
export const AT_BENCH = 'Go on at the Bench';
export const KEEP = 'Put it on the shelf';
export const KEPT = 'It is on the shelf.';
export const LAY_OUT = 'Lay it out for the tube in hand';
export const SCALE = 'Its scale', AS_IT_IS = 'as it is', PUT_IN_TUNE = 'put in tune';
export const LOWEST = 'Lowest note';
/** @param {string} name as it is, '' where it is not known */
export const lowestNote = (name) => `${name === '' ? '' : `${name} as it is; `}another key: write another`;
/** @param {number[]} numbers of holes */
export const notCut = (numbers) => `${numbers.length === 1 ? `Hole ${numbers[0]} is`
  : `Holes ${numbers.slice(0, -1).join(', ')} and ${numbers[numbers.length - 1]} are`} not cut yet. Say what it shall play; `
  + 'the Bench goes on from there.';
export const SCALE_WANTED = 'Scale', OWN_STEPS = 'the steps of your last flute';
/** @param {string} name of the lowest note @param {boolean} foot is heard @param {boolean} holes are */
export const proposedBy = (name, foot, holes) => `Proposed: ${name === '' ? '' : `${name}, `}${foot ? 'by what it sounds all covered'
  : 'by its length'}${holes ? ', and the scale that its holes lie nearest to' : ''}. Another note: write it.`;
export const LAID_OUT = 'Laid out for the tube in hand, with what this flute taught.', SEE_MARKS = ' See Marks.';
/** After it. */
export const MEASURE_IT = ' It is a new one: measure it, and its marks are there.';
export const LAID_OUT_TAUGHT = 'Laid out for the tube in hand in its scale, with what your flutes taught.';
export const BY_THIS_ONE = 'With what this flute alone taught instead';
/** @param {string} text */
export const notANote = (text) => `“${text}” is no note. Write one like ${noteName('A4')} or hertz.`;

// hand.js
export const HAND = 'What your flutes teach';
export const HAND_NOTE = 'Tick the finished flutes that are your way of making; yours are ticked. The next one starts from '
  + 'what they have in common, as sure as they are alike.';
/** Beside one that is not ticked by itself. */
export const NOT_TICKED = { half: 'half made', sheet: 'a flute you had: tick it if you made it',
  link: 'came by a link: tick it if you made it', file: 'came by a file: tick it if you made it' };
export const NEW_TUBE = ' It is a new one, to be measured.';
/** @param {number} ticked more than can */
export const newestOf = (ticked) => ` Of the ${ticked} that are ticked it is those finished last.`;
export const TEACH = 'Start from these';
export const NOT_FOR_THIS = 'Start this tube without them';
export const TICK_ONE = 'Tick a flute first.';
/** @param {number} count */
export const taught = (count) => (count === 1 ? 'One flute teaches the tube in hand now.'
  : `${count} flutes teach the tube in hand now.`);

/** @type {Record<string, {above: string, below: string, same: string, unit: string, thing: string}>} */
const TOLD = {
  sound_hole: { above: 'Your voices sound # longer than measured', below: 'Your voices sound # shorter than measured',
    same: 'Your voices sound as measured', unit: ' %', thing: 'voice' },
  sound_speed: { above: 'The air in your flutes is # faster than expected', below: 'The air in your flutes is # slower than '
    + 'expected', same: 'The air in your flutes is as expected', unit: ' %', thing: 'air' },
  holes: { above: 'Your finger holes act # wider than measured', below: 'Your finger holes act # narrower than measured',
    same: 'Your finger holes act as measured', unit: ' %', thing: 'finger holes' },
  drift: { above: 'Your breath lifts high notes by # an octave', below: 'Your breath lowers high notes by # an octave',
    same: '', unit: ' cents', thing: 'breath' },
};
const ONE_IN = 100;

/** @param {number} value @param {string} unit */
const size = (value, unit) => `${Math.round(Math.abs(value) * (unit === ' %' ? ONE_IN : 1) * 10) / 10}${unit}`;

/** Of one flute, whosever it is. @type {Record<string, {above: string, below: string, same: string, thing: string}>} */
const ITS = {
  sound_hole: { above: 'Its voice sounds # longer than measured', below: 'Its voice sounds # shorter than measured',
    same: 'Its voice sounds as measured', thing: 'voice' },
  holes: { above: 'Its finger holes act # wider than measured', below: 'Its finger holes act # narrower than measured',
    same: 'Its finger holes act as measured', thing: 'finger holes' },
  drift: { above: 'The breath lifts its high notes by # an octave', below: 'The breath lowers its high notes by # an octave',
    same: 'The breath leaves its high notes where they are', thing: 'breath' },
};
/** @param {string} unknown @param {number} mean @param {number} unsure */
export const toldOfIt = (unknown, mean, unsure) => {
  const { above, below, same } = ITS[unknown];
  const { unit } = TOLD[unknown];
  return `${(Math.abs(mean) <= unsure ? same : mean > 0 ? above : below).replace('#', size(mean, unit))}, give or take ${
    size(unsure, unit)}.`;
};
/** @param {string[]} unknowns that no reading told of */
export const untold = (unknowns) => `Of its ${unknowns.map((unknown) => ITS[unknown].thing).join(' and its ')} these readings say nothing yet.`;

/** 'Your voices sound 2 % longer than measured, give or take 1 %.' @param {string} unknown @param {number} mean
 * @param {number} apart from flute to flute, one standard deviation @param {number} unsure of the mean */
export function toldOf(unknown, mean, apart, unsure) {
  const { above, below, same, unit } = TOLD[unknown];
  const words = Math.abs(mean) <= unsure && same !== '' ? same : mean > 0 ? above : below;
  return `${words.replace('#', size(mean, unit))}, give or take ${size(apart, unit)}.`;
}
/** @param {number} mean wider than its bit [mm] @param {number} apart @param {number} unsure */
export const burned = (mean, apart, unsure) => `${Math.abs(mean) <= unsure ? 'Your holes come out as wide as their bit'
  : `Your holes come out ${size(mean, ' mm')} ${mean > 0 ? 'wider' : 'narrower'} than their bit`}, give or take ${
  size(apart, ' mm')}.`;
/** @param {string} of @param {string} unknown @param {boolean} certain */
export const oddOne = (of, unknown, certain) => (certain
  ? `${of} is unlike the others in its ${TOLD[unknown].thing}, so it hardly counts. Measure it again, or leave it out.`
  : `${of} may be unlike the others in its ${TOLD[unknown].thing}. Measure it again to be sure.`);
/** @param {string} first @param {string} unknown */
export const changedSince = (first, unknown) => `From ${first} on your ${TOLD[unknown].thing} changed. Leave the earlier `
  + 'ones out if you make them so no more.';

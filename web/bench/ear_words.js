// web/bench/ear_words.js: what is said while a hole is opened by ear, and of where the flute stands; as words.js.

/// <reference path="./types.d.ts" />

/** @param {string} text */
const capital = (text) => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

// By ear, stroke by stroke; what the meter shows.
export const meterWord = (/** @type {number} */ cents) => (cents === 0 ? 'there'
  : `${Math.abs(cents) === 1 ? 'cent' : 'cents'} ${cents < 0 ? 'flat' : 'sharp'}`);
/** What stands under the meter's scale, by cents. @type {[number, string][]} */
export const SCALE = [[-60, '60 flat'], [-40, '40'], [-20, '20'], [0, 'stop'], [20, '20 sharp']];
export const NOT_BLOWN = 'not blown yet', BLOW_FIRST = 'Blow it first, as it is.', STOP_HERE = 'Stop here.';
export const ONE_LIGHT = 'One light stroke.', BLOW_AGAIN = 'Blow once more, before anything is cut.';
const COUNTS = ['no', 'one', 'two', 'three', 'four', 'five', 'six'];
const counted = (/** @type {number} */ n) => COUNTS[n] ?? String(n);
export const moreStrokes = (/** @type {number} */ n) => capital(`${counted(n)} more like that.`);
export const firstStrokes = (/** @type {number} */ n) => capital(`${counted(n)} ${n === 1 ? 'stroke' : 'strokes'}.`);
export const madeStrokes = (/** @type {number} */ n) => `I made ${n === 1 ? 'one stroke' : `${n} strokes`}`;
export const MADE_LIGHT = 'I made the light one', FORGET_BLOW = 'Forget the last blow', LOG_STOP = 'Log it: stop here';
export const ONE_MORE = '+ 1 stroke', LIGHT_MORE = '+ light one';
export const STROKE_IS = 'A stroke is once round the hole with the knife or the rolled sandpaper, a light one hardly '
  + 'presses.', FOOT_STROKE_IS = 'A stroke is once to and fro on the sheet of sandpaper, a light one hardly presses.';
/** "2 strokes and a light one". @param {number} whole @param {number} light how many of each */
export const strokeCounts = (whole, light) => [whole > 0 ? `${whole} ${whole === 1 ? 'stroke' : 'strokes'}` : '',
  light === 0 ? '' : whole > 0 ? (light === 1 ? 'a light one' : `${light} light ones`)
    : light === 1 ? 'one light stroke' : `${light} light strokes`].filter((p) => p !== '').join(' and ') || 'no stroke';
export const takeBack = (/** @type {string} */ strokes) => `Take back: ${strokes}`;
export const sinceBlow = (/** @type {string} */ strokes) => `${strokes} since the last blow.`;
/** All blows together, where they say something else than the last. @param {number} n
 * @param {string} cents as "−15" @param {string} sure @param {string} each */
export const blowsTold = (n, cents, sure, each) => (n === 1 ? 'One blow.'
  : `All ${n} blows together: ${cents} ± ${sure} cents; one stroke is about ${each}.`);
/** The figure in words: what was blown, and what it should be now. @param {string} blown @param {string} now */
export const blownAgainst = (blown, now) => `You blew ${blown}. Now it should be ${now}.`;
export const shouldBe = (/** @type {string} */ now) => `Now it should be ${now}.`;
export const blownSharper = (/** @type {string} */ cents) =>
  `This time you blow ${cents} sharper than before, so the mark is as much higher.`;
export const blownFlatter = (/** @type {string} */ cents) =>
  `This time you blow ${cents} flatter than before, so the mark is as much lower.`;
export const stopsLow = (/** @type {string} */ cents) =>
  `In the mark: ${cents}, since your stops have ended low so far.`;
export const OPENED_UNTOLD = 'The note has risen between blows. Did you open it without tapping a stroke?';
export const YES_OPENED = 'Yes, I opened it', NO_ONLY_BLOWN = 'No, only blown';
export const JUST_STOP = 'Open a little, blow, and stop when the figure says 0.';
export const noAdvice = (/** @type {string} */ fault) => `The advice could not be reckoned. (${fault})`;
export const markFor = (/** @type {number | undefined} */ c) => `The mark is for a room of ${c} °C. Read this note `
  + 'once in the room as it is now: then the mark moves with it.';

// Where the flute stands, and when it is good enough.
/** @param {string} within @param {number} left @param {string} goal */
export const standsAt = (within, left, goal) => `Every note within ${within}, probably${left === 0 ? '.'
  : `; about ${left === 1 ? 'one more step' : `${left} more steps`} for ${goal}.`}`;
/** @param {string} within @param {number} left */
export const willStandAt = (within, left) =>
  `About ${left} more steps, and then every note within ${within}, probably.`;
export const STOP_HERE_NOW = 'Good enough: finish here', FINISH_AT = 'Good enough: every note';
/** @type {[number, string][]} */
export const FINISH_LINES = [[8, 'within 8 cents'], [5, 'within 5 cents'],
  [3, 'within 3 cents, the best']];
export const finishAt = (/** @type {number} */ cents) => `within ${cents} cents`;
/** How this maker errs, where it is more than usual; bands are wider for it.
 * @type {Record<string, (cents: string) => string>} */
export const WIDER = {
  moment: (cents) => `From one time to the next you blow a note about ${cents} cents differently, which is more than `
    + 'most. So all bands are wider, and readings at different times help.',
  hands: () => 'What was measured and what sounds differ more than usual, so all bands are wider. Measure the holes '
    + 'once more.',
};

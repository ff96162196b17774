// web/bench/words.js: every text of the bench, for translators and proof-readers: plain ones as strings, those
// with values as functions of them. Which is said when is for the tell_*.js files and the views to choose.

/// <reference path="./types.d.ts" />
import { centsWords, countWord, noteName } from '../text/numbers.js';

/** @param {string} text */
const capital = (text) => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

// Why the step is the next one.
export const WHY = {
  saw_long: 'The voice is not made yet, so the foot stays long: what is sawn off cannot be put back.',
  hear_voice: 'One reading of the tube without holes tells most of what no ruler can.',
  hear_trimmed: 'Heard before and after a cut of known length, the tube tells what the sound hole does and what the '
    + 'air in it does.',
  trim_foot: 'Nearer to the foot’s mark by the ruler; the last cents come off by ear.',
  hear_again: 'The last reading does not fit what is known of this flute. Once more, before anything is cut.',
  warm_up: 'The last readings are all off alike: the flute is cold, or the block has moved. Warm the flute, look '
    + 'at the block, then read again.',
  drill_small: 'Next from the foot up, and small: a hole only grows.',
  open_by_ear: 'A tenth of a millimetre is many cents here, so now the ear leads.',
  undercut_hole: 'It is as wide as it may be: widen it inside, under the wall.',
  hear_note: 'How far is this note now? Nothing is cut before that is known.',
  finish_foot: 'The last cents of the lowest note, by ear.',
  last_touch: 'All is cut, and this note is still flat: once more, a little.',
  plan_moved: 'What was heard would move the next hole further than anything explains. Hear this note again, and '
    + 'look whether the places and sizes you entered are right.',
  let_dry: 'Finish and moisture move the pitch: the last cents wait for the dry flute.',
  too_sharp_hole: 'This hole’s note is too sharp. Choose one way; what can be taken back stands first.',
  likely_sharp_hole: 'This note is probably sharp, perhaps by more than the song allows. Choose one way, or leave it as it '
    + 'is; what can be taken back stands first.',
  too_sharp_foot: 'The lowest note is too sharp: the tube is too short for it. Choose one way; what can be taken '
    + 'back stands first.',
  finished: 'Every note is as near as cutting can bring it.',
};
export const AS_YOU_ASKED = 'As you asked. The step waits.';

// What the readings say is wrong beside the step.
export const TROUBLE = {
  foot_short: 'The foot is too short for the lowest note.',
  hole_sharp: 'A hole is too large, or too near the sound hole.',
  sound_hole_large: 'The voice sounds much sharper than a sound hole of its size should: it is larger than entered, '
    + 'or more open.',
  all_flat: 'Everything heard of late is flat of what was heard before: the flute is cold, or the block has moved.',
  all_sharp: 'Everything heard of late is sharp of what was heard before: the room is warmer than entered, or the '
    + 'block has moved.',
  breath_lifts: 'High notes are blown much sharper than low ones.',
};

// The card and its headings; a figure follows those that ask for one.
export const NOW = 'Now', BACK_TO_STEP = 'Back to the step', STOP = 'Stop', RECKON_AGAIN = 'Reckon it again';
export const SAND_UNTIL = 'Sand the foot until it sounds', SAW_AT = 'Saw the foot at';
export const openUntil = (/** @type {number} */ n) => `Open hole ${n} until it sounds`;
export const drillAt = (/** @type {number} */ n) => `Drill hole ${n} at`;
export const undercutUntil = (/** @type {number} */ n) => `Undercut hole ${n} until it sounds`;
export const undercutNow = (/** @type {number} */ n) => `Undercut hole ${n}`;
export const BLOW = 'Blow', THREE_TIMES = 'three times, and hold it';
export const maybeTooFar = (/** @type {number} */ n) => `Hole ${n} is perhaps cut too far`;
export const cutTooFar = (/** @type {number} */ n) => `Hole ${n} is cut too far`;
export const FOOT_TOO_SHORT = 'The foot is too short';
export const FINISH_AND_DRY = 'Finish it and let it dry', FLUTE_DONE = 'The flute is done';
export const sizeWide = (/** @type {string} */ size) => `${size} wide`;
export const withBit = (/** @type {string} */ size) => `with the ${size} bit`;
export const FROM_EDGE = 'From the splitting edge';
export const fromSoundHole = (/** @type {string} */ datum) => `From the sound hole’s ${datum}`;
export const fromLine = (/** @type {string} */ datum) => `From the line for the sound hole’s ${datum}`;
export const EDGE_LINE = 'From the line for the splitting edge';
export const sawnOff = (/** @type {string} */ length) => `${length} off`;
export const NO_STEP_YET = 'There is no step yet.', LAST_GOOD_STEP = 'This is the last good step.';
export const STOPPED = 'You stopped the reckoning. Your log is kept.';
export const failed = (/** @type {string} */ fault) =>
  `The calculation failed, which is our fault, not yours. Your log is kept. (${fault})`;
export const entryWrong = (/** @type {number} */ n, /** @type {string} */ why) => `Entry ${n} of the log: ${why}`;

// What to expect: cents as "+14 ± 4", a band as "± 4 cents".
export const UNDER_1 = 'under 1 %';
export const tooSharp = (/** @type {string} */ chance) => `Chance of too sharp: ${chance}.`;
export const knownBefore = (/** @type {string} */ sound, /** @type {string} */ band) =>
  `It should sound ${sound}, known to ${band} before you blow.`;
/** @param {string} sound as "380.2 Hz, G4 −52 cents" @param {string} band */
export const thenSounds = (sound, band) => `Then it should sound ${sound}${band}.`;
export const restByEar = (/** @type {string} */ sound, /** @type {string} */ band) =>
  `Then it should sound ${sound}${band}: the rest by ear.`;

// Notes and fingerings.
export const LOWEST_NOTE = 'the lowest note', LOWEST = 'lowest';
export const noteWithOpen = (/** @type {number[]} */ open) => `the note with ${open.join(', ')} open`;
export const NO_HOLES = 'the tube without holes', COVERED = 'its hole covered', ALL_COVERED = 'all holes covered';
export const holeOpen = (/** @type {number} */ n) => `hole ${n} open`;
/** @param {number[]} numbers @param {number} last */
export const holesOpen = (numbers, last) => `holes ${numbers.join(', ')} and ${last} open`;

// The screen, the cautions, the voice's checklist.
export const SCREEN_STAYS_ON = 'screen stays on', NOT_ALLOWED_NOW = 'not allowed just now', CARE = 'Care';
export const VOICE = [['block', 'Block tied in its final place'], ['bore', 'Bore cleared of char and dust'],
  ['sealed', 'Sealed and dry, where it needs it'], ['warm', 'Blown warm, a minute']];
export const ALL_SO = 'All of this is so';
export const MAKE_VOICE = 'Make the voice';
export const MAKE_VOICE_HOW = 'Cut the sound hole on its line, with ramp and edge, and tie the block on. '
  + 'Then it can be blown.';
export const ITS_MEASURES = 'Its measures, and how it is made', NO_NOTE_COMES = 'No note comes, or it hisses? What to look at';
export const VOICE_FINISHED = 'The voice is finished', VOICE_FIRST = 'First: is the voice finished?';

// Lines to type into.
export const AS_YOURS_DO = 'as yours come out';
export const LOG_IT = 'Log it', AS_IT_CAME_OUT = 'as it came out', ROOM = 'Room', WHERE_BLOWN = 'where you blow it';
export const roomRange = (/** @type {number} */ least, /** @type {number} */ most) =>
  `A room has ${least} to ${most} °C. Write for example 18 or 18,5.`;
export const DRILLED_AT = 'Drilled at', SAWN_AT = 'Sawn at', HOLE_WIDE = 'Hole wide', DRILLED = 'Drilled: log it';
export const SAWN = 'Sawn: log it', DONE = 'Done: log it';
export { FOOT_NOW_AT, HOLE_NOW_WIDE } from '../text/rescue.js';
export const WHEN_YOU_STOP = 'measured when you stop', ONLY_IF_MEASURED = 'only if measured', TAKE_IT = 'Take it';

// A pitch typed from any other meter.
export const OR_TYPE = 'Or type it', OR_TYPE_NOTE = 'from any other meter: 587,3 Hz, or cents such as +12';
export const example = () => `Write what the meter shows: 587,3 Hz, or cents from the note such as +12, −7 or ${noteName('G4')} +12.`;
/** @param {number} hz @param {unknown} limit */
export const hzTooLow = (hz, limit) => `${hz} Hz is no note of such a flute; it takes at least ${limit} Hz.`;
/** @param {number} hz @param {unknown} limit */
export const hzTooHigh = (hz, limit) => `${hz} Hz is no note of such a flute; it takes at most ${limit} Hz.`;
export const centsTooMany = (/** @type {number} */ cents) => `${cents} cents is more than a meter shows. ${example()}`;
export const SECOND_REGISTER = 'That is the second register: blow softer, or look at the octave the meter shows.';
export const OCTAVE_BELOW = 'That is an octave lower than this fingering gives: look at the octave the meter shows.';
export const noPitch = (/** @type {string} */ typed) => `“${typed}” is not a pitch. ${example()}`;

// A reading, from three attempts.
export const CLEAR = 'Tap out char and dust, wipe, let it cool. Then blow.';
export const ATTEMPT_LIST = 'Attempts', LOG_READING = 'Log this reading';
export const attempt = (/** @type {number} */ n) => `attempt ${n}`;
export const outAttempt = (/** @type {number} */ n, /** @type {string} */ hz) => `Attempt ${n}, ${hz} Hz: take it out`;
export const hzWithin = (/** @type {string} */ hz, /** @type {string} */ cents) => `${hz} Hz ± ${cents} cents`;
export const logFrom = (/** @type {number} */ n, /** @type {number} */ all) => `Log it, from ${n} of ${all}`;

export const WHAT_TO_DO = 'What to do';

// Waiting, and done.
export const OIL_IT = 'Oil or varnish it, bore too, and leave it until tomorrow. Then the ends of the scale are heard '
  + 'once more.';
export const IS_DRY = 'It is finished and dry', TO_SHELF = 'To the Shelf';
export const ASK_PATTERN = 'It can be the next tube’s pattern: its voice, breath, song and spacing. This one is kept on '
  + 'the Shelf.';
export const ASK_HAND = 'The next tube starts from what your flutes taught, with this one’s song and spacing. This one is kept '
  + 'on the Shelf, and can be added to them there.';
export const NEXT_TUBE = 'Begin the next tube', THIS_PATTERN = 'The pattern';
export const NOT_KEPT = 'There is no room to keep this flute, so it stays in hand. Make room on the Shelf first.';
export const nothingTold = (/** @type {string} */ why) => `Nothing could be learned from it. (${why})`;
export const IN_TUNE = 'in tune', BEYOND = 'beyond what you allow';
export const offBy = (/** @type {number} */ cents) => `${centsWords(cents)} ${cents < 0 ? 'flat' : 'sharp'}`;
export const knownAs = (/** @type {string} */ where, /** @type {string} */ band) => `${where}, known to ${band}`;

// The log and its entries; lengths come as texts.
export const LOG = 'Log', NOTHING_HAPPENED = 'Nothing has happened yet.', KEEP_THEM = 'Keep them', UNDO = 'Undo';
/** @param {string} what @param {string} pressure */
export const blownTo = (what, pressure) => `${what} at ${pressure}`;
export const takenOut = (/** @type {number} */ n) =>
  `${n === 1 ? 'One entry' : `${capital(countWord(n))} entries`} taken out.`;
export const showAll = (/** @type {number} */ n) => `Show all ${n}`;
export const notCounted = (/** @type {string} */ cents) => `${cents} cents from where it should be: not counted.`;
export const undoOf = (/** @type {string} */ entry) => `Undo: ${entry}`;
export const goesWithIt = (/** @type {string[]} */ entries) => `This goes with it: ${entries.join('; ')}.`;
export const takeOutAll = (/** @type {number} */ n) => (n === 2 ? 'Take out both' : `Take out all ${countWord(n)}`);
export const heardAs = (/** @type {string} */ hz, /** @type {string} */ what) => `Heard ${hz}: ${what}`;
export const footLonger = (/** @type {string} */ place) => `Foot made longer to ${place}`;
export const footCut = (/** @type {string} */ place) => `Foot cut to ${place}`;
export const holeWas = (/** @type {number} */ n, /** @type {string} */ how) => `Hole ${n} ${how}`;
export const drilledAt = (/** @type {string} */ place) => `drilled at ${place}`;
export const openedTo = (/** @type {string} */ size) => `opened to ${size}`;
export const narrowedTo = (/** @type {string} */ size) => `narrowed to ${size}`;
export const OPENED_A_LITTLE = 'opened a little', NARROWED = 'narrowed', UNDERCUT = 'undercut';
export const FILLED_AND_OPENED = 'filled towards the sound hole, opened towards the foot';
export const soundHoleNow = (/** @type {string} */ l, /** @type {string} */ w) => `Sound hole now ${l} long, ${w} wide`;
export const discInFoot = (/** @type {string} */ size) => `Disc in the foot, opening ${size}`;
export const BLOCK_MOVED = 'Block moved', FINISHED_AND_DRY = 'Finished and dry', PUT_BACK = 'Put back';

// What can be wrong with an entry.
/** @param {number} n @param {string} place */
export const beyondNeighbour = (n, place) => `Hole ${n} would lie beyond its neighbour at ${place}. Holes count from `
  + 'the sound hole: is it another one?';
export const beyondTube = (/** @type {string} */ place) => `That is beyond the tube’s end at ${place}.`;
export const ABOVE_EDGE = 'That is above the sound hole’s edge. Measure towards the foot.';
export const footAboveHole = (/** @type {string} */ place) => `The foot cannot lie above a hole, at ${place}.`;
export const NOT_CUT_YET = 'That hole is not cut yet.';
export const tooWide = (/** @type {string} */ most) => `That is wider than this tube lets it be; at most ${most}.`;

// Something that no step asked for.
export const SOMETHING_ELSE = 'Something else happened', WHAT = 'What';
export const KINDS = [['', 'choose …'], ['block', 'The block moved'], ['sound_hole', 'The sound hole was opened'],
  ['hole', 'A hole was drilled or opened'], ['narrow', 'A hole was narrowed'], ['undercut', 'A hole was undercut'],
  ['foot', 'The foot was sawn or sanded'], ['read', 'Read another fingering']];
export const ANOTHER_VOICE = 'What was heard before was another voice: it will be asked for again.';
export const NOW_LONG = 'Now long', ALONG = 'along the tube', NOW_WIDE = 'Now wide', ACROSS = 'across', HOLE = 'Hole';
export const EMPTY_NOT_MEASURED = 'empty: not measured', NO_HOLE_YET = 'No hole is cut yet.';
export const WITHOUT_HOLES = 'The tube without holes.', TAP_OPEN = 'Tap the holes that are open.';
export const OPEN_HOLES = 'Open holes', READ_THIS = 'Read this fingering';
export const NEAREST_SOUND_HOLE = 'nearest the sound hole', NEAREST_FOOT = 'nearest the foot';

// The notes as believed, and what the readings have told.
export const NOTES = 'Notes', BELIEVED_NOW = 'The notes as believed now', NOT_YET = 'not yet', SILENT = 'silent';
export const COLUMNS = ['Note', 'Hz wanted', 'will be', 'now'];
export const BARS = 'Wide, faint bar: the band before any reading. Strong bar: with all readings. Two of three flutes '
  + 'come within their band.';
export const WHAT_READINGS_TELL = 'What the readings tell';
export const NOTHING_HEARD = 'Nothing has been heard yet: the bands are as wide as for any such flute.';
/** @param {number} n @param {string} note @param {string} from @param {string} to */
export const shrunkBy = (n, note, from, to) =>
  `${n === 1 ? 'One reading has' : `${n} readings have`} shrunk the band of ${note} from ± ${from} to ± ${to} cents.`;
/** @type {Record<string, {name: string, above: string, below: string}>} and what is said above and below its model */
export const UNKNOWN = {
  sound_hole: { name: 'Sound hole', above: 'pulls flatter than its size says',
    below: 'pulls less flat than its size says' },
  sound_speed: { name: 'Air in the bore', above: 'warmer or drier than reckoned',
    below: 'cooler or heavier than reckoned' },
  bore: { name: 'Bore', above: 'acts wider than measured', below: 'acts narrower than measured' },
  wall: { name: 'Wall', above: 'acts thicker than measured', below: 'acts thinner than measured' },
  holes: { name: 'Finger holes', above: 'act larger than measured', below: 'act smaller than measured' },
  drift: { name: 'Your breath', above: 'lifts the high notes', below: 'lets the high notes sag' },
};
export const AS_RECKONED = 'as reckoned', ABOVE = 'above', BELOW = 'below';
export const anOctave = (/** @type {string} */ cents) => `${cents} cents an octave`;
export const notTold = (/** @type {string[]} */ names) =>
  `Not told by the readings, so they stay as assumed: ${names.join(', ').toLowerCase()}.`;

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
export const moreSteps = (/** @type {number} */ left) => `About ${left} more steps.`;

// What the plan cannot give: said before anything is cut for it.
export const UNSETTLED = 'These places have not settled: reckoned again with a little more known they may lie elsewhere.';
export const willBeSilent = (/** @type {string} */ note) => `By this plan ${note} will not speak.`;
export const willBeOff = (/** @type {string} */ note, /** @type {string} */ off) => `By this plan ${note} comes out ${off}.`;
export const CUT_NOTHING_YET = 'What is cut cannot be put back: see first what holds the marks back, and what the song could be.';
export const SEE_MARKS = 'See Marks';
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

// web/paper/words.js: what stands on the paper, and on the page that prints it.

import { noteName } from '../text/numbers.js';
import { ABOVE_MARKS } from '../text/parts.js';

// The kinds of sheet, by the name that stands on each; paper.js shows them as tabs.
export const LIST_TITLE = 'Marks list';
export const VOICE_TITLE = 'Voice sheet';
export const CARD_TITLE = 'Owner’s card';
export const LOG_TITLE = 'Bench log';
/** `short` for the buttons. @type {{kind: import('./paper.js').Kind, name: string, short: string,
 *   about: string}[]} */
export const KINDS = [
  { kind: 'strip', name: 'Marking strip', short: 'strip', about: 'The marks at their true size, to '
    + 'prick through onto the tube.' },
  { kind: 'list', name: LIST_TITLE, short: 'list', about: 'All distances in figures, for a ruler.' },
  { kind: 'voice', name: VOICE_TITLE, short: 'voice', about: 'Everything above the finger holes: each '
    + 'part’s size, where it comes from, how to make and measure it.' },
  { kind: 'card', name: CARD_TITLE, short: 'card', about: 'Goes with the flute: key, fingering, '
    + 'care.' },
  { kind: 'log', name: LOG_TITLE, short: 'log', about: 'To write down what was done and heard, '
    + 'and type it in later.' },
];

// paper.js
export const PAPER = 'Paper';
export const CLOSE = 'Close';
export const WAY = 'How it is used';
export const WRAP = 'Wrap round the tube';
export const ALONG = 'Lay along it';
export const MADE_BY = 'Made by';
export const STAYS_HERE = 'stays in this browser';
export const HOW_TO_PRINT = 'Print at 100 % (“actual size”). Check the two rules on the '
  + 'sheet before you cut. The PDF is the surest, above all from a phone.';
/** @param {string} about the sheet */
export const lastGood = (about) => `${about} These are the last good marks: some entries still wait.`;
/** @param {string} short */
export const printWords = (short) => `Print ${short}`;
/** @param {string} short @param {string} paper */
export const asPdf = (short, paper) => `${short} as PDF, ${paper}`;
export const LETTER = 'Letter';  // beside the button for A4
export const ONE_MOMENT = 'One moment.';
export const SAVED = 'The PDF is saved.';
export const SAVED_LACKING = 'The PDF is saved, but a name needs letters that it has not. It '
  + 'says so in their place; the print view has them.';
/** @param {string} why */
export const notSaved = (why) => `The PDF could not be made (${why}). Printing works without it.`;
/** Of the PDF, as its viewer shows it. @param {string} name of the kind */
export const pdfTitle = (name) => `Canewright, ${name.toLowerCase()}`;
/** @param {Date} date */
export const dateWords = (date) => date.toLocaleDateString('en-GB',
  { day: 'numeric', month: 'long', year: 'numeric' });

// pdf.js: in a name's place
export const NO_LETTERS = 'This name needs letters that a PDF made here has not: see the print view.';

// qr.js: why there is no code
export const LINK_COMES = 'The link is being made.';
export const NO_CODE_FILE = 'No link as a QR code: this page is a file on one machine, where '
  + 'no phone can open it.';
export const NO_CODE_LONG = 'No link as a QR code: it is too long for one that a phone reads. '
  + 'Pass it on as a link.';
export const NO_CODE = 'No link as a QR code: the link could not be made here.';

// facts.js, names.js
export const NAMELESS = 'A flute without a name';
export const FILE_STEM = 'flute';  // where no name gives a file one
/** Where distances are counted from. @type {Record<string, string>} */
const DATUMS = { centre: 'the centre of the sound hole', 'upstream edge': 'the sound hole’s upstream edge' };
/** @param {string} datum */
export const datumWords = (datum) => DATUMS[datum] ?? 'the splitting edge';
/** @param {string} version @param {string} date @param {string} commit @param {string} hash */
export const imprintWords = (version, date, commit, hash) =>
  `Canewright ${version}, ${date}, ${commit}, SHA-256 ${hash}`;

// sheet.js: head and foot of every sheet
/** @param {number} number @param {number} count */
export const sheetOf = (number, count) => `sheet ${number} of ${count}`;
export const PRINT_AT_100 = 'Print at 100 % (“actual size”), never “fit to page”.';
/** @param {boolean} inches */
export const checkRules = (inches) => `Both rules must measure ${inches ? '4 inches' : '100 mm'}; if one does not, `
  + 'do not mark with this.';

// tiles.js
export const STRIP_WRAP = 'Marking strip, to wrap round';
export const STRIP_ALONG = 'Marking strip, to lay along';
/** For a screen reader. @param {string} title @param {number} number @param {number} count */
export const stripSheet = (title, number, count) => `${title}, sheet ${number} of ${count}`;
/** @param {string} about the flute @param {string} datum @param {boolean} proposed whether anything is */
export const stripAbout = (about, datum, proposed) => `${about}. All distances from ${datum}.${
  proposed ? ` ${PROPOSED_NOTE}.` : ''}`;
export const CUT_HERE = 'cut here, lay on the next';
export const ENDS_ABOVE = 'the piece above ends here';
export const ENDS_LEFT = 'the piece at the left ends here';
export const TO_THE_MOUTH = 'to the mouth';

// strip.js
export const CUT_LEFT = 'cut the left edge exactly: it lies along the centre line';
export const SEAM = 'seam: this edge lies on the line at the right';
export const CENTRE_LINE = 'centre line';

// labels.js, and what list.js leaves to be filled in; a blank stands for what is not known
const BLANK = '________';
const SHORT_BLANK = '____';
export const MOUTH_END = 'mouth end';
export const BLANK_MM = `${BLANK} mm`;
export const CHAMBER = 'chamber';
export const CHAMBER_LENGTH = `length ${BLANK} mm`;
export const CHAMBER_TOP = 'chamber, upper end';
export const AIR_HOLE = 'air hole';
export const AIR_HOLE_WIDTH = `⌀ ${BLANK} mm`;
/** @param {string} width */
export const airHole = (width) => `air hole ⌀ ${width}`;
export const FLAT = 'flat for the block';
/** @param {string} [wall] [mm] @param {string} [width] */
export const flatWords = (wall = SHORT_BLANK, width = SHORT_BLANK) => `wall ${wall} mm, ${width} wide`;
export const BLOCK = 'block';
/** @param {string} [width] @param {string} [height] */
export const blockWords = (width = SHORT_BLANK, height = SHORT_BLANK) => `${width} wide, ${height} high`;
export const NODE = 'node';
export const PLUG = 'plug';
/** @param {string} stop node or plug */
export const upperFace = (stop) => `${stop}, upper face`;
/** @param {string} stop */
export const lowerFace = (stop) => `${stop}, lower face`;
export const TRACK = 'track';
export const TRACK_BEGINS = 'track begins';
export const BEGINS_AT = `begins ${BLANK} mm`;
/** @param {string} [width] @param {string} [depth] with its unit */
export const trackWords = (width = SHORT_BLANK, depth = SHORT_BLANK) => `${width} wide, ${depth} deep`;
/** What is proposed for this tube, not measured on it. @param {string} head */
export const asProposed = (head) => `${head} *`;
export const PROPOSED_NOTE = '* proposed for this tube, not entered';
export const SEE_VOICE = 'the voice sheet says by which rule.';
export const RAMP_ENDS = 'ramp ends';
export const UPSTREAM_EDGE = 'upstream edge';
export const SOUND_HOLE_CENTRE = 'sound hole, centre';
export const SPLITTING_EDGE = 'splitting edge';
export const SOUND_HOLE = 'sound hole';
/** @param {string} length @param {string} width */
export const soundHoleWords = (length, width) => `${length} long × ${width} wide`;
/** @param {number} number */
export const holeWords = (number) => `hole ${number}`;
/** @param {number} number @param {string} bit */
export const holeLine = (number, bit) => `hole ${number}  ${bit}`;
export const FOOT = 'foot';
export const COME_BACK = 'come back to here';
export const AS_IT_IS = 'as it is';
export const SAW_FIRST = 'saw here first';
/** @param {string} length */
export const longer = (length) => `${length} longer`;

// list.js
/** @type {Record<string, string>} */
export const MARKS = { ...ABOVE_MARKS, saw: 'Saw here first', end: 'The tube ends now' };
/** @param {number | undefined} number */
export const holeMark = (number) => `Hole ${number}`;
export const FOOT_MARK = 'Foot';
export const SAW = 'saw';
export const LIST_HEADS = { mark: 'mark', datum: 'from the datum', centre: 'from centre', bit: 'bit, size',
  slack: 'slack', note: 'note' };
/** @param {string} about the flute @param {number} cents */
export const listAbout = (about, cents) => `${about}. Tolerance ${cents} cents.`;
/** @param {string} datum @param {boolean} centred whether that is the centre */
export const distanceWords = (datum, centred) => `Datum: ${datum}${
  centred ? '' : '; centre: that of the sound hole'}. Distances without a sign go towards the foot, `
  + 'with − towards the mouth.';
/** @param {number} cents */
export const slackWords = (cents) => `Slack: how far a mark may be off before its own note alone is ${
  cents} cents off. Beside the note: how sure it is, with the errors of your shop (one standard deviation).`;
export const PLUG_THICKNESS = 'plug’s thickness';
export const TRACK_LENGTH = 'track’s length';
/** @param {string[]} names of what nobody has told */
export const notEntered = (names) => `Not entered, write it here: ${
  names.map((name) => `${name} ${BLANK}`).join(', ')}.`;
export const CARE = 'care';

// voice.js
/** @param {string} about the flute @param {number} scale */
export const voiceAbout = (about, scale) => `${about}. Cut open along the tube, ${scale} : 1.`;
export const PART_HEADS = { part: 'part', size: 'size', where: 'where it comes from' };
export const PROPOSED_HOW = 'Proposed sizes are common practice, no source; dashed in the drawing. They decide '
  + 'the breath, hardly the pitch. Change them on the station Voice, or write yours over them.';
export const MEASURE = 'how to measure';

// log.js
/** Of the columns, from the left. */
export const LOG_HEADS = ['step', 'plan', 'measured', 'fingers', 'heard hz', 'room °c', 'remarks'];
/** @param {string} datum @param {boolean} inches */
export const logAbout = (datum, inches) => `Distances from ${datum}, in ${
  inches ? 'inches' : 'mm'}. Fill the circles of the holes that were covered.`;
export const FOOT_LONG = 'Foot, sawn long';
export const TUBE_AS_IT_IS = 'Tube as it is';
export const VOICE_MADE = 'Voice made, no holes';
export const FOOT_BACK = 'Foot, taken back';
/** @param {number} number @param {string} bit */
export const holeStep = (number, bit) => `Hole ${number}, ${bit}`;

// card.js: outside
/** @param {string} about the flute */
export const cardAbout = (about) => `${about}. Cut out, fold in the middle.`;
export const KEY = 'key';
/** @param {number} a4 [Hz] */
export const pitchWords = (a4) => `${noteName('A4')} = ${a4} Hz`;
/** @param {number} a4 [Hz] @param {number} room [°C] */
export const pitchInRoom = (a4, room) => `${noteName('A4')} = ${a4} Hz, in a room of ${room} °C`;
export const MAKER = 'made by';
export const DATE = 'date';
/** Lines beside the code. */
export const BESIDE_CODE = ['This flute’s page:', 'marks, fingering,', 'all its measures.'];

// card.js: inside
export const FINGERING = 'fingering';
export const FILLED = 'filled is covered; the sound hole is to the left';
/** @param {number} cents above the lowest note */
export const intervalWords = (cents) => `${cents} cents`;
/** Care of a flute; common practice, no source. */
export const CARE_PLASTIC = [
  'Wash it in lukewarm water, never hot; let it dry open.',
  'Keep it out of the sun and off heaters: it softens and bends.',
  'Brush the track clean; never scrape the splitting edge.',
];
export const CARE_CANE = [
  'Warm it in the hand before playing, let it dry in the open after.',
  'Keep it from heaters, sun and a closed car: it may split.',
  'Oil it thinly when it looks dry, never on block, track or edge.',
  'Keep the block tied where it is; wipe the mouthpiece after each player.',
];

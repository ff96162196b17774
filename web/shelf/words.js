// web/shelf/words.js: what the shelf says: a flute's key and state, links, and the views' own words.

import { about } from '../text/marks.js';
import { countWord } from '../text/numbers.js';

/** A name within a sentence that is not marked up: its writing direction stays its own.
 * @param {string} text */
const isolated = (text) => `\u2068${text}\u2069`;

/** @param {string} name */
export const quoted = (name) => isolated(`‘${name}’`);

/** @param {Pick<Doc, 'name'>} doc */
export const nameOf = (doc) => {
  const name = (doc.name ?? '').trim();
  return name === '' ? 'A flute without a name' : name;
};

/** "G4 minor pentatonic, five holes". @param {Doc} doc @param {Marks | null} marks */
export function keyWords(doc, marks) {
  const notes = [{ open: [], name: marks?.lowest ?? null }];
  const words = about(/** @type {any} */ ({ answer: { song: doc.song, notes } }));
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** How far the build has come. @param {Doc} doc */
export function buildWords(doc) {
  const log = doc.log ?? [];
  const cut = new Set(log.flatMap((e) => e.hole?.number ?? [])).size;
  const readings = log.filter((e) => e.read !== undefined).length;
  const holes = doc.song.holes;
  if (log.length === 0) return 'planned';
  const made = cut === 0 ? 'begun, no hole yet' : cut >= holes ? 'all holes cut'
    : `${countWord(cut)} of ${countWord(holes)} holes cut`;
  return readings === 0 ? made : `${made}, ${readings} reading${readings === 1 ? '' : 's'}`;
}

/** Whether nothing but a last touch is left. @param {Doc} doc */
export const isCut = ({ log = [], song }) => new Set(log.flatMap((e) => e.hole?.number ?? [])).size >= song.holes;

/** Whether it can teach the next one. @param {Doc} doc */
export const isRead = (doc) => (doc.log ?? []).some((e) => e.read !== undefined);

/** @param {number} at [ms] */
export const dateWords = (at) => (at > 0 ? new Date(at).toLocaleDateString(undefined,
  { day: 'numeric', month: 'short', year: 'numeric' }) : '');

/** @type {Record<string, string>} */
const LINKS = {
  not_a_link: 'This is not a link to a flute.',
  link_cut_off: 'The end of this link is missing: a chat or mail program has cut it. Ask for it again, '
    + 'best as a QR code or a file.',
  link_damaged: 'A letter of this link has changed on the way. Ask for it again.',
  link_newer: 'This link was made by a newer version of this page. Load the page anew, then open the '
    + 'link again.',
  link_too_long: 'This link is longer than any that this page makes.',
};

/** Why a link was not opened. @param {Reply<unknown>} reply */
export function linkSentence({ violations, fault }) {
  const code = violations?.[0]?.code ?? '';
  if (Object.hasOwn(LINKS, code)) return LINKS[code];
  if (violations === undefined) return `The link could not be read, which is our fault. (${fault})`;
  return `The link is whole, but a figure in it cannot be (${violations[0]?.path}: ${
    code.replaceAll('_', ' ')}).`;
}

/** Why no link was made. @param {Reply<unknown>} reply @param {boolean} log is in it */
export function noLinkSentence({ violations, fault }, log) {
  const code = violations?.[0]?.code;
  if (code === 'link_too_long') {
    return log ? 'With its log this flute is too long for a link. Leave the log out, or send the file.'
      : 'This flute is too long for a link. Send the file.';
  }
  return `No link could be made (${code?.replaceAll('_', ' ') ?? fault}). Send the file.`;
}

// names.js
export const COPY_ENDING = ' (copy)';
export const COPY_STEM = 'Flute';  // where the copied one has no name
export const FILE_STEM = 'flute';

// on more than one view
export const CLOSE = 'Close';
export const TRY_AGAIN = 'Try again';
export const DOWNLOAD_FILE = 'Download file';
export const NO_ROOM_BACK = 'It could not be brought back: this browser has no room.';
export const SET_ASIDE_FILE = 'canewright set aside.json';

// shelf.js
export const SEARCH = 'Search';
export const SEARCH_SHELF = 'Search the shelf';
export const NONE_FOUND = 'No flute on the shelf has these words.';
export const EXAMPLE_IN_HAND = 'The example is in hand. What you measure and change is kept here by itself.';
export const KEPT_HERE = 'Every flute you work on is kept here by itself, in this browser only.';
export const ANOTHER = 'Start another flute';
export const UNDO = 'Undo';
export const IS_BACK = 'It is back.';
/** @param {string} why */
export const notLoaded = (why) => `This part could not be loaded (${why}).`;

// entry.js
export const TAKE = 'Take in hand';
export const PRINT = 'Print';
export const AS_PATTERN = 'Use as pattern for the tube in hand';
export const PASS_ON = 'Pass it on';
export const RENAME = 'Rename';
export const DUPLICATE = 'Duplicate';
export const DELETE = 'Delete';
/** @param {string} name */
export const deleteWords = (name) => `Delete ${isolated(name)}`;
export const IN_HAND = 'in hand';
export const NOT_KEPT_YET = 'not kept yet';
export const NEW_NAME = 'New name';
export const KEEP_NAME = 'Keep the name';

// deeds.js; each name is quoted already
export const FULL = 'This browser keeps no more. Download the shelf as a file, then delete some flutes for good.';
export const STAYS_IN_HAND = 'The flute in hand could not be kept, so it stays. Download it first.';
export const NO_UNDO = 'It could not be deleted: this browser has no room to keep it for an undo.';
/** @param {string} name */
export const isInHand = (name) => `${name} is in hand.`;
/** @param {string} name */
export const cannotBeShown = (name) => `${name} cannot be shown by this version of the page.`;
/** @param {string} name @param {boolean} blank */
export const isPattern = (name, blank) => `${name} is the pattern now; ${blank ? 'the tube in hand is still to be measured.'
  : 'the tube in hand stays what it is.'}`;
/** After it, where one flute took the place of several. */
export const TAUGHT_WAITS = ' What your flutes taught waits for the next tube.';
export const BACK_TO_TAUGHT = 'Back to what your flutes taught';
/** @param {string} name */
export const isOffered = (name) => `${name} is offered as a file.`;
/** @param {string} name */
export const isDeleted = (name) => `${name} is deleted.`;
/** @param {string} name @param {boolean} log whether the first has one */
export const isCopied = (name, log) => `${name} is on the shelf.${
  log ? ' The log stays with the first: it belongs to that tube.' : ''}`;

// pattern.js
export const COMPARISON = 'Pattern and this tube';
export const MARK = 'Mark';
export const THIS_TUBE = 'This tube';
export const DIFFERENCE = 'Difference';
export const SOUND_HOLE_LENGTH = 'Sound hole, length';
export const FOOT = 'Foot';
export const WITHOUT_PATTERN = 'Without a pattern';
/** @param {string} datum @param {boolean} inches */
export const patternNote = (datum, inches) => 'The pattern’s voice, breath, song and spacing are taken over; the '
  + `marks follow from this tube’s own bore and wall. From the ${datum} in ${inches ? 'inches' : 'mm'}.`;
/** @param {string | undefined} why */
export const nothingLearned = (why) => `Nothing could be learned from this flute’s log (${why}).`;

// share.js
export const NEEDS_ADDRESS = 'This page is open as a file, which no other device can reach. A link needs '
  + 'the page on the web: write its address there.';
export const ADDRESS = 'Address of the page';
export const LINK = 'Link';
export const COPY_LINK = 'Copy link';
export const SHARE = 'Share …';
export const ONE_MOMENT = 'One moment.';
/** @param {number} entries */
export const withLogWords = (entries) => `With its log: ${entries} ${entries === 1 ? 'entry' : 'entries'}`;
/** @param {string} why */
export const noLinkMaker = (why) => `The part that makes links could not be loaded (${why}).`;
export const WITHOUT_ADDRESS = 'Without an address in front this text can be pasted after the # of the page.';
/** @param {number} length */
export const tooLongForCode = (length) =>
  `${length} characters: too long for a QR code that a phone reads well. Send the link.`;
/** @param {number} length */
export const linkLength = (length) =>
  `${length} characters. All of the flute is in the link itself; no server keeps it.`;
export const COPIED = 'Copied.';
export const LINK_MARKED = 'The link is marked: copy it from the box.';
export const NOT_SHARED = 'This device did not share it. Copy the link instead.';

// store.js
export const WAYS = 'Files and links';
export const REAL_SAVE = 'The shelf is a convenience of this browser. The real save is a file, or '
  + 'a link that you sent to yourself.';
export const DOWNLOAD_SHELF = 'Download the whole shelf';
export const SHELF_OFFERED = 'The whole shelf is offered as a file.';
/** @param {string} date */
export const shelfFile = (date) => `canewright shelf ${date}.json`;
export const BRING_IN = 'Bring in a file';
/** @param {string} file @param {string} why */
export const notRead = (file, why) => `${file} could not be read (${why}).`;
export const OPEN_LINK = 'Open a link that was sent to you';
export const OPEN = 'Open';
export const DELETED = 'Deleted';
/** @param {number} at [ms] */
export const deletedWords = (at) => ` deleted ${dateWords(at)}`;
export const BRING_BACK = 'Bring back';
export const IS_BACK_ON_SHELF = 'It is back on the shelf.';
export const DELETE_FOR_GOOD = 'Delete for good';
export const SET_ASIDE = 'Set aside';
/** @param {number} length */
export const setAsideWords = (length) => `${length} characters that could not be read back `;
export const DOWNLOAD = 'Download';
export const ASK_TO_KEEP = 'Ask it to keep the shelf';
export const NOT_PROMISED = 'The browser did not promise it. Put the page on the home screen, or keep files. ';
export const KEEPS = 'This browser has promised to keep the shelf until you clear it yourself. ';
export const KEEPS_PERHAPS = 'This browser may clear the shelf when it is short of room, or after some days '
  + 'without a visit. ';
export const KEEPS_UNKNOWN = 'This browser does not say how long it keeps the shelf. ';

// files.js
export const NO_SHELF = 'It is no file of this page, or it is damaged.';
export const NO_FLUTE = 'It is no flute of this page, or too large for one.';
export const NO_FLUTES = 'There is no flute in this file.';
export const NO_RECKONING = 'It cannot be reckoned with.';
/** @param {Violation} violation */
export const codeWords = ({ path, code }) => `${path || 'The file'}: ${code.replaceAll('_', ' ')}.`;
/** @param {string} file */
export const tooLargeShelf = (file) => `${file} is too large to be a shelf of this page.`;
/** @param {string} file */
export const tooLargeFlute = (file) => `${file} is too large to be a flute of this page.`;
/** @param {number} added @param {number} all */
export const onlySome = (added, all) =>
  `Only ${added} of ${all} flutes were put on the shelf: this browser keeps no more. Keep the file.`;
/** @param {number} count */
const flutesWords = (count) => (count === 1 ? 'One flute' : `${count} flutes`);
/** @param {number} added @param {number} same @param {number} refused @param {string} why */
export const outOfFile = (added, same, refused, why) => [added > 0 && `${flutesWords(added)} put on the shelf.`,
  same > 0 && `${flutesWords(same)} of the file ${same === 1 ? 'is' : 'are'} on the shelf already.`,
  refused > 0 && `${flutesWords(refused)} left out. ${why}`].filter(Boolean).join(' ');

// opened.js
export const FROM_LINK = 'Opened from a link: ';
export const OWN_ON_SHELF = 'Your own is on the shelf. ';
export const KEPT_WHEN_CHANGED = 'This one is kept as soon as you change it.';
export const OWN_WITH_CHANGES = 'With your changes it is a flute of its own on your shelf.';
export const BACK_TO_EXAMPLE = 'Back to the example';
export const BACK_TO_MINE = 'Back to mine';
export const LINK_NOT_OPENED = 'The link was not opened. ';
export const UNTOUCHED = ' What you have here is untouched.';
export const LINK_AS_IT_CAME = 'The link as it came';
export const TRY_TEXT = 'Try this text';
export const LINK_WAITS = 'The link is not opened yet. ';
export const HAND_NOT_KEPT = 'This browser cannot keep the flute that you have in hand, so it stays. '
  + 'Save it as a file first.';
export const DOWNLOAD_MINE = 'Download mine';
export const ALREADY_IN_HAND = 'The flute of this link is the one in hand.';
/** @param {string} why */
export const notLaidOut = (why) => `The link is whole, but its flute cannot be laid out. ${why}`;

// tell.js: each notice's first words in bold, then the rest
export const ALL_RIGHT = 'All right';
export const CHANGED_THERE_TOO = 'Changed in another tab too. ';
export const TWO_NOW = 'Yours goes on here as a flute of its own; theirs is on the shelf beside it.';
export const NOT_SAVED = 'NOT SAVED. ';
export const KEEPS_NOTHING = 'This browser does not keep what you enter: its storage is full or switched off. '
  + 'Save it as a file before you close the page.';
export const DELETED_THERE = 'Deleted in another tab. ';
export const STILL_HERE = 'It is still here, and is kept again as soon as you change it.';
export const CHANGED_THERE = 'Changed in another tab. ';
export const IS_OLDER = 'What you see here is the older state.';
export const SHOW_THEIRS = 'Show theirs';
export const KEEP_AS_COPY = 'Keep mine as a copy';
export const ONLY_SECOND = 'Only the second copy is left. ';
export const STORAGE_FULL = 'This browser’s storage is full. ';
/** After their names. @param {number} count */
export const fromSecond = (count) => `${count === 1 ? ' comes' : ' come'} from a second copy that it may drop in `
  + 'a week. Save it as a file, and delete something from the shelf.';
export const SECOND_FILE = 'canewright second copies.json';
export const CALCULATES_AGAIN = 'The calculation had stopped and was started again. ';
export const NOTHING_LOST = 'Nothing you entered or logged is lost. If it happens again, close what else is open.';
export const NOT_ALL_READ = 'Not all could be read back. ';
export const IS_SET_ASIDE = 'Something kept in this browser is damaged. The last whole state is shown; what was '
  + 'found is set aside, not deleted.';
export const DOWNLOAD_IT = 'Download it';

// moved.js
export const MARKS_STAND = 'The marks stand as they were. ';
export const WHY_MOVED = 'They come from another version of this page; this one, with what is in the log, would '
  + 'move them:';
export const OLD_OR_NEW = 'Take the new ones unless yours are on the tube already and you want to drill there. '
  + 'The old ones do not heed what you read from now on.';
export const TAKE_NEW = 'Take the new';
export const KEEP_OLD = 'Keep the old marks';
/** @param {string} from @param {string} to */
export const movedNote = (from, to) => `a note: ${from} → ${to} cents`;
/** @param {Move['what']} what @param {number} number */
export const movedMark = (what, number) => (what === 'foot' ? 'foot'
  : what === 'size' ? `hole ${number}, width` : `hole ${number}`);
/** @param {string} mark @param {string} from @param {string} to */
export const moveOf = (mark, from, to) => `${mark}: ${from} → ${to}`;
/** @param {number} number */
export const holeName = (number) => `Hole ${number}`;

// web/guide/steps.js: the eight things asked, in the order of the hand: the ruler, the end of the tube, along
// it, the sound hole, what stands in it, what it shall play.

import { h } from '../widgets/dom.js';
import { lengthField } from '../widgets/field.js';
import { under } from '../widgets/fraction_keys.js';
import { fractionOf, isBlank, unitOf } from '../state/desk.js';
import { valueAt, withValue } from '../state/path.js';
import { wallBy } from '../state/wall.js';
import { nextNote } from '../text/notes.js';
import { countWord, noteName } from '../text/numbers.js';
import { chips } from './chips.js';
import * as pictures from './pictures.js';
import { AS_IT_IS, BORE, END, HAVE_OUTSIDE, HAVE_WALL, HOLE_LENGTH, HOLE_WIDTH, LOWEST, MILLIMETRES, OUTSIDE, PLUG,
  UNITS, WALL, hertz, inches, scaleWords } from './words.js';

/** @typedef {{nodes: Node[], focus: () => void, remove: () => void}} Screen */
/**
 * @typedef {object} Step
 * @property {{title: string, how: string, skip: string}} words
 * @property {string[]} paths of the document, that it enters
 * @property {boolean} needed no marks without
 * @property {(s: State) => boolean} other whether it is asked for the other way
 * @property {(s: State) => string} how
 * @property {(s: State) => SVGElement} picture
 * @property {(desk: Desk, redo: () => void) => Screen} screen `redo` shows it anew
 * @property {(desk: Desk) => void} usual what skipping means
 */

/** @param {Partial<Step> & Pick<Step, 'words' | 'paths' | 'picture' | 'screen'>} own @returns {Step} */
const step = (own) => ({ needed: false, other: () => false, how: () => own.words.how, usual: () => {}, ...own });

/** Where the ruler is in inches for most (from memory of CLDR's measurementData: US, LR, MM).
 * @param {string} language */
export const inInches = (language) => /-(US|LR|MM)\b/i.test(language);

/** The ruler that is proposed, where nobody has said. @param {Desk} desk @param {string} language */
export function proposeUnit(desk, language) {
  if (desk.store.get().doc.show !== undefined) return;
  const usual = desk.choices.defaults.show;
  desk.set('show', { ...usual, unit: inInches(language) ? 'inch' : 'mm' });
}

/** @param {Desk} desk @returns {Screen} */
const units = (desk) => chips(desk, {
  label: UNITS.title,
  options: () => [['mm', MILLIMETRES], ...desk.choices.fractions.map((n) => /** @type {[string, string]} */ (
    [`inch/${n}`, inches(n)]))],
  now: (s) => (unitOf(s) === 'inch' ? `inch/${fractionOf(s)}` : 'mm'),
  pick: (value) => desk.edit((s) => {
    const [unit, fraction] = value.split('/');
    const doc = withValue(s.doc, 'show.unit', unit);
    return { doc: fraction === undefined ? doc : withValue(doc, 'show.fraction', Number(fraction)) };
  }),
});

/** @param {Desk} desk @param {string} path @param {string} label @param {boolean} [optional] @returns {Screen} */
function length(desk, path, label, optional = false) {
  const { element, remove } = lengthField(desk, path, { label, optional, steps: false });
  const input = /** @type {HTMLInputElement} */ (element.querySelector('input'));
  // A keyboard that is told of a next field would look for it on the page; here the key has to arrive.
  input.setAttribute('enterkeyhint', 'go');
  const s = desk.store.get();
  if (unitOf(s) === 'inch') under(element, input, fractionOf(s));
  return { nodes: [element], remove, focus: () => {
    input.focus();
    input.select();
  } };
}

/** @param {{title: string, label: string, how: string, skip: string}} words @param {string} path
 * @param {() => SVGElement} picture @returns {Step} */
const size = (words, path, picture) => step({ words, paths: [path], needed: true, picture,
  screen: (desk) => length(desk, path, words.label) });

const WALL_PATHS = ['tube.wall_mm', 'tube.outer_mm'];
/** @param {State} s */
const hasOutside = (s) => s.doc.tube.outer_mm !== undefined;

const SEMITONES = 4;  // above the tube's own lowest note, among which to choose

/** @param {State} s @returns {[string, string][]} */
function notesFor(s) {
  const { lowest } = s.doc.song;
  const own = isBlank(s) ? null : s.answer.cane.lowest_name;
  /** @type {string[]} */
  const names = [];
  for (let name = own ?? undefined; name !== undefined && names.length <= SEMITONES; name = nextNote(name, 1)) names.push(name);
  if (typeof lowest === 'string' && lowest !== 'free' && !names.includes(lowest)) names.push(lowest);
  return [['free', AS_IT_IS], ...names.map((name) => /** @type {[string, string]} */ ([name, noteName(name)])),
    ...(typeof lowest === 'object' ? [/** @type {[string, string]} */ (['hz', hertz(lowest.hz)])] : [])];
}

/** @type {Step[]} */
export const STEPS = [
  step({ words: UNITS, paths: ['show'], picture: pictures.ruler, screen: units }),
  size(BORE, 'tube.bore[0].diameter_mm', pictures.bore),
  step({
    words: WALL, paths: WALL_PATHS, needed: true, other: hasOutside,
    how: (s) => (hasOutside(s) ? OUTSIDE : WALL).how,
    picture: (s) => (hasOutside(s) ? pictures.outside : pictures.wall)(),
    screen: (desk, redo) => {
      const outside = hasOutside(desk.store.get());
      const entry = length(desk, WALL_PATHS[Number(outside)], (outside ? OUTSIDE : WALL).label);
      return { ...entry, nodes: [...entry.nodes, h('button', { type: 'button', class: 'plain', onclick: () => {
        wallBy(desk, outside ? 'wall' : 'outer');
        redo();
      } }, outside ? HAVE_WALL : HAVE_OUTSIDE)] };
    },
  }),
  size(END, 'tube.end_mm', pictures.end),
  size(HOLE_LENGTH, 'sound_hole.length_mm', pictures.holeLength),
  size(HOLE_WIDTH, 'sound_hole.width_mm', pictures.holeWidth),
  step({ words: PLUG, paths: ['plug.offset_mm'], picture: pictures.plug,
    screen: (desk) => length(desk, 'plug.offset_mm', PLUG.label, true),
    usual: (desk) => desk.set('plug.offset_mm', undefined) }),
  step({
    words: LOWEST, paths: ['song.lowest'], picture: pictures.lowest,
    how: (s) => `${LOWEST.how} ${scaleWords(typeof s.doc.song.scale === 'string' ? s.doc.song.scale : '',
      countWord(s.doc.song.holes))}`,
    screen: (desk) => chips(desk, { label: LOWEST.title, options: notesFor,
      now: ({ doc: { song: { lowest } } }) => (typeof lowest === 'object' ? 'hz' : lowest),
      pick: (value) => { if (value !== 'hz') desk.set('song.lowest', value); } }),
    usual: (desk) => desk.set('song.lowest', 'free'),
  }),
];

/** Whether marks wait for its figure. @param {Step} one @param {State} s */
export const lacks = (one, s) => one.needed && !one.paths.some((path) => typeof valueAt(s.doc, path) === 'number');

// web/voice/cut/cut.js: the voice as it is cut: ramp, splitting edge, block, side walls; what each is worth.

/// <reference path="../types.d.ts" />
import { h, say } from '../../widgets/dom.js';
import { radios } from '../../widgets/choice.js';
import { isObject } from '../../state/keep.js';
import { valueAt, withValue } from '../../state/path.js';
import { proposalOf } from '../proposal.js';
import { sizeField } from '../size_field.js';
import { BLOCK_FRONT, BLOCK_HEIGHT, BLOCK_WIDTH, EDGE, RAMP_MM, WALLS_LENGTH, WALLS_MM, WALLS_THICKNESS } from '../words.js';
import { AS_CUT, AS_CUT_LEAD, BLOCK, NONE, NOT_SAID, MEASURED, RAMP, RAMP_LONG, RAMP_SHORT, SIDE_WALLS,
  THERE, WALLS_HIGH, WALLS_LOW, partWorth, slideWords } from './words.js';

/**
 * A choice between words and figures.
 * @typedef {object} Choice
 * @property {string} key of what it sets aside
 * @property {string[]} paths that it decides on
 * @property {string} figures the option under which figures are entered
 * @property {(s: State) => string} now
 * @property {(doc: Doc, value: string) => Doc} write a document bare of `paths`
 */

/** @param {VoiceSession} session */
export function asCut(session) {
  const { desk } = session;
  const figures = { ramp: false, walls: false };  // asked for, none typed yet
  /** @param {State} s @param {string} path */
  const entered = (s, path) => under(s.typed, path).length > 0 || valueAt(s.doc, path) !== undefined;
  /** @param {State} s */
  const stands = (s) => s.doc.block !== 'none';
  /** @param {State} s */
  const walls = (s) => valueAt(s.doc, 'block.side_walls');

  /** @type {Choice} */
  const ramp = { key: 'ramp', paths: ['sound_hole.ramp', 'sound_hole.ramp_mm'], figures: 'measured',
    now: (s) => s.doc.sound_hole.ramp
      ?? (figures.ramp || entered(s, 'sound_hole.ramp_mm') ? 'measured' : ''),
    write: (doc, value) => (value === '' || value === 'measured' ? doc
      : withValue(doc, 'sound_hole.ramp', value)) };
  /** @type {Choice} */
  const block = { key: 'block', paths: ['block'], figures: 'there',
    now: (s) => (s.doc.block === 'none' ? 'none' : s.doc.block === undefined
      && under(s.typed, 'block').length === 0 ? '' : 'there'),
    write: (doc, value) => (value === '' ? doc : withValue(doc, 'block', value === 'none' ? 'none' : {})) };
  /** @type {Choice} */
  const side = { key: 'walls', paths: ['block.side_walls'], figures: 'measured',
    now: (s) => (typeof walls(s) === 'string' ? walls(s)
      : figures.walls || entered(s, 'block.side_walls') ? 'measured' : ''),
    write: (doc, value) => (value === '' || value === 'measured' ? doc
      : withValue(doc, 'block.side_walls', value)) };

  /** @param {Choice} choice @param {string} label @param {[string, string][]} options
   * @param {(value: string) => void} [also] */
  const choose = (choice, label, options, also) => radios(desk, { label, options, now: choice.now,
    pick: (value) => {
      also?.(value);
      desk.edit((s) => picked(s, choice, value));
    } });
  /** @param {string} path @param {{label: string, full?: string, note?: string}} how
   * @param {(s: State) => boolean} when */
  const line = (path, how, when) => {
    const shown = () => when(desk.store.get());
    const { element } = sizeField(desk, path, { ...how, when: shown });
    const whole = h('div', { class: 'part' }, element, worth(session, path));
    desk.store.subscribe((s) => { whole.hidden = !when(s); });
    return whole;
  };
  /** @param {State} s */
  const there = (s) => block.now(s) === 'there';
  /** @param {State} s */
  const wallsMeasured = (s) => stands(s) && side.now(s) === 'measured';

  const sideWalls = h('div', {}, choose(side, SIDE_WALLS, [['', NOT_SAID], ['none', NONE], ['low', WALLS_LOW],
    ['high', WALLS_HIGH], ['measured', MEASURED]], (value) => { figures.walls = value === 'measured'; }),
  worthWhen(session, 'block.side_walls.height_mm', (s) => side.now(s) !== 'measured'));
  desk.store.subscribe((s) => { sideWalls.hidden = !stands(s); });

  return h('section', { 'aria-label': AS_CUT }, h('h3', {}, AS_CUT), h('p', { class: 'note' }, AS_CUT_LEAD),
    choose(ramp, RAMP, [['', NOT_SAID], ['none', NONE], ['short', RAMP_SHORT], ['long', RAMP_LONG],
      ['measured', MEASURED]], (value) => { figures.ramp = value === 'measured'; }),
    worthWhen(session, 'sound_hole.ramp_mm', (s) => ramp.now(s) !== 'measured'),
    line('sound_hole.ramp_mm', RAMP_MM, (s) => ramp.now(s) === 'measured'),
    line('sound_hole.edge_mm', EDGE, () => true),
    choose(block, BLOCK, [['', NOT_SAID], ['none', NONE], ['there', THERE]]),
    line('block.height_mm', BLOCK_HEIGHT, there),
    line('block.width_mm', BLOCK_WIDTH, there),
    line('block.front_mm', BLOCK_FRONT, there),
    slide(session, stands),
    sideWalls,
    line('block.side_walls.height_mm', WALLS_MM, wallsMeasured),
    line('block.side_walls.thickness_mm', WALLS_THICKNESS, wallsMeasured),
    line('block.side_walls.length_mm', WALLS_LENGTH, wallsMeasured));
}

/** The state with another option; figures of the one before are set aside and come back with it.
 * @param {State} s @param {Choice} choice @param {string} value @returns {Partial<State>} */
export function picked(s, { key, paths, figures, now, write }, value) {
  const mine = paths.flatMap((path) => under(s.typed, path));
  const typed = Object.fromEntries(Object.entries(s.typed).filter(([path]) => !mine.includes(path)));
  const kept = s.aside.voice ?? {};
  const values = Object.fromEntries(paths.map((path) => [path, valueAt(s.doc, path)])
    .filter(([, each]) => each !== undefined));
  const left = now(s) === figures
    ? { values, texts: Object.fromEntries(mine.map((path) => [path, s.typed[path]])) } : kept[key];
  const bare = paths.reduce((doc, path) => withValue(doc, path, undefined), s.doc);
  const aside = { ...s.aside, voice: { ...kept, ...(left === undefined ? {} : { [key]: left }) } };
  const values0 = isObject(left?.values) ? left.values : {};
  const texts = isObject(left?.texts) ? left.texts : {};
  if (value !== figures || Object.keys(values0).length + Object.keys(texts).length === 0) {
    return { doc: write(bare, value), typed, aside };
  }
  const back = paths.reduce((doc, path) => (values0[path] === undefined ? doc
    : withValue(doc, path, values0[path])), write(bare, value));
  const again = Object.entries(texts).filter(([, t]) => typeof t?.text === 'string'
    && typeof t.unit === 'string' && (t.problem === null || typeof t.problem?.code === 'string'));
  return { doc: back, typed: { ...typed, ...Object.fromEntries(again) }, aside };
}

/** Paths of texts typed for a path or below it. @param {State['typed']} typed @param {string} path */
const under = (typed, path) => Object.keys(typed).filter((p) => p === path || p.startsWith(`${path}.`));

/** What a millimetre of a part does. @param {VoiceSession} session @param {string} path */
function worth(session, path) {
  const words = h('p', { class: 'note does' });
  session.watch((s, v) => [v.now, s.doc.show], (s, v) => {
    const part = v.now?.as_cut.parts.find((p) => p.path === path);
    say(words, part === undefined ? '' : partWorth(part, proposalOf(v, path), s, session.engine));
  });
  return words;
}

/** @param {VoiceSession} session @param {string} path @param {(s: State) => boolean} when */
function worthWhen(session, path, when) {
  const words = worth(session, path);
  session.desk.store.subscribe((s) => { words.hidden = !when(s); });
  return words;
}

/** @param {VoiceSession} session @param {(s: State) => boolean} when */
function slide(session, when) {
  const words = h('p', { class: 'slide' });
  session.watch((s, v) => [v.now, s.doc], (s, v) => {
    words.hidden = !when(s);
    const front = v.now?.as_cut.parts.find((part) => part.path === 'block.front_mm');
    say(words, front === undefined ? '' : slideWords(front, s));
  });
  return words;
}

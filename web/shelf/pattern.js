// web/shelf/pattern.js: a finished flute teaches the next: its voice, its song and its spacing go to
// the tube in hand, and its marks are shown beside the new ones.

import { h } from '../widgets/dom.js';
import { datumShift, isBlank } from '../state/desk.js';
import { startFresh, withFittingHands } from '../state/fresh.js';
import { isExample } from '../state/keeper.js';
import { inUnit } from '../text/numbers.js';
import { valueAt, withValue } from '../state/path.js';
import { handOf, withHand, withPattern } from '../state/taught.js';
import { BACK_TO_TAUGHT, COMPARISON, DIFFERENCE, FOOT, MARK, SOUND_HOLE_LENGTH, STAYS_IN_HAND, THIS_TUBE,
  WITHOUT_PATTERN, holeName, nameOf, nothingLearned, patternNote } from './words.js';

/** What comes with a pattern, beside its voice. */
export const TAKEN_OVER = ['song', 'shop.spacing_mm', 'shop.hands'];

/** The example is not the maker's tube: in its place an empty one takes the pattern.
 * @param {Desk} desk @param {Flute} flute @returns {Promise<{wrong: string, before: State}>} what went wrong, or '';
 * the tube as it was without */
export async function takeAsPattern(desk, flute) {
  const { doc, good } = flute.kept;
  const reply = await (await desk.engine.workshop()).pattern(doc);
  if (!reply.answer) {
    return { wrong: nothingLearned(reply.violations?.[0]?.code.replaceAll('_', ' ') ?? reply.fault), before: desk.store.get() };
  }
  const marks = flute.marks ?? (await desk.engine.solve(good)).layout.answer;
  const wrong = isExample(desk.store.get()) && !startFresh(desk) ? STAYS_IN_HAND : '';
  const before = desk.store.get();
  if (wrong !== '') return { wrong, before };
  desk.edit((s) => {
    // A habit that the pattern does not tell of stays as it is.
    const spaced = Object.entries({ 'shop.spacing_mm': good.shop?.spacing_mm, 'shop.hands': good.shop?.hands })
      .reduce((so, [path, habit]) => (habit === undefined ? so : withValue(so, path, habit)), s.doc);
    const so = withPattern({ doc: withFittingHands({ ...spaced, song: structuredClone(good.song) }), aside: s.aside }, reply.answer);
    return { doc: so.doc, aside: { ...so.aside, ...(marks === undefined ? {} : { pattern: { name: nameOf(doc),
      foot_mm: marks.foot_mm, finger_holes: marks.finger_holes, sound_hole_mm: good.sound_hole.length_mm } }) } };
  }, TAKEN_OVER);
  return { wrong, before };
}

/** What came with a pattern as it was before it; what else has been entered since stays. @param {State} s
 * @param {Pick<State, 'doc' | 'aside'>} before @returns {Pick<State, 'doc' | 'aside'>} */
export function withoutPattern({ doc, aside: { pattern: _, hand: _hand, ...aside } }, { doc: old, aside: { pattern, hand } }) {
  return { doc: ['pattern', ...TAKEN_OVER].reduce((so, path) => withValue(so, path, valueAt(old, path)), doc),
    aside: { ...aside, ...(pattern === undefined ? {} : { pattern }), ...(hand === undefined ? {} : { hand }) } };
}

/** Pattern | this tube | difference. @param {Desk} desk */
export function comparison(desk) {
  const inside = h('div', {});
  const element = h('details', { class: 'beside', open: true }, h('summary', {}, COMPARISON), inside);
  let shown = '';
  desk.store.subscribe((s) => {
    const { pattern } = s.aside;
    element.hidden = pattern === undefined || s.doc.pattern === undefined;
    if (pattern === undefined || element.hidden) return;
    const text = JSON.stringify([pattern, s.aside.hand, isBlank(s), s.answer.foot_mm, s.answer.finger_holes, s.doc.show]);
    if (text === shown) return;
    shown = text;
    inside.replaceChildren(...table(desk, s, pattern));
  });
  return element;
}

/** @param {Desk} desk @param {State} s @param {PatternMarks} pattern @returns {Node[]} */
function table(desk, s, pattern) {
  const { answer } = s;
  const { show } = s.doc;
  const theirs = datumShift({ show, sound_hole: { length_mm: pattern.sound_hole_mm, width_mm: 0 } });
  const ours = datumShift({ show, sound_hole: answer.sound_hole });
  /** @param {number | undefined} mm */
  const write = (mm) => (mm === undefined ? '–' : inUnit(mm, s, desk.engine));
  /** @param {string} name @param {number | undefined} a @param {number | undefined} b
   * @param {[number | undefined, number | undefined]} [bits] */
  const row = (name, a, b, bits) => h('tr', {}, h('th', { scope: 'row' }, name),
    h('td', {}, write(a), small(bits?.[0])), h('td', {}, write(b), small(bits?.[1])),
    h('td', {}, a === undefined || b === undefined ? '–' : difference(b - a)));
  /** @param {number | undefined} mm */
  const small = (mm) => mm !== undefined && h('span', { class: 'small' }, `⌀ ${write(mm)}`);
  /** @param {number} mm */
  const difference = (mm) => {
    const words = write(Math.abs(mm));
    return Number.parseFloat(words) === 0 && !/[1-9]/.test(words) ? '0' : `${mm < 0 ? '−' : '+'}${words}`;
  };
  const count = Math.max(pattern.finger_holes.length, answer.finger_holes.length);
  const holes = Array.from({ length: count }, (_, i) => {
    const [a, b] = [pattern.finger_holes[i], answer.finger_holes[i]];
    return row(holeName(i + 1), a && a.at_mm + theirs, b && b.at_mm + ours, [a?.diameter_mm, b?.diameter_mm]);
  });
  return [
    h('p', { class: 'note' }, patternNote(show?.datum ?? 'centre', show?.unit === 'inch')),
    // while the tube is not measured the marks there are would be the example's
    ...(isBlank(s) ? [] : [h('table', { class: 'beside-table' }, h('thead', {}, h('tr', {}, h('th', { scope: 'col' }, MARK),
      h('th', { scope: 'col' }, h('bdi', {}, pattern.name)),
      h('th', { scope: 'col' }, THIS_TUBE), h('th', { scope: 'col' }, DIFFERENCE))),
    h('tbody', {}, row(SOUND_HOLE_LENGTH, pattern.sound_hole_mm, answer.sound_hole.length_mm), ...holes,
      row(FOOT, pattern.foot_mm + theirs, answer.foot_mm + ours)))]),
    h('button', { type: 'button', class: 'plain', onclick: () => desk.edit(withHand) },
      handOf(s) === undefined ? WITHOUT_PATTERN : BACK_TO_TAUGHT),
  ];
}

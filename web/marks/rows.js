// web/marks/rows.js: the marks: one row each, beside its place on the drawn tube.

import { h, say } from '../widgets/dom.js';
import { drawing, yOf, EDGE_PX, RULER_PX } from './drawing.js';
import { pack } from '../widgets/pack.js';
import { holeSize, noteOf, ownBit } from '../text/bits.js';
import { bindingShort, holeOf } from '../text/bindings.js';
import { INCH_MM, builtOf, datumShift, standsAt, unitOf } from '../state/desk.js';
import { unchanged } from '../state/store.js';
import { bandOf } from '../state/sure.js';
import { band } from '../text/sure.js';
import { inUnit, lengthWords, noteName, offWords, otherUnit, signed } from '../text/numbers.js';
import { AS_IT_IS, BIT, FOOT, NO_NOTE, ROWS, SAND, SAW_HERE, SAW_LONG, SILENT, holeCut, holeName, perStepOff,
  perStepUp, sawFirst, sawnOff,
  soundHoleSize, zeroWords } from './words.js';

const ANCHOR_PX = 19;      // from a row's top to the middle of its figure
const LEADER_PX = 32;       // between tube and rows
const SHORTEST_PX = 520;
const LONGEST_PX = 860;
const SAWN_MM = 1.5;        // less is sanded: core/bench/next_step
const AROUND_PX = 225;     // what stands above and below the drawing on a desktop

/** @param {Desk} desk */
export function rows(desk) {
  const listing = h('ol', { class: 'rows', 'aria-label': ROWS });
  const holder = h('div', { class: 'plan' }, listing);
  let width = 0;
  const zero = line('zero', ZERO), foot = line('foot', MARK);
  /** @type {Line[]} */
  let holes = [];
  /** @type {HTMLElement[]} */
  let lines = [];
  /** @type {number[]} */
  let heights = [];
  /** @type {unknown[]} */
  let shown = [];
  /** @param {State} state */
  const shows = (state) => [state.answer, state.built, state.doc.show];
  /** The same rows with other figures: new ones for every key would cost as much as the rest of the page.
   * @param {State} state */
  function render(state) {
    shown = shows(state);
    const { length } = state.answer.finger_holes;
    if (lines.length !== length + 2) {
      holes = Array.from({ length }, () => line('', MARK));
      lines = [zero, ...holes, foot].map(({ element }) => element);
      listing.replaceChildren(...lines);
    }
    zero.tell(soundHoleWords(state, desk));
    holes.forEach(({ tell }, i) => tell(holeWords(i, state, desk)));
    foot.tell(footWords(state, desk));
    listing.classList.toggle('inches', unitOf(state) === 'inch');
    bands(state);
    // Before they are shown no row has a height.
    heights = [];
    if (width > 0) place(state);
  }

  /** How sure each note is comes after the marks, into the place kept for it.
   * @param {State} state @returns {boolean} whether anything is new */
  function bands(state) {
    const { notes, finger_holes } = state.answer;
    const own = [...finger_holes.map((_, i) => noteOf(i + 1, notes)), allCovered(notes)];
    let news = false;
    [...holes, foot].forEach(({ band: part }, i) => {
      const note = own[i];
      const text = note === undefined || note.hz === null ? '' : band(bandOf(state, note.open));
      news ||= part.textContent !== text;
      say(part, text);
    });
    return news;
  }

  /** @param {State} state */
  function place(state) {
    const { answer } = state;
    const wall = answer.tube.wall_mm
      ?? ((answer.tube.outer_mm ?? 0) - answer.tube.bore[0].diameter_mm) / 2;
    const outer = answer.tube.bore[0].diameter_mm + 2 * wall;
    const top = Math.min(answer.tube.above_mm ?? 0, Math.max(answer.foot_mm * 0.13, outer));
    const bottom = answer.foot_mm + Math.min(answer.cane.spare_mm, answer.foot_mm * 0.2);
    const fitting = Math.max(SHORTEST_PX, Math.min(LONGEST_PX, window.innerHeight - AROUND_PX));
    // The rows' heights depend on the width left beside the tube, that on the scale: once round.
    let height = fitting;
    let scale = (height - 2 * EDGE_PX) / (top + bottom);
    const reach = Math.round(RULER_PX + 8 + outer * scale + LEADER_PX);
    listing.style.marginLeft = `${reach}px`;
    heights = lines.map((line) => line.offsetHeight);
    height = Math.max(fitting, heights.reduce((a, b) => a + b, 0) + 4);
    scale = Math.min(scale, (height - 2 * EDGE_PX) / (top + bottom));
    const scene = { answer, zero: -datumShift({ show: state.doc.show,
      sound_hole: answer.sound_hole }), inches: unitOf(state) === 'inch', scale, top, bottom, height,
    outer, reach, left: RULER_PX + 8 + outer * scale / 2, anchors: /** @type {number[]} */ ([]) };
    const marks = [scene.zero, ...answer.finger_holes.map((hole) => hole.at_mm), answer.foot_mm];
    const tops = pack(marks.map((mm) => yOf(scene, mm) - ANCHOR_PX), heights, height);
    // By the room before it, so that what grows pushes the next one on.
    lines.forEach((line, i) => { line.style.marginTop = `${tops[i] - (i > 0 ? tops[i - 1] + heights[i - 1] : 0)}px`; });
    scene.anchors = tops.map((y) => y + ANCHOR_PX);
    holder.style.minHeight = `${height}px`;
    holder.querySelector('svg')?.remove();
    holder.prepend(drawing(scene));
  }

  const grown = () => lines.some((line, i) => line.offsetHeight !== heights[i]);

  let station = '';
  desk.store.subscribe((state) => {
    // Its section is shown, or hidden, by now.
    if (station !== state.station) width = holder.clientWidth;
    if (!unchanged(shows(state), shown)) render(state);
    else if ((bands(state) || station !== state.station) && width > 0 && grown()) place(state);
    station = state.station;
  });
  new ResizeObserver(() => {
    if (holder.clientWidth === width && !grown()) return;
    width = holder.clientWidth;  // 0 while the station is not shown; rows have no height then
    if (width > 0) requestAnimationFrame(() => place(desk.store.get()));
  }).observe(holder);
  // Once whoever asked has put them on the page, and before that is painted.
  queueMicrotask(() => {
    width = holder.clientWidth;
    place(desk.store.get());
  });
  return holder;
}

/** @param {Note[]} notes */
const allCovered = (notes) => notes.find((note) => note.open.length === 0);

/** A row: its words in the order of its cells, the last of a hole before its size, and what else it shows.
 * @typedef {{words: string[], far?: boolean, saw?: boolean}} Words
 * @typedef {{element: HTMLElement, band: HTMLElement, tell: (words: Words) => void}} Line */

const ZERO = ['at', '', 'small span'];
const MARK = ['at', 'bit', 'note-name', 'small', 'small', 'small off-by', 'small last'];

/** @param {string} kind @param {string[]} kinds of its cells @returns {Line} */
function line(kind, kinds) {
  const cells = kinds.map((of) => h('span', { class: of }));
  const element = h('li', { class: `row ${kind}` }, ...cells);
  const said = [...cells];
  const band = h('span', { class: 'band' });
  if (kinds === MARK) cells[6].append(said[6] = h('span'), band);
  if (kind === '') {
    cells[1].append(h('span', { class: 'unseen' }, BIT), said[7] = h('span', { 'aria-hidden': 'true' }), said[1] = h('span'));
  }
  return { element, band, tell({ words, far, saw }) {
    said.forEach((part, i) => say(part, words[i]));
    cells[5]?.classList.toggle('far', far);
    element.classList.toggle('saw', saw === true);
  } };
}

/** @param {State} state @param {Desk} desk @returns {Words} */
function soundHoleWords(state, desk) {
  const { sound_hole: hole } = state.answer;
  return { words: ['0', zeroWords(state.doc.show?.datum ?? 'centre'), soundHoleSize(
    inUnit(hole.length_mm, state, desk.engine), lengthWords(hole.width_mm, state, desk.engine))] };
}

/** @param {number} i @param {State} state @param {Desk} desk @returns {Words} */
function holeWords(i, state, desk) {
  const { answer } = state;
  const hole = answer.finger_holes[i];
  const at = hole.at_mm + shift(state);
  const note = noteOf(i + 1, answer.notes);
  const cut = builtOf(state)?.cut[i];
  const wide = cut ?? hole.diameter_mm;
  const bit = ownBit(answer, i + 1, wide);
  const size = bit === undefined ? holeSize(wide, note?.cents_per_tenth_mm, unitOf(state), desk.engine)
    : bit.label ?? `${Math.round(bit.mm * 1000) / 1000}${unitOf(state) === 'inch' ? ' mm' : ''}`;
  const held = answer.binding.filter((b) => holeOf(b.path) === i + 1 && (b.costs_cents ?? 1) >= 0.5);
  const [step, mm] = stepOf(state);
  const feel = note === undefined || note.cents_per_mm === null ? ''
    : perStepUp(step, signed(-note.cents_per_mm * mm));
  const [off, far] = offBy(note, state);
  return { far, words: [inUnit(at, state, desk.engine), size,
    note === undefined ? '' : noteName(note.name), otherUnit(at, state, desk.engine),
    cut === undefined ? holeName(i + 1) : holeCut(i + 1), off, together([feel, ...held.map(bindingShort)]),
    unitOf(state) === 'mm' ? '⌀ ' : ''] };
}

/** @param {State} state @param {Desk} desk @returns {Words} */
function footWords(state, desk) {
  const { answer } = state;
  const at = answer.foot_mm + shift(state);
  const { spare_mm: spare } = answer.cane;
  const built = builtOf(state);
  const note = allCovered(answer.notes);
  const saw = spare >= 0.05 && built?.next.step.do !== 'done';
  const first = !answer.log?.length && spare >= 1;  // nothing is known of the voice: longer than its mark
  const [step, mm] = stepOf(state);
  const feel = note?.cents_per_mm_foot ? perStepOff(step, signed(-note.cents_per_mm_foot * mm)) : '';
  const [off, far] = offBy(note, state);
  return { saw, far, words: [inUnit(at, state, desk.engine),
    saw ? (first ? SAW_LONG : spare < SAWN_MM ? SAND : SAW_HERE) : AS_IT_IS,
    note === undefined ? '' : noteName(note.name), otherUnit(at, state, desk.engine), FOOT, off,
    together([built !== null && first && built.next.step.do === 'foot' && sawFirst(inUnit(
      (built.next.step.at_mm ?? 0) + shift(state), state, desk.engine)),
    saw && sawnOff(lengthWords(spare, state, desk.engine)), feel])] };
}

/** @param {(string | false)[]} words */
const together = (words) => words.filter(Boolean).join('; ');

/** As it stands where it has been cut and heard of, else as it will be; and whether that is far.
 * @param {Note | undefined} note @param {State} state @returns {[string, boolean]} */
function offBy(note, state) {
  const { notes, song: { tolerance_cents: tolerance } } = state.answer;
  const now = note && standsAt(state, notes.indexOf(note));
  const cents = now ?? note?.cents ?? null;
  if (note === undefined) return [NO_NOTE, false];
  return cents === null ? [SILENT, false] : [offWords(cents), Math.abs(cents) > (tolerance ?? 10)];
}

/** What a maker's ruler moves a mark by, and that in mm. @param {State} state @returns {[string, number]} */
const stepOf = (state) => (unitOf(state) === 'inch' ? ['1/16″', INCH_MM / 16] : ['1 mm', 1]);

/** @param {State} state */
const shift = (state) => datumShift({ show: state.doc.show, sound_hole: state.answer.sound_hole });

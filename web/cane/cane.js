// web/cane/cane.js: the station Cane: the tube in hand.

import { h, say } from '../widgets/dom.js';
import { isUntouched } from '../state/desk.js';
import { onChange } from '../state/store.js';
import { field, lengthField } from '../widgets/field.js';
import { radios, list } from '../widgets/choice.js';
import { boreStations } from './bore.js';
import { asNeeded, later } from '../widgets/later.js';
import { notes, textReader } from '../state/readers.js';
import { SHORT, verdict, warning } from '../text/verdict.js';
import { ABOVE_LINE, BELOW_LINE, BRING_BACK, CAN_MEASURE, HOLE_LENGTH, HOLE_WALL, HOLE_WIDTH, KEPT, LEAD,
  LENGTH, MATERIAL, NAME, NODE_RIDGE, NOT_KEPT, NOT_SAID, OTHER_WAYS, OUTSIDE, PLUG, SOUND_HOLE, TAKE_CARE,
  THIS_TUBE, TO_EXAMPLE, WALL, WAYS_TO_MEASURE } from './words.js';

/** @param {Desk} desk @returns {Generator<Node[], void>} */
export function* cane(desk) {
  yield [
    verdictPart(desk),
    h('p', { class: 'lead' }, LEAD),
    boreStations(desk),
    later('ways', OTHER_WAYS, async () => {
      const [{ ways }, { bore }] = await Promise.all([import('./ways.js'), desk.engine.workshop()]);
      return ways(desk, bore);
    }),
    later('ridge', NODE_RIDGE, async () => (await import('./ridge.js')).ridge(desk)),
  ];
  yield [
    wallPart(desk),
    h('h3', {}, LENGTH),
    lengthField(desk, 'tube.end_mm', BELOW_LINE).element,
    lengthField(desk, 'tube.above_mm', { ...ABOVE_LINE, optional: true }).element,
    lengthField(desk, 'plug.offset_mm', { ...PLUG, optional: true }).element,
  ];
  yield [
    h('h3', {}, SOUND_HOLE),
    lengthField(desk, 'sound_hole.length_mm', HOLE_LENGTH).element,
    lengthField(desk, 'sound_hole.width_mm', HOLE_WIDTH).element,
    lengthField(desk, 'sound_hole.wall_mm', { ...HOLE_WALL, optional: true }).element,
  ];
  const errors = h('div');  // right after the first marks: a visit waits for those
  asNeeded(desk, errors, () => true, async () => (await import('./errors.js')).errors(desk));
  yield [
    errors,
    later('', WAYS_TO_MEASURE, async () => (await import('./measuring.js')).measuring()),
    h('h3', {}, THIS_TUBE),
    field(desk, 'name', { label: NAME, read: textReader, write: String, words: true,
      wide: true }).element,
    list(desk, {
      label: MATERIAL,
      options: (s) => {
        const now = desk.value(s, 'tube.material');
        const known = desk.choices.materials.includes(now) || typeof now !== 'string'
          ? desk.choices.materials : [now, ...desk.choices.materials];
        return [['', NOT_SAID], ...known.map((m) => /** @type {[string, string]} */ ([m, m]))];
      },
      now: (s) => String(desk.value(s, 'tube.material') ?? ''),
      pick: (value) => desk.set('tube.material', value === '' ? undefined : value),
    }),
    afresh(desk),
  ];
}

/** @param {Desk} desk */
function verdictPart(desk) {
  const element = h('div', { class: 'verdict' });
  let shown = '';
  desk.store.subscribe(onChange((s) => [s.answer, s.doc.show, notes.say], (state) => {
    const lines = verdict(state, desk.engine);
    const warnings = state.answer.cane.warnings.filter((code) => code !== SHORT)
      .map(warning);
    const text = JSON.stringify([lines, warnings]);
    if (text === shown) return;
    shown = text;
    element.replaceChildren(
      h('p', { class: 'first' }, lines[0]), h('p', {}, lines.slice(1).filter(Boolean).join(' ')),
      ...warnings.map((w) => h('p', { class: 'care' }, h('strong', {}, TAKE_CARE), w)));
  }));
  return element;
}

/** @param {Desk} desk */
function wallPart(desk) {
  /** @param {State} s */
  const outside = (s) => s.doc.tube.outer_mm !== undefined;
  const wall = lengthField(desk, 'tube.wall_mm', { ...WALL, when: () => !wall.element.hidden });
  const outer = lengthField(desk, 'tube.outer_mm', { ...OUTSIDE, when: () => !outer.element.hidden });
  desk.store.subscribe((s) => {
    wall.element.hidden = outside(s);
    outer.element.hidden = !outside(s);
  });
  return h('div', {}, h('h3', {}, WALL.label), radios(desk, {
    label: CAN_MEASURE, hidden: true,
    options: [['wall', WALL.label], ['outer', OUTSIDE.label]],
    now: (s) => (outside(s) ? 'outer' : 'wall'),
    pick: (value) => void import('../state/wall.js').then((m) => m.wallBy(desk, value)).catch(() => desk.edit(() => ({}))),
  }), wall.element, outer.element);
}

/** @param {Desk} desk */
function afresh(desk) {
  const again = h('button', { type: 'button', class: 'plain', onclick: () => desk.restart() },
    TO_EXAMPLE);
  const undo = h('button', { type: 'button', class: 'plain', onclick: () => desk.restore() },
    BRING_BACK);
  const words = h('p', { class: 'note', role: 'status' });
  desk.store.subscribe((s) => {
    const untouched = isUntouched(s);
    again.hidden = untouched;
    undo.hidden = s.before === null;
    say(words, s.keeps ? (untouched && s.before === null ? '' : KEPT) : NOT_KEPT);
  });
  return h('div', { class: 'afresh' }, words, again, undo);
}

// web/cane/cane.js: the station Cane: the tube in hand.

import { h, say } from '../widgets/dom.js';
import { field, lengthField } from '../widgets/field.js';
import { radios, list } from '../widgets/choice.js';
import { boreStations } from './bore.js';
import { later } from '../widgets/later.js';
import { errors } from './errors.js';
import { textReader } from '../state/readers.js';
import { withValue } from '../state/path.js';
import { SHORT, verdict, warning } from '../text/verdict.js';
import { HOW_TO_MEASURE } from '../text/measuring.js';

/** @param {Desk} desk @returns {Node[]} */
export function cane(desk) {
  return [
    verdictPart(desk),
    h('p', { class: 'lead' }, 'Draw a line round the tube where the sound hole will begin, on its '
      + 'mouth side. Measure from that line.'),
    boreStations(desk),
    later('ways', 'Other ways to find the bore', async () => (await import('./ways.js')).ways(desk)),
    later('ridge', 'A ridge left of a node', async () => (await import('./ridge.js')).ridge(desk)),
    wallPart(desk),
    h('h3', {}, 'Length'),
    lengthField(desk, 'tube.end_mm', { label: 'Below the line', note: 'to the end, as it is' })
      .element,
    lengthField(desk, 'tube.above_mm', { label: 'Above the line', optional: true,
      note: 'room for the chamber' }).element,
    lengthField(desk, 'plug.offset_mm', { label: 'Plug’s face', optional: true,
      note: 'behind the line; flush is 0' }).element,
    h('h3', {}, 'Sound hole'),
    lengthField(desk, 'sound_hole.length_mm', { label: 'Length', full: 'Sound hole length',
      note: 'along the tube' }).element,
    lengthField(desk, 'sound_hole.width_mm', { label: 'Width', full: 'Sound hole width',
      note: 'across' }).element,
    lengthField(desk, 'sound_hole.wall_mm', { label: 'Wall there', full: 'Wall there, at the sound hole',
      optional: true,
      note: 'where it was thinned' }).element,
    errors(desk),
    howToMeasure(),
    h('h3', {}, 'This tube'),
    field(desk, 'name', { label: 'Name', read: textReader, write: String, words: true,
      wide: true }).element,
    list(desk, {
      label: 'Material',
      options: (s) => {
        const now = desk.value(s, 'tube.material');
        const known = desk.choices.materials.includes(now) || typeof now !== 'string'
          ? desk.choices.materials : [now, ...desk.choices.materials];
        return [['', 'not said'], ...known.map((m) => /** @type {[string, string]} */ ([m, m]))];
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
  desk.store.subscribe((state) => {
    const lines = verdict(state, desk.engine);
    const warnings = state.answer.cane.warnings.filter((code) => code !== SHORT)
      .map(warning);
    const text = JSON.stringify([lines, warnings]);
    if (text === shown) return;
    shown = text;
    element.replaceChildren(
      h('p', { class: 'first' }, lines[0]), h('p', {}, lines.slice(1).filter(Boolean).join(' ')),
      ...warnings.map((w) => h('p', { class: 'care' }, h('strong', {}, 'Take care. '), w)));
  });
  return element;
}

/** @param {Desk} desk */
function wallPart(desk) {
  /** @param {State} s */
  const outside = (s) => s.doc.tube.outer_mm !== undefined;
  const wall = lengthField(desk, 'tube.wall_mm', { label: 'Wall', when: () => !wall.element.hidden,
    note: 'at the finger holes' });
  const outer = lengthField(desk, 'tube.outer_mm', { label: 'Outside diameter',
    when: () => !outer.element.hidden, note: 'at the finger holes' });
  desk.store.subscribe((s) => {
    wall.element.hidden = outside(s);
    outer.element.hidden = !outside(s);
  });
  return h('div', {}, h('h3', {}, 'Wall'), radios(desk, {
    label: 'What you can measure', hidden: true,
    options: [['wall', 'Wall'], ['outer', 'Outside diameter']],
    now: (s) => (outside(s) ? 'outer' : 'wall'),
    pick: (value) => desk.edit((s) => {
      // The other figure follows from the answer, so that the marks stay where they are.
      const bore = s.good.tube.bore[0].diameter_mm;
      const known = s.good.tube;
      const thick = known.wall_mm ?? ((known.outer_mm ?? bore) - bore) / 2;
      const bare = withValue(withValue(s.doc, 'tube.wall_mm', undefined), 'tube.outer_mm', undefined);
      return { doc: value === 'outer'
        ? withValue(bare, 'tube.outer_mm', round(bore + 2 * thick))
        : withValue(bare, 'tube.wall_mm', round(thick)) };
    }, ['tube.wall_mm', 'tube.outer_mm']),
  }), wall.element, outer.element);
}

/** @param {number} mm */
const round = (mm) => Math.round(mm * 1000) / 1000;

function howToMeasure() {
  return h('details', {}, h('summary', {}, 'Ways to measure'),
    h('dl', {}, ...HOW_TO_MEASURE.flatMap(([what, how]) => [h('dt', {}, what), h('dd', {}, how)])));
}

/** @param {Desk} desk */
function afresh(desk) {
  const again = h('button', { type: 'button', class: 'plain', onclick: () => desk.restart() },
    'Back to the example');
  const undo = h('button', { type: 'button', class: 'plain', onclick: () => desk.restore() },
    'Bring mine back');
  const words = h('p', { class: 'note', role: 'status' });
  desk.store.subscribe((s) => {
    const untouched = JSON.stringify(s.doc) === s.example && Object.keys(s.typed).length === 0;
    again.hidden = untouched;
    undo.hidden = s.before === null;
    say(words, s.keeps ? (untouched && s.before === null ? '' : 'What you enter stays in this browser '
      + 'only.') : 'This browser keeps nothing after the page is closed; write your figures down.');
  });
  return h('div', { class: 'afresh' }, words, again, undo);
}

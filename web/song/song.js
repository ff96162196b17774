// web/song/song.js: the station Song: what the flute shall play, and for whose hands.

import { h, say } from '../widgets/dom.js';
import { field, plainField } from '../widgets/field.js';
import { radios, list } from '../widgets/choice.js';
import { asNeeded } from '../widgets/later.js';
import { unmet } from '../widgets/unmet.js';
import { hear } from './hear.js';
import { notes } from '../state/readers.js';
import { isBlank } from '../state/desk.js';
import { withValue } from '../state/path.js';
import { nextNote } from '../text/notes.js';
import { countWord, noteName } from '../text/numbers.js';
import { handsFor } from '../state/hands.js';
import { A_FREQUENCY, A_NOTE, FINGER_HOLES, FREQUENCY, LET_FLOAT, LOWEST, LOWEST_NOTE, OWN_STEPS, SCALE,
  floatWords } from './words.js';

/** @param {Desk} desk @returns {Generator<Node[], void>} */
export function* song(desk) {
  yield [unmet(desk), hear(desk), ...lowestPart(desk)];
  yield [
    ...scalePart(desk),
    radios(desk, {
      label: FINGER_HOLES,
      options: [4, 5, 6].map((n) => [String(n), countWord(n)]),
      now: (s) => String(s.doc.song.holes),
      pick: (value) => desk.edit((s) => {
        const holes = Number(value);
        const doc = withValue(withValue(s.doc, 'song.holes', holes), 'song.fingerings', undefined);
        return { doc: withValue(doc, 'shop.hands', handsFor(holes, s.doc.shop?.hands)) };
      }),
    }),
  ];
  const holes = h('div');  // the chart comes right after the first marks: a visit waits for those
  asNeeded(desk, holes, () => true, async () => (await import('./chart.js')).chart(desk));
  yield [holes];
  const tools = h('div');
  asNeeded(desk, tools, () => true, async () => h('div', {}, ...(await import('./shop/shop.js')).shop(desk)));
  const rooms = h('div');
  asNeeded(desk, rooms, () => true, async () => (await import('./air/air.js')).air(desk));
  yield [tools, rooms];
}

/** @param {Lowest} lowest */
const kindOf = (lowest) => (typeof lowest === 'object' ? 'hz' : lowest === 'free' ? 'free' : 'note');

/** @param {Desk} desk @returns {Node[]} */
function lowestPart(desk) {
  const note = field(desk, 'song.lowest', {
    ...LOWEST_NOTE, words: true, read: (text, unit) => notes.read(text, unit),
    when: () => !note.element.hidden,
    write: (v) => (typeof v === 'string' && v !== 'free' ? noteName(v) : ''),
    step: (direction, s) => (typeof s.doc.song.lowest === 'string'
      ? nextNote(s.doc.song.lowest, Math.sign(direction)) : undefined),
  });
  const hz = plainField(desk, 'song.lowest.hz', { label: FREQUENCY, suffix: 'Hz', step: 1,
    when: () => !hz.element.hidden });
  const floats = h('p', { class: 'note' });
  const names = h('div');
  asNeeded(desk, names, () => true, async () => (await import('../widgets/note_names.js')).noteNames(desk));
  desk.store.subscribe((s) => {
    const kind = kindOf(s.doc.song.lowest);
    note.element.hidden = kind !== 'note';
    hz.element.hidden = kind !== 'hz';
    floats.hidden = kind !== 'free';
    say(floats, floatWords(kind === 'free' && !isBlank(s) ? s.answer.notes[0]?.hz : null));
  });
  return [radios(desk, {
    label: LOWEST,
    options: [['note', A_NOTE], ['hz', A_FREQUENCY], ['free', LET_FLOAT]],
    now: (s) => kindOf(s.doc.song.lowest),
    pick: (to) => desk.edit((s) => {
      const now = s.doc.song.lowest;
      const lowest = { ...s.aside.lowest, [kindOf(now)]: now };
      const start = /** @type {Record<string, Lowest>} */ ({
        free: 'free', note: s.answer.cane.lowest_name ?? 'A4',
        hz: { hz: Math.round(s.answer.notes[0]?.target_hz * 10) / 10 },
      });
      return { aside: { ...s.aside, lowest },
        doc: withValue(s.doc, 'song.lowest', lowest[to] ?? start[to]) };
    }, ['song.lowest']),
  }), note.element, names, hz.element, floats];
}

/** @param {Desk} desk @returns {Node[]} */
function scalePart(desk) {
  const own = h('div');
  asNeeded(desk, own, (s) => typeof s.doc.song.scale !== 'string',
    async () => (await import('./steps.js')).ownSteps(desk));
  return [list(desk, {
    label: SCALE,
    options: () => [...desk.choices.scales.map(({ name }) => /** @type {[string, string]} */ (
      [name, name])), ['', OWN_STEPS]],
    now: (s) => (typeof s.doc.song.scale === 'string' ? s.doc.song.scale : ''),
    pick: (name) => desk.edit((s) => {
      const named = desk.choices.scales.find((x) => x.name === s.doc.song.scale);
      const aside = named === undefined ? { ...s.aside, scale: s.doc.song.scale } : s.aside;
      // Own steps start as those played now: nothing changes until one is edited.
      const steps = s.aside.scale ?? { cents: s.chart.map((row) => row.cents) };
      return { aside, doc: withValue(withValue(s.doc, 'song.scale', name === '' ? steps : name),
        'song.fingerings', undefined) };
    }, ['song.scale', 'song.fingerings']),
  }), own];
}


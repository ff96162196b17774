// web/song/song.js: the station Song: what the flute shall play, and for whose hands.

import { h, say } from '../widgets/dom.js';
import { field, plainField } from '../widgets/field.js';
import { radios, list } from '../widgets/choice.js';
import { asNeeded } from '../widgets/later.js';
import { unmet } from '../widgets/unmet.js';
import { shop } from './shop.js';
import { hear } from './hear.js';
import { climateSentences } from '../text/sure.js';
import { notes } from '../state/readers.js';
import { isBlank } from '../state/desk.js';
import { withValue } from '../state/path.js';
import { nextNote } from '../text/notes.js';
import { countWord, noteName } from '../text/numbers.js';
import { handsFor } from '../state/hands.js';
import { A_FREQUENCY, A_NOTE, CENTS, FINGER_HOLES, FREQUENCY, HUMIDITY, IN_TUNE, LET_FLOAT, LIFT, LOWEST,
  LOWEST_NOTE, OWN_STEPS, PITCH, PITCH_AND_AIR, PLAYED_IN, PRESSURE, ROOMS, SCALE, WORKSHOP,
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
  yield shop(desk);
  yield [
    ...rooms(desk),
    h('details', {}, h('summary', {}, PITCH_AND_AIR),
      plainField(desk, 'song.a4_hz', { label: PITCH, suffix: 'Hz', step: 1 }).element,
      plainField(desk, 'song.tolerance_cents', { label: IN_TUNE, suffix: CENTS, step: 1 }).element,
      lift(desk),
      plainField(desk, 'air.humidity_percent', { label: HUMIDITY, suffix: '%', step: 5 }).element,
      plainField(desk, 'air.pressure_kpa', { label: PRESSURE, suffix: 'kPa' }).element),
  ];
}

/** How the maker's breath lifts high notes: what their flutes taught says it better. @param {Desk} desk */
function lift(desk) {
  const { element } = plainField(desk, 'song.lift_cents', { ...LIFT, suffix: CENTS, step: 1, optional: true,
    when: () => !element.hidden });
  desk.store.subscribe((s) => { element.hidden = s.doc.pattern !== undefined; });
  return element;
}

/** Where it is tuned and where it is played. @param {Desk} desk @returns {Node[]} */
function rooms(desk) {
  const moves = h('p', { class: 'moves' });
  desk.store.subscribe((s) => say(moves, s.sure === null ? '' : climateSentences(s.sure, s.sureOf)));
  return [
    h('h3', {}, ROOMS),
    plainField(desk, 'air.room_c', { ...WORKSHOP, suffix: '°C', step: 1 }).element,
    plainField(desk, 'song.play_c', { ...PLAYED_IN, suffix: '°C', step: 1, optional: true })
      .element,
    moves,
  ];
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


// web/marks/marks.js: the station Marks: where to saw and drill.

import { h, say, waited } from '../widgets/dom.js';
import { list } from '../widgets/choice.js';
import { rows } from './rows.js';
import { notes } from './notes.js';
import { sure } from './sure.js';
import { unmet } from '../widgets/unmet.js';
import { asNeeded, later } from '../widgets/later.js';
import { reveal } from '../widgets/reveal.js';
import { sentence } from '../text/violations.js';
import { about, before, summary, totals } from '../text/marks.js';
import { withValue } from '../state/path.js';
import { onChange } from '../state/store.js';
import { builtOf, fractionOf, isBlank, unitOf } from '../state/desk.js';
import { ABOVE, AGAIN, CARE, FROM_THE, HELD, HOW_KNOWN, IN, LAST_GOOD, MEASURED_FROM, NO_MARKS, PRINT, STOP, STOPPED, UNIT,
  WAIT_FOR, entryWrong, failed, inches } from './words.js';

/** What to saw and drill, which is all that must be there at once; then what stands below the marks.
 * @param {Desk} desk @returns {Generator<Node[], void>} */
export function* marks(desk) {
  yield [
    changing(h('p', { class: 'lead' }), desk, (s) => [about(s)]),
    trouble(desk),
    unmet(desk),
    ruleLine(desk),
    working(desk),
    rows(desk),
  ];
  const beyond = h('section');
  asNeeded(desk, beyond, (s) => !!builtOf(s)?.next.outside?.length, async () => (await import('./outside/outside.js')).outside(desk));
  yield [
    changing(h('div', { class: 'next' }), desk, (s) => [h('p', {}, before(s))]),
    h('button', { type: 'button', class: 'take',
      onclick: () => desk.print() }, PRINT),
    sure(desk),
    held(desk),
    beyond,
    changing(h('dl', { class: 'totals' }), desk, (s) => totals(s, desk.engine)
      .flatMap(([what, much]) => [h('dt', {}, what), h('dd', {}, much)])),
  ];
  yield [notes(desk)];
  const care = h('section', { class: 'cautions', 'aria-label': CARE });
  asNeeded(desk, care, () => true, async () => (await import('./care.js')).care(desk));
  yield [
    care,
    later('upper', ABOVE, async () => (await import('./above/above.js')).above(desk)),
    later('known', HOW_KNOWN, async () => (await import('./how_known.js')).howKnown(desk)),
    announcer(desk),
  ];
  asBuilt(desk);
}

/**
 * @template {Element} E
 * @param {E} element @param {Desk} desk @param {(s: State) => (Node | string)[]} content
 */
function changing(element, desk, content) {
  desk.store.subscribe(onChange((s) => [s.answer, s.doc.show, s.doc.name, s.built], (s) => {
    element.replaceChildren(...content(s));
  }));
  return element;
}

/** What is wrong with the entries, while the last good marks stay. @param {Desk} desk */
function trouble(desk) {
  const element = h('div', { class: 'trouble', role: 'status' });
  let shown = '';
  desk.store.subscribe((s) => {
    const all = desk.troubles(s);
    const text = JSON.stringify([all.map((t) => [t.violation, t.place?.path]), s.fault, s.stopped]);
    if (text === shown) return;
    shown = text;
    element.hidden = all.length === 0 && s.fault === '' && !s.stopped;
    const placed = [...new Map(all.flatMap((t) => (t.place === null ? [] : [[t.place.path, t.place]])))
      .values()];
    const loose = all.filter((t) => t.place === null);
    element.replaceChildren(
      h('p', {}, h('strong', {}, isBlank(s) ? NO_MARKS : LAST_GOOD),
        placed.length > 0 ? WAIT_FOR : '',
        ...placed.flatMap((place, i) => [i > 0 ? ', ' : '', h('button', { type: 'button',
          class: 'inline', onclick: () => reveal(desk, place) }, place.label)]),
        placed.length > 0 ? '.' : ''),
      ...loose.map((t) => h('p', {}, entryWrong(t.violation.path,
        sentence(t.violation, s, desk.engine)))),
      ...(s.stopped ? [h('p', {}, STOPPED, again(desk))] : []),
      ...(s.fault === '' ? [] : [h('p', {}, failed(s.fault), again(desk))]));
  });
  return element;
}

/** @param {Desk} desk */
const again = (desk) => h('button', { type: 'button', class: 'inline',
  onclick: () => desk.edit((s) => ({ doc: { ...s.doc } })) }, AGAIN);

/** Only while one would notice the wait. @param {Desk} desk */
function working(desk) {
  const words = h('span', { role: 'status' });
  const element = h('p', { class: 'working' }, words, ' ', h('button', { type: 'button', class: 'inline',
    onclick: () => desk.engine.stop() }, STOP));
  desk.store.subscribe((s) => {
    element.hidden = !s.working;
    waited(words, s.working);
  });
  return element;
}

/** Which ruler, and from where. @param {Desk} desk */
function ruleLine(desk) {
  return h('p', { class: 'rule' }, h('span', {}, FROM_THE), list(desk, {
    label: MEASURED_FROM, hidden: true,
    options: () => desk.choices.datums.map((d) => [d, d]),
    now: (s) => s.doc.show?.datum ?? 'centre',
    pick: (datum) => desk.edit((s) => ({ doc: withValue(s.doc, 'show.datum', datum) })),
  }), h('span', {}, IN), list(desk, {
    label: UNIT, hidden: true,
    options: () => [['mm', 'mm'], ...desk.choices.fractions.map((f) =>
      /** @type {[string, string]} */ ([`inch/${f}`, inches(f)]))],
    now: (s) => (unitOf(s) === 'inch' ? `inch/${fractionOf(s)}` : 'mm'),
    pick: (value) => desk.edit((s) => {
      const [unit, fraction] = value.split('/');
      const doc = withValue(s.doc, 'show.unit', unit);
      return { doc: fraction ? withValue(doc, 'show.fraction', Number(fraction)) : doc };
    }),
  }));
}

/** What the Bench says of the flute, once somebody is at work on one of their own. @param {Desk} desk */
function asBuilt(desk) {
  let asked = false;
  desk.store.subscribe((s) => {
    if (asked || isBlank(s) || (!s.doc.log?.length && JSON.stringify(s.doc) === s.example)) return;
    asked = true;
    import('./built.js').then((m) => m.builtAlways(desk)).catch(() => { asked = false; });
  });
}

/** What holds the marks back: loaded where anything does. @param {Desk} desk */
function held(desk) {
  const element = h('section', { 'aria-label': HELD, class: 'held' });
  /** @type {Answer | null} */
  let shown = null;
  desk.store.subscribe(async (s) => {
    const { answer } = s;
    element.setAttribute('aria-busy', String(s.unexplained));
    if (answer === shown || s.unexplained) return;
    shown = answer;
    element.hidden = answer.binding.length === 0 && answer.converged && !answer.loose_mm;
    if (element.hidden) return void element.replaceChildren();
    const m = await import('./held.js');
    if (shown === answer) element.replaceChildren(...m.held(s, desk));
  });
  return element;
}

const QUIET_MS = 900;  // after the last change, before a screen reader hears of it

/** @param {Desk} desk */
function announcer(desk) {
  const element = h('p', { class: 'unseen', role: 'status', 'aria-live': 'polite' });
  let timer = 0;
  let first = true;
  /** @type {unknown} */
  let shown = null;
  desk.store.subscribe((s) => {
    if (s.answer === shown) return;
    shown = s.answer;
    if (!first) {
      clearTimeout(timer);
      timer = window.setTimeout(() => say(element, summary(s, desk.engine)), QUIET_MS);
    }
    first = false;
  });
  return element;
}

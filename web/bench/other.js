// web/bench/other.js: something happened that no step asked for.

/// <reference path="./types.d.ts" />
import { h, newId, say } from '../widgets/dom.js';
import { primary } from '../widgets/primary.js';
import { countWord } from '../text/numbers.js';
import { length } from './entry.js';
import { standing } from './log.js';
import { ACROSS, ALONG, ANOTHER_VOICE, DRILLED_AT, EMPTY_NOT_MEASURED, FOOT_NOW_AT, HOLE, KINDS, LOG_IT, NEAREST_FOOT,
  NEAREST_SOUND_HOLE, NOW_LONG, NOW_WIDE, NO_HOLE_YET, OPEN_HOLES, READ_THIS, SOMETHING_ELSE, TAP_OPEN, WHAT,
  WITHOUT_HOLES } from './words.js';

/** @param {Session} session */
export function other(session) {
  const { desk } = session;
  const id = newId('other');
  const form = h('div');
  const select = h('select', { id, onchange: () => show() },
    ...KINDS.map(([value, words]) => h('option', { value }, words)));

  function show() {
    form.replaceChildren(...(select.value === '' ? [] : formOf(session, select.value, () => {
      select.value = '';
      show();
    })));
  }
  // What is offered depends on the holes there are.
  let log = desk.store.get().doc.log;
  desk.store.subscribe((s) => {
    // An entry that is being looked at may be taken out again, and its form still has to say why.
    if (s.doc.log === log || session.logging()) return;
    log = s.doc.log;
    show();
  });
  return h('details', { class: 'other' }, h('summary', {}, SOMETHING_ELSE),
    h('div', { class: 'line wide pick' }, h('div', { class: 'what' }, h('label', { for: id }, WHAT)),
      h('div', { class: 'control' }, select)), form);
}

/** @param {Session} session @param {string} kind @param {() => void} done @returns {Node[]} */
function formOf(session, kind, done) {
  const { doc } = session.desk.store.get();
  const stand = standing(doc);
  const cut = [...stand.holes.keys()].sort((a, b) => a - b);
  const wrong = h('p', { class: 'wrong', role: 'alert' });
  /** @param {() => LogEntry | undefined} make @param {Node[]} parts @returns {Node[]} */
  const logging = (make, ...parts) => [...parts, primary(LOG_IT, async () => {
    const entry = make();
    if (entry === undefined) return;
    const sentence = await session.log([entry]);
    say(wrong, sentence);
    if (sentence === '') done();
  }), wrong];
  switch (kind) {
    case 'block': return logging(() => ({ block: 'moved' }), h('p', { class: 'note' },
      ANOTHER_VOICE));
    case 'sound_hole': {
      const long = length(session, { label: NOW_LONG, note: ALONG, mm: stand.sound_hole.length_mm });
      const wide = length(session, { label: NOW_WIDE, note: ACROSS, mm: stand.sound_hole.width_mm });
      return logging(() => {
        const [l, w] = [long.get(), wide.get()];
        return l && w && { sound_hole: { length_mm: l.value, width_mm: w.value } };
      }, long.element, wide.element);
    }
    case 'foot': {
      const at = length(session, { label: FOOT_NOW_AT, mm: stand.foot_mm, place: true });
      return logging(() => {
        const got = at.get();
        return got && { foot: { at_mm: got.value } };
      }, at.element);
    }
    case 'hole': {
      const all = Array.from({ length: doc.song.holes }, (_, i) => i + 1);
      const plan = session.bench.get().next?.finger_holes ?? [];
      /** @param {number} n */
      const place = (n) => length(session, { label: DRILLED_AT, place: true,
        mm: stand.holes.get(n)?.at_mm ?? plan[n - 1]?.at_mm });
      const holder = h('div');
      let at = place(1);
      const which = picker(HOLE, all, (n) => {
        at = place(n);
        holder.replaceChildren(...(stand.holes.has(n) ? [] : [at.element]));
      });
      const wide = length(session, { label: NOW_WIDE, note: EMPTY_NOT_MEASURED, optional: true });
      return logging(() => {
        const [a, w] = [at.get(), wide.get()];
        return a && w && { hole: { number: which.get(), at_mm: a.value, ...(w.value === undefined ? {}
          : { diameter_mm: w.value }) } };
      }, which.element, holder, wide.element);
    }
    case 'narrow': case 'undercut': {
      if (cut.length === 0) return [h('p', {}, NO_HOLE_YET)];
      const which = picker(HOLE, cut, () => {});
      if (kind === 'undercut') return logging(() => ({ undercut: { number: which.get() } }), which.element);
      const wide = length(session, { label: NOW_WIDE, note: EMPTY_NOT_MEASURED, optional: true });
      return logging(() => {
        const w = wide.get();
        return w && { narrow: { number: which.get(), ...(w.value === undefined ? {} : { diameter_mm: w.value }) } };
      }, which.element, wide.element);
    }
    default: return fingerings(session, cut);
  }
}

/** @param {Session} session @param {number[]} cut @returns {Node[]} */
function fingerings(session, cut) {
  /** @type {Set<number>} */
  const open = new Set();
  return [h('p', { class: 'note' }, cut.length === 0 ? WITHOUT_HOLES : TAP_OPEN),
    h('div', { class: 'tap-holes', role: 'group', 'aria-label': OPEN_HOLES }, ...cut.map((n) => {
      const button = h('button', { type: 'button', class: 'second', 'aria-pressed': 'false', onclick: () => {
        if (!open.delete(n)) open.add(n);
        button.setAttribute('aria-pressed', String(open.has(n)));
      } }, String(n));
      return button;
    })),
    primary(READ_THIS, () => session.read([...open].sort((a, b) => a - b)))];
}

/** @param {string} label @param {number[]} numbers @param {(n: number) => void} pick */
function picker(label, numbers, pick) {
  const id = newId('n');
  const select = h('select', { id, onchange: () => pick(Number(select.value)) },
    ...numbers.map((n) => h('option', { value: n }, `${n} ${n === 1 ? NEAREST_SOUND_HOLE
      : n === numbers.length && numbers.length > 1 ? NEAREST_FOOT : `(${countWord(n)})`}`)));
  pick(numbers[0]);
  return { element: h('div', { class: 'line pick' }, h('div', { class: 'what' }, h('label', { for: id }, label)),
    h('div', { class: 'control' }, select)), get: () => Number(select.value) };
}

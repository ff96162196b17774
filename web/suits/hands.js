// web/suits/hands.js: what the player's hands allow, from two sizes that a ruler gives; which hand has which holes, and
// what it will find hard about the marks as they are.

/// <reference path="./types.d.ts" />
import { h, newId, say } from '../widgets/dom.js';
import { withValue } from '../state/path.js';
import { lower } from '../text/parts.js';
import { entry, keep } from './entry.js';
import { EASY, HANDS_HOW, OWN_HAND, PAD, SIZES, SPAN, TAKE_HAND, handHas, handLimits, handWarning, taken } from './words.js';

const REST_MS = 400;

/** @param {Desk} desk @returns {Node[]} */
export function hands(desk) {
  const { store, engine } = desk;
  const id = newId('h');
  /** @type {HandSize[]} */
  let sizes = [];
  /** @type {HandLimits | null} */
  let limits = null;
  const found = h('p', { class: 'found', role: 'status' });
  const said = h('p', { class: 'note', role: 'status' });
  const has = h('p', { class: 'note' });
  const hard = h('ul', { class: 'hard' });
  const whose = h('select', { id, onchange: () => {
    const size = sizes.find(({ name }) => name === whose.value);
    if (size === undefined) return;
    keep(desk, { 'hand.span_mm': String(size.span_mm), 'hand.pad_mm': String(size.pad_mm) }, 'mm');
    void measure();
  } }, h('option', { value: '' }, OWN_HAND));
  let timer = 0;
  const soon = () => {
    whose.value = '';
    clearTimeout(timer);
    timer = window.setTimeout(() => void measure(), REST_MS);
  };
  const span = entry(desk, 'hand.span_mm', SPAN, soon);
  const pad = entry(desk, 'hand.pad_mm', PAD, soon);
  const take = h('button', { type: 'button', class: 'take', onclick: () => {
    if (limits === null) return;
    const { apart_min_mm: min, apart_max_mm: max, hole_max_mm: wide } = limits;
    desk.edit((s) => ({ doc: withValue(withValue(withValue(s.doc, 'shop.spacing_mm.min', min), 'shop.spacing_mm.max', max),
      'shop.diameter_mm.max', wide) }), ['shop.spacing_mm', 'shop.diameter_mm']);
    say(said, taken(lower(handLimits(limits, store.get(), engine))));
  } }, TAKE_HAND);

  async function measure() {
    const asked = { span_mm: span.mm(), pad_mm: pad.mm() };
    const both = asked.span_mm !== undefined && asked.pad_mm !== undefined;
    const { answer, violations } = await engine.workshop().then((w) => w.reach(both ? asked : {}));
    limits = answer?.limits ?? null;
    if (answer && sizes.length === 0) {
      sizes = answer.sizes;
      whose.append(...sizes.map(({ name }) => h('option', { value: name }, name)));
    }
    for (const each of violations ?? []) (each.path === 'pad_mm' ? pad : span).fault(each);
    say(found, limits === null ? '' : handLimits(limits, store.get(), engine));
    take.hidden = limits === null;
  }
  /** @type {unknown} */
  let of = null;
  async function grip() {
    const { answer: now, doc } = store.get();
    if (of === now) return;
    of = now;
    const { answer } = await engine.workshop().then((w) => w.grip({ ...doc, finger_holes: now.finger_holes }));
    if (of !== now || !answer) return;
    const s = store.get();
    say(has, handHas(answer.holes));
    hard.replaceChildren(...(answer.warnings.length === 0 ? [h('li', {}, EASY)]
      : answer.warnings.map((each) => h('li', {}, handWarning(each, s, engine)))));
  }
  take.hidden = true;
  const whole = h('div', {}, h('p', { class: 'note' }, HANDS_HOW), h('div', { class: 'line pick' },
    h('div', { class: 'what' }, h('label', { for: id }, SIZES)), h('div', { class: 'control' }, whose)),
  span.element, pad.element, found, take, said, has, hard);
  store.subscribe(() => { if (whole.closest('details')?.open) void grip().catch(() => {}); });
  void measure().catch(() => {});
  void grip().catch(() => {});
  return [whole];
}

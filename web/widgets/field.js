// web/widgets/field.js: one line of the ledger: label, figure, sentence when something is wrong.

import { h, newId, say } from './dom.js';
import { INCH_MM, isBlank, unitOf, fractionOf } from '../state/desk.js';
import { lengthReader, notes, numberReader, stepped } from '../state/readers.js';
import { unchanged } from '../state/store.js';
import { sentence } from '../text/violations.js';
import { otherUnit } from '../text/numbers.js';

/**
 * @typedef {object} Look
 * @property {string} label
 * @property {string} [full] the same where the heading above cannot be seen
 * @property {string} [note] a few words under the label
 * @property {Reader} read
 * @property {(value: any, state: State) => string} write
 * @property {string} [suffix] a unit that does not change, under the figure
 * @property {boolean} [wide] the figure takes the whole width, under its label
 * @property {boolean} [words] words are typed, not figures
 * @property {boolean} [length] fractions of an inch are typed
 * @property {((value: any, state: State) => string)} [aside] small, under the figure
 * @property {((direction: number, state: State) => unknown)} [step] value one step on, or undefined
 * @property {() => boolean} [when] whether it is on the page now
 */

/** @param {Desk} desk @param {string} path @param {Look} look */
export function field(desk, path, look) {
  const id = newId('f');
  const name = look.full ?? look.label;
  const input = h('input', {
    type: 'text', id, 'aria-label': look.full, autocomplete: 'off', spellcheck: 'false', enterkeyhint: 'next',
    inputmode: look.words ? 'text' : 'decimal', 'aria-describedby': `${id}-note ${id}-aside ${id}-wrong`,
    class: look.words ? 'words' : 'figure', autocapitalize: 'off',
    oninput: () => desk.type(path, input.value, look.read),
    onpointerdown: () => { fresh = document.activeElement !== input; },
    onclick: () => tapped(),
    onkeydown: (/** @type {KeyboardEvent} */ event) => arrow(event),
  });
  const beside = h('span', { class: 'aside', id: `${id}-aside` });
  const wrong = h('p', { class: 'wrong', id: `${id}-wrong`, role: 'alert',
    'aria-live': 'polite' });
  const control = h('div', { class: 'control' }, h('span', { class: 'entry' }, input, beside));
  if (look.step) {
    control.prepend(stepper(-1, '−'));
    control.append(stepper(1, '+'));
  }
  const element = h('div', { class: look.wide ? 'line wide' : 'line' },
    h('div', { class: 'what' },
      h('label', { for: id }, look.label),
      h('span', { class: 'note', id: `${id}-note` }, look.note ?? '')),
    control, wrong);

  let fresh = false;  // whether the tap under way is the one that chooses this field
  function tapped() {
    // The old figure goes with the first key; a second tap sets the cursor, as ever.
    if (fresh && !look.words && input.selectionStart === input.selectionEnd) input.select();
    fresh = false;
    const s = desk.store.get();
    if (look.length && unitOf(s) === 'inch') {
      import('./fraction_keys.js').then((m) => m.under(element, input, fractionOf(s))).catch(() => {});
    }
  }

  /** @param {number} direction */
  function go(direction) {
    const next = look.step?.(direction, desk.store.get());
    if (next !== undefined) desk.set(path, next);
  }

  /** @param {KeyboardEvent} event */
  function arrow(event) {
    if (!look.step || (event.key !== 'ArrowUp' && event.key !== 'ArrowDown')) return;
    event.preventDefault();
    go(event.key === 'ArrowUp' ? 1 : -1);
  }

  /** @param {number} direction @param {string} sign */
  function stepper(direction, sign) {
    const button = h('button', { type: 'button', class: 'step',
      'aria-label': `${name}: ${direction < 0 ? 'less' : 'more'}` }, sign);
    holdToRepeat(button, (times) => go(direction * times));
    return button;
  }

  const withdraw = desk.offer({ path, label: name, element, focus: () => input.focus(),
    shown: () => element.isConnected && (look.when?.() ?? true) });
  /** @type {unknown[]} */
  let shown = [];
  let troubled = false;
  const unsubscribe = desk.store.subscribe((state) => {
    const now = desk.value(state, path);
    // An empty line of a tube not measured yet waits; it is not wrong.
    const waits = isBlank(state) && state.typed[path] === undefined && now === undefined;
    const all = waits ? [] : desk.troubles(state);
    // Of all fields a key changes one.
    const parts = [now, state.typed[path], state.doc.show, isBlank(state), notes.say, input.value];
    if (!troubled && all.length === 0 && unchanged(parts, shown)) return;
    troubled = all.length > 0;
    const text = desk.text(state, path, look.write);
    if (input.value !== text) input.value = text;
    shown = [...parts.slice(0, 5), text];
    input.classList.toggle('long', text.length > 6);
    const mine = all.filter((t) => t.place?.path === path);
    say(wrong, mine.map((t) => sentence(t.violation, state, desk.engine)).join(' '));
    input.setAttribute('aria-invalid', String(mine.length > 0));
    say(beside, look.suffix ?? (now === undefined || mine.length > 0 ? ''
      : look.aside?.(now, state) ?? ''));
  });
  return { element, remove() { unsubscribe(); withdraw(); element.remove(); } };
}

/**
 * A length in the maker's unit.
 * @param {Desk} desk @param {string} path
 * @param {{label: string, full?: string, note?: string, optional?: boolean, steps?: boolean,
 *   when?: () => boolean}} how
 */
export function lengthField(desk, path, how) {
  return field(desk, path, {
    label: how.label, full: how.full, note: how.note, when: how.when,
    read: lengthReader(desk.engine, { optional: how.optional }), length: true,
    write: (mm, state) => desk.engine.writeLength(mm, unitOf(state), fractionOf(state)),
    aside: (mm, state) => otherUnit(mm, state, desk.engine),
    step: how.steps === false ? undefined : (direction, state) => {
      const mm = desk.value(state, path);
      if (typeof mm !== 'number') return undefined;
      // The smallest step a ruler or calliper of the unit shows: 0.1 mm, or 1/64 in.
      const step = unitOf(state) === 'inch' ? INCH_MM / 64 : 0.1;
      return stepped(mm, direction * step);
    },
  });
}

/**
 * A plain number with a fixed unit.
 * @param {Desk} desk @param {string} path
 * @param {{label: string, note?: string, suffix: string, step?: number, optional?: boolean,
 *   when?: () => boolean}} how
 */
export function plainField(desk, path, how) {
  const { step } = how;
  return field(desk, path, {
    label: how.label, note: how.note, suffix: how.suffix, when: how.when,
    read: numberReader(desk.engine, { optional: how.optional }),
    write: (v) => String(Math.round(v * 100) / 100),
    step: step === undefined ? undefined : (direction, state) => {
      const now = desk.value(state, path);
      return typeof now === 'number' ? stepped(now, direction * step) : undefined;
    },
  });
}

/** A press acts once, holding repeats. @param {HTMLButtonElement} button @param {(times: number) => void} act */
function holdToRepeat(button, act) {
  const press = { times: 0, since: 0 };
  button.addEventListener('pointerdown', (event) => {
    Object.assign(press, { times: 0, since: event.button === 0 ? performance.now() : 0 });
    if (press.since > 0) import('./hold.js').then((m) => m.hold(button, press, act)).catch(() => {});
  });
  for (const name of ['pointerup', 'pointerleave', 'pointercancel', 'blur']) {
    button.addEventListener(name, () => { press.since = 0; });
  }
  button.addEventListener('contextmenu', (event) => event.preventDefault());
  // A click also comes from the keyboard; after a hold it would be one step too many.
  button.addEventListener('click', () => {
    if (press.times === 0) act(1);
    press.times = 0;
  });
}

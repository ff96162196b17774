// web/widgets/choice.js: one of a few, in a line: native radio buttons and native lists.

import { h, newId } from './dom.js';

/**
 * @param {Desk} desk
 * @param {{label: string, options: [string, string][], now: (s: State) => string,
 *   pick: (value: string) => void, hidden?: boolean}} how  options: value and words
 */
export function radios(desk, how) {
  const name = newId('r');
  const buttons = how.options.map(([value, words]) => {
    const input = h('input', { type: 'radio', name, value, id: `${name}-${value}`,
      onchange: () => how.pick(value) });
    return { input, element: h('span', { class: 'option' }, input,
      h('label', { for: input.id }, words)) };
  });
  const element = h('fieldset', { class: 'radios' },
    h('legend', { class: how.hidden ? 'unseen' : '' }, how.label),
    h('div', { class: 'options' }, ...buttons.map((b) => b.element)));
  desk.store.subscribe((state) => {
    const now = how.now(state);
    for (const { input } of buttons) input.checked = input.value === now;
  });
  return element;
}

/**
 * @param {Desk} desk
 * @param {{label: string, hidden?: boolean, now: (s: State) => string,
 *   options: (s: State) => [string, string][], pick: (value: string) => void}} how
 */
export function list(desk, how) {
  const id = newId('s');
  const select = h('select', { id, onchange: () => how.pick(select.value),
    'aria-label': how.hidden ? how.label : null });
  let shown = '';
  /** @type {Doc | null} */
  let of = null;
  desk.store.subscribe((state) => {
    if (state.doc === of) return;
    of = state.doc;
    const options = how.options(state);
    const text = JSON.stringify(options);
    if (text !== shown) {
      shown = text;
      select.replaceChildren(...options.map(([value, words]) => h('option', { value }, words)));
    }
    const now = how.now(state);
    if (select.value !== now) select.value = now;
  });
  return how.hidden ? select : h('div', { class: 'line pick' },
    h('div', { class: 'what' }, h('label', { for: id }, how.label)),
    h('div', { class: 'control' }, select));
}

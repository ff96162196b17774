// web/guide/chips.js: one of a few, to be touched: native radio buttons in a wrapping row.

import { h, newId } from '../widgets/dom.js';

/**
 * @param {Desk} desk
 * @param {{label: string, options: (s: State) => [string, string][], now: (s: State) => string,
 *   pick: (value: string) => void}} how  options: value and words, which may change with the state
 * @returns {import('./steps.js').Screen}
 */
export function chips(desk, how) {
  const name = newId('g');
  const row = h('div', { class: 'guide-chips' });
  let shown = '';
  const remove = desk.store.subscribe((s) => {
    const options = how.options(s);
    const text = JSON.stringify(options);
    if (text !== shown) {
      shown = text;
      const held = row.contains(document.activeElement);
      row.replaceChildren(...options.map(([value, words], i) => h('span', { class: 'chip' },
        h('input', { type: 'radio', name, value, id: `${name}-${i}`, checked: value === how.now(s),
          onchange: () => how.pick(value) }), h('label', { for: `${name}-${i}` }, words))));
      if (held) focus();
    }
    for (const input of row.querySelectorAll('input')) input.checked = input.value === how.now(s);
  });
  function focus() {
    const inputs = [...row.querySelectorAll('input')];
    (inputs.find((input) => input.checked) ?? inputs[0]).focus();
  }
  return { nodes: [h('fieldset', { class: 'radios' }, h('legend', { class: 'unseen' }, how.label), row)], focus, remove };
}

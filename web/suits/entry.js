// web/suits/entry.js: a length that is no key of the document: kept beside it as it is typed, with the unit meant.

import { h, newId, say } from '../widgets/dom.js';
import { lengthReader } from '../state/readers.js';
import { unitOf } from '../state/desk.js';
import { sentence } from '../text/violations.js';

/** @param {State} s @param {string} key */
export const kept = (s, key) => s.aside.measure?.[key] ?? '';
/** @param {Desk} desk @param {Record<string, string>} texts @param {string} [unit] that they are in */
export const keep = (desk, texts, unit) => desk.edit((s) => ({ aside: { ...s.aside, measure: { ...s.aside.measure, ...texts,
  ...Object.fromEntries(Object.keys(texts).map((key) => [`${key} in`, unit ?? unitOf(s)])) } } }));

/** @param {Desk} desk @param {string} key @param {{label: string, note: string}} words
 * @param {() => void} [changed] */
export function entry(desk, key, { label, note }, changed = () => {}) {
  const id = newId('e');
  const read = lengthReader(desk.engine, { optional: true });
  const input = h('input', { type: 'text', id, inputmode: 'decimal', autocomplete: 'off', spellcheck: 'false',
    enterkeyhint: 'next', class: 'figure', 'aria-describedby': `${id}-note ${id}-aside ${id}-wrong`,
    oninput: () => { keep(desk, { [key]: input.value }); changed(); } });
  const aside = h('span', { class: 'aside', id: `${id}-aside` });
  const wrong = h('p', { class: 'wrong', id: `${id}-wrong`, role: 'alert', 'aria-live': 'polite' });
  /** @param {State} s */
  const unit = (s) => kept(s, `${key} in`) || unitOf(s);
  /** @param {Violation | null} violation */
  function fault(violation) {
    say(wrong, violation === null ? '' : sentence({ ...violation, path: `measure.${key}` }, desk.store.get(), desk.engine));
    input.setAttribute('aria-invalid', String(violation !== null));
  }
  desk.store.subscribe((s) => {
    if (input.value !== kept(s, key)) input.value = kept(s, key);
    say(aside, unit(s));
  });
  return {
    element: h('div', { class: 'line' }, h('div', { class: 'what' }, h('label', { for: id }, label),
      h('span', { class: 'note', id: `${id}-note` }, note)),
    h('div', { class: 'control' }, h('span', { class: 'entry' }, input, aside)), wrong),
    fault,
    missing: () => { if (wrong.textContent === '') fault({ code: 'missing', path: '' }); },
    /** In mm; undefined where nothing that can be read is there, and that is said. */
    mm() {
      const s = desk.store.get();
      const got = read(kept(s, key), unit(s));
      fault('problem' in got ? got.problem : null);
      return 'value' in got ? /** @type {number | undefined} */ (got.value) : undefined;
    },
  };
}

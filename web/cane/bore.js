// web/cane/bore.js: the bore, measured at one or more stations along the tube.

import { h } from '../widgets/dom.js';
import { lengthField } from '../widgets/field.js';
import { ADD_PLACE, BORE, FROM_LINE, INSIDE, IS_OVAL, IS_ROUND, QUARTER_TURN, REMOVE, acrossName,
  boreIsOval, boreIsRound, boreName, placeName, removeBore } from './words.js';

/** @param {Desk} desk */
export function boreStations(desk) {
  const holder = h('div', { class: 'stations' });
  const add = h('button', { type: 'button', class: 'plain', onclick: () => addStation() },
    ADD_PLACE);
  const element = h('div', {}, h('h3', {}, BORE), holder, add);
  /** @type {{remove(): void}[]} */
  let fields = [];
  let shape = '';
  desk.store.subscribe((state) => {
    // Rebuilt only when lines come or go, so that the one being typed in keeps the focus.
    const now = state.doc.tube.bore.map((b) => (b.across_mm === undefined ? 'round' : 'oval'))
      .join();
    if (now === shape) return;
    shape = now;
    for (const f of fields) f.remove();
    fields = [];
    holder.replaceChildren(...state.doc.tube.bore.map((b, i, all) => station(b, i, all.length)));
  });

  /** @param {BoreStation} bore @param {number} i @param {number} count */
  function station(bore, i, count) {
    const path = `tube.bore[${i}]`;
    const name = count === 1 ? BORE : boreName(i + 1);
    const lines = [];
    if (count > 1) {
      lines.push(lengthField(desk, `${path}.at_mm`, { label: placeName(i + 1), steps: false,
        note: FROM_LINE }));
    }
    lines.push(lengthField(desk, `${path}.diameter_mm`, { label: name,
      note: count === 1 ? INSIDE : '' }));
    if (bore.across_mm !== undefined) {
      lines.push(lengthField(desk, `${path}.across_mm`, { label: acrossName(name),
        note: QUARTER_TURN }));
    }
    fields.push(...lines);
    return h('div', { class: 'station-line', role: 'group', 'aria-label': name },
      ...lines.map((l) => l.element),
      h('div', { class: 'links' },
        h('button', { type: 'button', class: 'plain', 'aria-label': bore.across_mm === undefined
          ? boreIsOval(name) : boreIsRound(name),
        onclick: () => turnOval(i) }, bore.across_mm === undefined ? IS_OVAL : IS_ROUND),
        count > 1 && h('button', { type: 'button', class: 'plain',
          'aria-label': removeBore(name), onclick: () => removeStation(i) }, REMOVE)));
  }

  /** @param {number} i */
  function turnOval(i) {
    const bore = desk.store.get().doc.tube.bore[i];
    desk.set(`tube.bore[${i}].across_mm`, bore.across_mm === undefined ? bore.diameter_mm : undefined);
    focusIn(i);
  }

  function addStation() {
    const { bore, end_mm: end } = desk.store.get().doc.tube;
    const last = bore[bore.length - 1];
    // The tube's end is where a calliper reaches next; beyond it, halfway on is as good as any.
    const at = end > last.at_mm + 1 ? end : last.at_mm + 100;
    desk.set(`tube.bore[${bore.length}]`, { at_mm: at, diameter_mm: last.diameter_mm });
    focusIn(bore.length);
  }

  /** @param {number} i */
  function removeStation(i) {
    desk.removeStation(i);
    focusIn(Math.max(0, i - 1));
  }

  /** @param {number} i */
  function focusIn(i) {
    holder.children[i]?.querySelector('input')?.focus();
  }
  return element;
}

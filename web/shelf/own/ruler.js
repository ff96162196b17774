// web/shelf/own/ruler.js: in which unit a sheet's figures are and from which line its places: as the page has it, until
// the maker says otherwise here.

import { h } from '../../widgets/dom.js';
import { inThe, rulerNote } from './words.js';

/** @param {Desk} desk @param {() => State} asBegun @param {(show: NonNullable<Doc['show']>) => void} choose */
export function ownRuler(desk, asBegun, choose) {
  const element = h('div', { class: 'ruler', role: 'group' });
  const note = h('p', { class: 'note' });
  return { element, draw() {
    const show = { unit: 'mm', fraction: 32, datum: 'centre', ...asBegun().doc.show };
    const others = [{ ...show, unit: show.unit === 'inch' ? 'mm' : 'inch' },
      ...desk.choices.datums.filter((datum) => datum !== show.datum).map((datum) => ({ ...show, datum }))];
    note.textContent = rulerNote(show.unit, show.datum);
    element.setAttribute('aria-label', note.textContent);
    element.replaceChildren(note, h('p', { class: 'buttons' }, ...others.map((other) =>
      h('button', { type: 'button', class: 'inline', onclick: () => {
        choose(other);
        element.querySelector('button')?.focus();
      } }, other.unit === show.unit ? other.datum : inThe(other.unit)))));
  } };
}

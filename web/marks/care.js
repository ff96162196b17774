// web/marks/care.js: the cautions, below the marks. Loaded as soon as these are there.

import { h } from '../widgets/dom.js';
import { cautions } from '../text/cautions.js';
import { CARE } from './words.js';

/** @param {Desk} desk */
export function care(desk) {
  const groups = h('div', { class: 'groups' });
  /** @type {string | null} */
  let shown = null;
  desk.store.subscribe(({ answer: { tube: { material = '' } } }) => {
    if (material === shown) return;
    shown = material;
    groups.replaceChildren(...cautions(material).map(({ title, lines }) => h('div', {}, h('h4', {}, title),
      h('ul', {}, ...lines.map((line) => h('li', {}, line))))));
  });
  return h('div', {}, h('h3', {}, CARE), groups);
}

// web/widgets/later.js: what few open is loaded when it is opened.

import { h } from './dom.js';

/** @param {string} name class of the element @param {string} title
 * @param {() => Promise<Node[]>} load */
export function later(name, title, load) {
  let asked = false;
  const element = h('details', { class: name, ontoggle: async () => {
    if (asked || !element.open) return;
    asked = true;
    try {
      element.append(...await load());
    } catch {
      asked = false;  // no network yet: opened again, it is asked for again
      element.open = false;
    }
  } }, h('summary', {}, title));
  return element;
}

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

/** Loaded once it is needed, without being asked for. @param {Desk} desk @param {Element} place
 * @param {(s: State) => boolean} needed @param {() => Promise<Node>} load */
export function asNeeded(desk, place, needed, load) {
  let asked = false;
  desk.store.subscribe(async (s) => {
    if (asked || !needed(s)) return;
    asked = true;
    try {
      place.append(await load());
      desk.edit(() => ({}));  // what is wrong with it has its place now
    } catch {
      asked = false;
    }
  });
}

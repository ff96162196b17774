// web/widgets/unmet.js: that a song cannot be had of this tube, on Song and on Marks; the words come when
// they are needed.

import { h } from './dom.js';
import { isUnmet } from '../state/desk.js';

/** @param {Desk} desk */
export function unmet(desk) {
  const element = h('div', { class: 'cannot', role: 'status', hidden: true });
  /** @type {Answer | null} */
  let shown = null;
  desk.store.subscribe(async (s) => {
    if (s.answer === shown) return;
    shown = s.answer;
    element.hidden = !isUnmet(s);
    if (element.hidden) return void element.replaceChildren();
    const { cannot } = await import('./cannot.js');
    if (shown === s.answer) element.replaceChildren(...cannot(s, desk));
  });
  return element;
}

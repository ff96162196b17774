// web/voice/jumps.js: on a phone the station is long: the ways to its parts, under what it says first.

import { h } from '../widgets/dom.js';
import { ON_THIS_PAGE } from './words.js';

/** @param {HTMLElement[]} parts each with a heading, or a summary that opens it */
export function jumps(...parts) {
  return h('nav', { class: 'jumps', 'aria-label': ON_THIS_PAGE }, ...parts.map((part) => {
    const heading = /** @type {HTMLElement} */ (part.querySelector('h3, summary'));
    return h('button', { type: 'button', class: 'plain', onclick: () => {
      if (part instanceof HTMLDetailsElement) part.open = true;
      else heading.tabIndex = -1;
      heading.scrollIntoView();
      heading.focus({ preventScroll: true });
    } }, heading.textContent);
  }));
}

// web/shelf/notices.js: sentences that stay at the top of the page until they are settled.

import { h } from '../widgets/dom.js';
import { sheet } from './sheet.js';

/** @type {Map<string, HTMLElement>} */
const shown = new Map();

function place() {
  let element = document.getElementById('notices');
  if (element === null) {
    element = h('div', { id: 'notices' });
    document.getElementById('stations')?.before(element);
  }
  return element;
}

/** Shows a notice, in place of the one of the same kind.
 * @param {string} kind @param {boolean} urgent read out at once
 * @param {...(Node | string)} content */
export async function notice(kind, urgent, ...content) {
  await sheet();
  const element = h('div', { class: 'notice', role: urgent ? 'alert' : 'status', 'data-kind': kind }, ...content);
  const old = shown.get(kind);
  if (old === undefined) place().append(element);
  else old.replaceWith(element);
  shown.set(kind, element);
  mark();
}

function mark() {
  document.body.classList.toggle('noticed', shown.size > 0);
  document.getElementById('notices')?.classList.toggle('holds', shown.has('lost'));
}

/** @param {string} kind */
export function settle(kind) {
  shown.get(kind)?.remove();
  shown.delete(kind);
  mark();
}

/** @param {string} kind */
export const isShown = (kind) => shown.has(kind);

/** @param {string} words @param {() => void} act */
export const button = (words, act) => h('button', { type: 'button', class: 'take', onclick: act }, words);

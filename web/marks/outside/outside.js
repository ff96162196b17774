// web/marks/outside/outside.js: parts of this flute that lie beyond what the reckoning was checked for, as the core's
// answer names them. Loaded where there are any.

import { h } from '../../widgets/dom.js';
import { builtOf } from '../../state/desk.js';
import { lengthWords } from '../../text/numbers.js';
import { BEYOND, BORE, PARTS, TRUST_LESS, beyond, holeWidth, noDisc, woodLeft } from './words.js';

/** @param {NonNullable<NextStep['outside']>[number]} one @param {State} s @param {Engine} engine */
export function outsideWords({ path, value, limit }, s, engine) {
  const [, hole, key] = /^finger_holes\[(\d+)\]\.(\w+)$/.exec(path) ?? [];
  const number = Number(hole) + 1;
  const [size, end] = [value, limit].map((mm) => lengthWords(mm, s, engine));
  if (path === 'foot_plug.opening_mm') return noDisc(size, end);
  if (key === 'at_mm') return woodLeft(number, size, end);
  const part = key !== undefined ? holeWidth(number) : Object.hasOwn(PARTS, path) ? PARTS[path] : BORE;
  return beyond(part, size, end, value > limit);
}

/** @param {Desk} desk @returns {HTMLElement} */
export function outside(desk) {
  const list = h('ul');
  const element = h('div', {}, h('h3', {}, BEYOND), list, h('p', { class: 'note' }, TRUST_LESS));
  let shown = '';
  desk.store.subscribe((s) => {
    const built = builtOf(s);
    if (built === null) return;  // the last answer's stand until the next one has its own
    const lines = (built.next.outside ?? []).map((one) => outsideWords(one, s, desk.engine));
    element.hidden = lines.length === 0;
    if (lines.join() === shown) return;
    shown = lines.join();
    list.replaceChildren(...lines.map((line) => h('li', {}, line)));
  });
  return element;
}

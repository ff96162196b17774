// web/marks/held.js: what holds the marks back, what each limit costs, and where to change it. Loaded where
// anything does.

import { h } from '../widgets/dom.js';
import { reveal } from '../widgets/reveal.js';
import { bindingSentence, entryOf } from '../text/limits.js';
import { lengthWords } from '../text/numbers.js';
import { HELD } from './words.js';

const UNSETTLED = 'The marks have not settled; trust them less.';
/** @param {string} far */
const otherPlaces = (far) => `A hair of any measure may lead to other marks, up to ${far
} away. Cut the whole flute by one plan.`;
const EACH_COST = 'Each cost counts that limit alone, for the note farthest off.';
const CHANGE_IT = 'Change it';

/** @param {State} s @param {Desk} desk @returns {Node[]} */
export function held(s, desk) {
  const { binding, converged, loose_mm: loose } = s.answer;
  const worst = [...binding].sort((a, b) => (b.costs_cents ?? 0) - (a.costs_cents ?? 0));
  return [...(converged && binding.length === 0 ? [] : [h('h3', {}, HELD)]),
    ...(converged ? [] : [h('p', {}, UNSETTLED)]),
    ...(worst.length === 0 ? [] : [h('ul', {}, ...worst.map((one) =>
      h('li', {}, bindingSentence(one, s, desk.engine), ...changing(one, s, desk))))]),
    ...(loose ? [h('p', {}, otherPlaces(lengthWords(loose, s, desk.engine)))] : []),
    ...(binding.length > 1 ? [h('p', { class: 'note' }, EACH_COST)] : [])];
}

/** @param {Binding} one @param {State} s @param {Desk} desk */
function changing(one, s, desk) {
  const path = entryOf(one, s);
  const place = path === '' ? null : desk.placeOf(path);
  return place === null ? [] : [' ', h('button', { type: 'button', class: 'inline', 'aria-label': `${CHANGE_IT}: ${
    place.label}`, onclick: () => reveal(desk, place) }, CHANGE_IT)];
}

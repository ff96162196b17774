// web/marks/sure.js: how sure the notes are, and what is worth doing. What makes the bands, and the
// same flute built thousands of times by chance, are in makings.js.

import { h, say } from '../widgets/dom.js';
import { later } from '../widgets/later.js';
import { onChange } from '../state/store.js';
import { HEARD, strays, trialOf } from '../state/sure.js';
import { flutesWithin, worthRepeating } from '../text/sure.js';
import { BANDS, HEARD_HERE, HOW_SURE, ONE_MOMENT, TRY, notReckoned } from './words.js';

const makings = () => import('./makings.js');

/** @param {Desk} desk */
export function sure(desk) {
  const worth = h('p', { class: 'worth' });
  const flutes = h('p');
  const first = h('button', { type: 'button', class: 'plain', onclick: async () => {
    const { trial } = await makings();
    tried.replaceChildren(...trial(desk));
    tried.querySelector('button')?.click();
  } }, TRY);
  const tried = h('div', { class: 'trial' }, first);
  const element = h('section', { 'aria-label': HOW_SURE, class: 'sure' }, h('h3', {}, HOW_SURE),
    worth, flutes, later('', BANDS, async () => [(await makings()).makings(desk)]), tried);
  const finishedTrial = (/** @type {State} */ s) => (trialOf(s)?.running === false ? trialOf(s)?.result ?? null : null);
  desk.store.subscribe(onChange((s) => [s.sure, s.unsure, finishedTrial(s)], (s) => {
    const finished = finishedTrial(s);
    const { sure: is } = s;
    say(worth, is === null ? (s.unsure === HEARD ? HEARD_HERE : s.unsure === '' ? ONE_MOMENT
      : notReckoned(s.unsure)) : worthRepeating(is));
    const off = finished !== null && finished.notes.some(strays);
    say(flutes, off ? flutesWithin(finished.within) : is === null ? ''
      : flutesWithin(is.within, is.within_shop));
  }));
  return element;
}

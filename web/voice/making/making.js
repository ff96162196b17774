// web/voice/making/making.js: making a voice, step by step, with the cautions where the knife is.

/// <reference path="../types.d.ts" />
import { h } from '../../widgets/dom.js';
import { stepsDrawn } from './steps_drawn.js';
import { KNIFE, MAKING, MAKING_LEAD, STEPS } from './words.js';

/** @param {VoiceSession} session */
export function making(session) {
  const figures = stepsDrawn(session);
  const element = h('details', { class: 'making' }, h('summary', {}, MAKING),
    h('p', { class: 'note' }, MAKING_LEAD), h('ul', { class: 'care' }, ...KNIFE.map((words) => h('li', {},
      words))),
    h('ol', { class: 'steps drawn-steps' }, ...STEPS.map(({ title, words, test }, i) => h('li', {}, figures[i],
      h('div', {}, h('strong', {}, title), ` ${words}`,
        test === undefined ? null : h('span', { class: 'test' }, test))))));
  // On paper there is nothing to open: while the station is printed the steps are out.
  let closed = false;
  addEventListener('beforeprint', () => {
    closed = !element.open && session.desk.store.get().station === 'voice';
    if (closed) element.open = true;
  });
  addEventListener('afterprint', () => {
    if (closed) element.open = false;
    closed = false;
  });
  return element;
}

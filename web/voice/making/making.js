// web/voice/making/making.js: making a voice, step by step, with the cautions where the knife is.

/// <reference path="../types.d.ts" />
import { h } from '../../widgets/dom.js';
import { stepsDrawn } from './steps_drawn.js';
import { KNIFE, MAKING, MAKING_LEAD, STEPS } from './words.js';

/** @param {VoiceSession} session */
export function making(session) {
  const figures = stepsDrawn(session);
  return h('details', { class: 'making' }, h('summary', {}, MAKING),
    h('p', { class: 'note' }, MAKING_LEAD), h('ul', { class: 'care' }, ...KNIFE.map((words) => h('li', {},
      words))),
    h('ol', { class: 'steps drawn-steps' }, ...STEPS.map(({ title, words, test }, i) => h('li', {}, figures[i],
      h('div', {}, h('strong', {}, title), ` ${words}`,
        test === undefined ? null : h('span', { class: 'test' }, test))))));
}

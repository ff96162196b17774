// web/bench/rest_panels.js: steps without a cut: wait until it is dry, and done.

/// <reference path="./types.d.ts" />
import { h, say } from '../widgets/dom.js';
import { goTo } from '../widgets/reveal.js';
import { noteName } from '../text/numbers.js';
import { care } from './care.js';
import { primary } from './entry.js';
import { verdictWords } from './words.js';

/** @param {Session} session @param {NextStep} next @returns {Panel} */
export function waitPanel(session, next) {
  const wrong = h('p', { class: 'wrong', role: 'alert' });
  return {
    element: h('div', { class: 'panel' },
      h('p', {}, 'Oil or varnish it, bore too, and leave it until tomorrow. Then the ends of the scale are '
        + 'heard once more.'),
      care(session.desk, next.step),
      primary('It is finished and dry', async () => say(wrong, await session.log([{ bore: 'sealed' }]))),
      wrong),
    remove() {},
  };
}

/** @param {Session} session @param {NextStep} next @returns {Panel} */
export function donePanel(session, next) {
  const verdict = [...(next.step.verdict ?? [])].reverse();
  return {
    element: h('div', { class: 'panel' },
      h('dl', { class: 'verdicts' }, ...verdict.flatMap((v) => [
        h('dt', {}, noteName(v.name) || (v.open.join(' ') || 'lowest')), h('dd', {}, verdictWords(v))])),
      h('p', {}, 'The Shelf can keep it as your pattern: the next tube starts from what this one told.'),
      primary('To the Shelf', () => goTo(session.desk, 'shelf'))),
    remove() {},
  };
}

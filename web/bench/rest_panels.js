// web/bench/rest_panels.js: steps without a cut: wait until it is dry, and done.

/// <reference path="./types.d.ts" />
import { h, say } from '../widgets/dom.js';
import { primary } from '../widgets/primary.js';
import { goTo } from '../widgets/reveal.js';
import { noteName } from '../text/numbers.js';
import { care } from './care.js';

import { verdictWords } from './tell_step.js';
import { nextTube, taughtBefore } from './next_tube.js';
import { ASK_HAND, ASK_PATTERN, IS_DRY, LOWEST, NEXT_TUBE, OIL_IT, TO_SHELF } from './words.js';

/** @param {Session} session @param {NextStep} next @returns {Panel} */
export function waitPanel(session, next) {
  const wrong = h('p', { class: 'wrong', role: 'alert' });
  return {
    element: h('div', { class: 'panel' },
      h('p', {}, OIL_IT),
      care(session.desk, next.step),
      primary(IS_DRY, async () => say(wrong, await session.log([{ bore: 'sealed' }]))),
      wrong),
    remove() {},
  };
}

/** @param {Session} session @param {NextStep} next @returns {Panel} */
export function donePanel(session, next) {
  const verdict = [...(next.step.verdict ?? [])].reverse();
  const wrong = h('p', { class: 'wrong', role: 'alert' });
  return {
    element: h('div', { class: 'panel' },
      h('dl', { class: 'verdicts' }, ...verdict.flatMap((v) => [
        h('dt', {}, noteName(v.name) || (v.open.join(' ') || LOWEST)), h('dd', {}, verdictWords(v))])),
      h('p', {}, taughtBefore(session.desk) === undefined ? ASK_PATTERN : ASK_HAND),
      primary(NEXT_TUBE, async () => say(wrong, await nextTube(session))), wrong,
      h('button', { type: 'button', class: 'second', onclick: () => goTo(session.desk, 'shelf') }, TO_SHELF)),
    remove() {},
  };
}

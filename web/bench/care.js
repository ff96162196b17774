// web/bench/care.js: the cautions that belong to the step in hand, short; the rest is on Marks.

import { h } from '../widgets/dom.js';
import { cautions } from '../text/cautions.js';
import { CARE } from './words.js';

/** @param {Desk} desk @param {NextStep['step']} step */
export function care(desk, step) {
  const groups = cautions(desk.store.get().doc.tube.material ?? '');
  // By ear one works with knife, file or hot rod; by measure with saw and bit.
  const titles = step.do === 'wait' ? ['At the mouth'] : step.until ? ['Hot rod', 'No hot rod'] : ['Saw and drill'];
  const mine = groups.filter((group) => titles.includes(group.title));
  const dust = step.until ? groups.find((group) => group.title === 'Saw and drill')?.lines
    .filter((line) => /mask/.test(line)) ?? [] : [];
  return h('ul', { class: 'care', 'aria-label': CARE },
    ...[...dust, ...mine.flatMap((group) => group.lines)].map((line) => h('li', {}, line)));
}

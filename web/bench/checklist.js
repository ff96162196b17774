// web/bench/checklist.js: what a voice needs before a reading of it is worth anything.

/// <reference path="./types.d.ts" />
import { h, newId, say } from '../widgets/dom.js';
import { primary } from '../widgets/primary.js';

import { ALL_SO, VOICE, VOICE_FINISHED, VOICE_FIRST } from './words.js';

/** Comes before the first reading; what follows is shown when all is so.
 * @param {Session} session @param {HTMLElement} after */
export function checklist(session, after) {
  const words = h('summary', {});
  const checked = () => session.aside().checked ?? [];
  const boxes = VOICE.map(([key, label]) => {
    const id = newId('c');
    const box = h('input', { type: 'checkbox', id, onchange: () => {
      session.keep({ checked: [...checked().filter((k) => k !== key), ...(box.checked ? [key] : [])] });
      show();
    } });
    return { key, box, line: h('li', {}, box, h('label', { for: id }, label)) };
  });
  const all = primary(ALL_SO, () => {
    session.keep({ checked: VOICE.map(([key]) => key) });
    show();
    after.querySelector('button')?.focus({ preventScroll: true });
  });
  const element = h('details', { class: 'voice' }, words, h('ul', { class: 'checks' },
    ...boxes.map(({ line }) => line)), all);
  function show() {
    const count = VOICE.filter(([key]) => checked().includes(key)).length;
    for (const { key, box } of boxes) box.checked = checked().includes(key);
    const ready = count === VOICE.length;
    say(words, ready ? VOICE_FINISHED : VOICE_FIRST);
    element.open = !ready;
    all.hidden = ready;
    after.hidden = !ready;
  }
  show();
  return element;
}

// web/marks/built.js: what the Bench says of the flute in hand, for Marks and paper: the flute as it stands
// and what is left to do. Loaded when a maker is at work.

import { newestNext } from '../engine/newest.js';
import { builtFrom } from '../text/built.js';

const AFTER_MS = 250;  // marks first
const PLAN_MS = 800;   // before anything is made, whoever types is let finish

/** From now on. @param {Desk} desk */
export function builtAlways({ store, engine }) {
  const ask = newestNext(async (/** @type {State} */ s) => (await engine.workshop()).next(s.good), (reply, s) => {
    const { answer: next } = reply;
    if (next) store.change((now) => (now.answer === s.answer ? { ...now, built: builtFrom(s, next, engine) } : now));
  }, () => {});
  let timer = 0;
  /** @type {Answer | null} */
  let asked = null;
  store.subscribe((s) => {
    if (s.answer === asked) return;
    asked = s.answer;
    clearTimeout(timer);
    if (s.unexplained) return;  // the same marks come once more
    // Not the old marks of a plan that a later version has otherwise: what is left is then the maker's choice.
    timer = window.setTimeout(() => void ask(store.get()), asked.log?.length ? AFTER_MS : PLAN_MS);
  });
}

// web/state/sure.js: how sure the notes are, reckoned after each layout, and flutes built by chance.

import { builtOf } from './desk.js';
import { newestNext } from '../engine/newest.js';

const AFTER_MS = 120;  // a held button or a quick typist gets marks first, bands when there is a pause

/** Why there is nothing to say here: readings tell more, and the bench reckons with them. */
export const HEARD = 'heard';

/** @param {Store} store @param {Engine} engine */
export function spreadAlways(store, engine) {
  const ask = newestNext((/** @type {Answer} */ answer) => engine.spread(answer), (reply, of) => {
    store.change((s) => (reply.answer ? { ...s, sure: reply.answer, sureOf: of, unsure: '' }
      : { ...s, sure: null, sureOf: of, unsure: reply.fault ?? reply.violations?.[0]?.code ?? 'nothing' }));
  });
  let timer = 0;
  /** @type {Answer | null} */
  let asked = null;
  store.subscribe((s) => {
    if (s.answer === asked) return;
    const first = asked === null;
    asked = s.answer;
    clearTimeout(timer);
    if (!first && s.sureOf === asked) return;
    // These bands are those of a flute that was never heard.
    if (asked.log?.some((entry) => entry.read)) {
      store.change((now) => ({ ...now, sure: null, sureOf: s.answer, unsure: HEARD }));
      return;
    }
    timer = window.setTimeout(() => void ask(s.answer), first ? 0 : AFTER_MS);
  });
}

/** The trial of what is shown now. @param {State} s */
export const trialOf = (s) => (s.trial?.of === s.answer ? s.trial : null);

/** Linear reckoning and trial differ by more than a tenth in this note.
 * @param {MonteCarlo['notes'][number] | undefined} tried */
export const strays = (tried) => typeof tried?.over_linear === 'number'
  && !(Math.abs(tried.over_linear - 1) <= 0.1);

/** @param {readonly number[]} a @param {readonly number[]} b */
const same = (a, b) => a.length === b.length && a.every((k, i) => k === b[i]);

/** Band of a fingering [cents]: by the trial where it strays from the linear reckoning.
 * @param {State} s @param {number[] | undefined} open @returns {number | null} */
export function bandOf(s, open) {
  if (open === undefined) return null;
  const trial = trialOf(s);
  const tried = trial?.running === false
    ? trial.result?.notes.find((n) => same(n.open, open)) : undefined;
  if (strays(tried)) return tried?.sigma_cents ?? null;
  if (s.unsure === HEARD) return builtOf(s)?.next.notes.find((n) => same(n.open, open))?.sigma_cents ?? null;
  return s.sure?.notes.find((n) => same(n.open, open))?.sigma_cents ?? null;
}

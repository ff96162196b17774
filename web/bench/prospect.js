// web/bench/prospect.js: where the flute stands, and the finish line, which can be taken at any time.

/// <reference path="./types.d.ts" />
import { h, newId } from '../widgets/dom.js';
import { withValue } from '../state/path.js';
import { standsWords } from './tell_step.js';
import { FINISH_AT, FINISH_LINES, STOP_HERE_NOW, WIDER, finishAt } from './words.js';
import { bare } from '../text/sure.js';

/** @param {Session} session @param {NextStep} next @returns {HTMLElement} */
export function prospect(session, next) {
  const words = standsWords(next);
  const stands = next.prospect;
  if (words === '' || stands === undefined) return h('div', { hidden: true });
  const wider = next.maker && Object.hasOwn(WIDER, next.maker.wider)
    ? WIDER[next.maker.wider](bare(next.maker.moment_cents)) : '';
  /** @param {number} cents */
  const line = (cents) => session.desk.edit(({ doc }) => ({ doc: withValue(doc, 'song.good_enough_cents', cents) }),
    ['song.good_enough_cents']);
  const id = newId('finish');
  const at = Math.round(stands.good_enough_cents * 100) / 100;
  const lines = FINISH_LINES.some(([cents]) => cents === at) ? FINISH_LINES
    : [...FINISH_LINES, /** @type {[number, string]} */ ([at, finishAt(at)])];
  const choice = h('select', { id, onchange: () => line(Number(choice.value)) },
    ...lines.map(([cents, text]) => h('option', { value: String(cents) }, text)));
  choice.value = String(at);
  const here = Math.max(1, Math.ceil((stands.within_cents ?? 0) + 0.05));
  const take = stands.all_cut && here > at && next.step.do !== 'rescue'
    ? h('button', { type: 'button', class: 'plain', onclick: () => line(here) }, STOP_HERE_NOW) : null;
  return h('div', { class: 'prospect' }, h('p', { class: 'stands' }, words),
    wider === '' ? null : h('p', { class: 'note' }, wider), take,
    h('div', { class: 'line pick' }, h('div', { class: 'what' }, h('label', { for: id }, FINISH_AT)),
      h('div', { class: 'control' }, choice)));
}

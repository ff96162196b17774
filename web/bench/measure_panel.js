// web/bench/measure_panel.js: a cut by ruler, saw and bit; what came out is logged, not what was asked.

/// <reference path="./types.d.ts" />
import { h, say } from '../widgets/dom.js';
import { primary } from '../widgets/primary.js';
import { care } from './care.js';
import { length } from './entry.js';
import { asItComesOut, cutEntry, madeWith } from './log.js';
import { AS_IT_CAME_OUT, AS_YOURS_DO, DONE, DRILLED, DRILLED_AT, HOLE_WIDE, SAWN, SAWN_AT } from './words.js';

/** @param {Session} session @param {NextStep} next @returns {Panel} */
export function measurePanel(session, next) {
  const { step } = next;
  const hole = step.do === 'hole';
  const place = step.do === 'undercut' ? null : length(session, { label: hole ? DRILLED_AT : SAWN_AT,
    note: AS_IT_CAME_OUT, mm: step.at_mm, place: true });
  const size = hole ? length(session, { label: HOLE_WIDE, mm: asItComesOut(step), optional: true,
    note: step.wide_mm === undefined ? AS_IT_CAME_OUT : AS_YOURS_DO }) : null;
  const wrong = h('p', { class: 'wrong', role: 'alert' });
  const button = primary(hole ? DRILLED : step.do === 'foot' ? SAWN : DONE,
    () => void log(), 'cutting');
  async function log() {
    const at = place?.get();
    const wide = size?.get();
    if ((place !== null && at === undefined) || (size !== null && wide === undefined)) return;
    const bit_mm = madeWith(step, wide?.value, session.desk.store.get().doc.shop?.bits ?? []);
    const sentence = await session.log([cutEntry(step, { at_mm: at?.value, diameter_mm: wide?.value, bit_mm })]);
    if (sentence === '') return;
    if (place !== null) place.fail(sentence);
    else say(wrong, sentence);
  }
  return {
    element: h('div', { class: 'panel' }, care(session.desk, step),
      h('div', { class: size === null ? '' : 'two' }, place?.element ?? null, size?.element ?? null), button, wrong),
    remove() {},
  };
}

// web/bench/measure_panel.js: a cut by ruler, saw and bit; what came out is logged, not what was asked.

/// <reference path="./types.d.ts" />
import { h, say } from '../widgets/dom.js';
import { care } from './care.js';
import { length, primary } from './entry.js';
import { cutEntry } from './log.js';

/** @param {Session} session @param {NextStep} next @returns {Panel} */
export function measurePanel(session, next) {
  const { step } = next;
  const hole = step.do === 'hole';
  const place = step.do === 'undercut' ? null : length(session, { label: hole ? 'Drilled at' : 'Sawn at',
    note: 'as it came out', mm: step.at_mm, place: true });
  const size = hole ? length(session, { label: 'Hole wide', note: 'as it came out', mm: step.diameter_mm,
    optional: true }) : null;
  const wrong = h('p', { class: 'wrong', role: 'alert' });
  const button = primary(hole ? 'Drilled: log it' : step.do === 'foot' ? 'Sawn: log it' : 'Done: log it',
    () => void log(), 'cutting');
  async function log() {
    const at = place?.get();
    const wide = size?.get();
    if ((place !== null && at === undefined) || (size !== null && wide === undefined)) return;
    const sentence = await session.log([cutEntry(step, { at_mm: at?.value, diameter_mm: wide?.value })]);
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

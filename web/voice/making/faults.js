// web/voice/making/faults.js: it does not sound right: what is heard, and what to look at first, second, third.

/// <reference path="../types.d.ts" />
import { h, say } from '../../widgets/dom.js';
import { CAUSES, DO_SO, FAULTS, FAULTS_CARE, FAULTS_LEAD, NOT_YET, NO_FAULTS, SYMPTOMS, TEST_SO, numberWords } from './words.js';

/** @param {VoiceSession} session */
export function faults(session) {
  const lead = h('p', { class: 'note' });
  const list = h('div', { class: 'symptoms' });
  /** Kept from answer to answer, so that what is open stays open.
   * @type {Map<string, {element: HTMLElement, causes: HTMLElement}>} */
  const entries = new Map();
  session.watch((s, v) => [v.now, s.doc.show], (s, v) => {
    const all = v.now?.faults ?? [];
    say(lead, all.length === 0 ? NO_FAULTS : FAULTS_LEAD);
    for (const [symptom, { element }] of entries) {
      if (all.some((fault) => fault.symptom === symptom)) continue;
      element.remove();
      entries.delete(symptom);
    }
    for (const { symptom, causes } of all) {
      let entry = entries.get(symptom);
      if (entry === undefined) {
        const inside = h('ol', { class: 'steps' });
        entry = { causes: inside, element: h('details', {}, h('summary', {}, name(symptom)), inside) };
        entries.set(symptom, entry);
        list.append(entry.element);
      }
      const lines = causes.map((one) => cause(symptom, one, s, session.engine));
      if (JSON.stringify(lines) === entry.causes.dataset.of) continue;
      entry.causes.dataset.of = JSON.stringify(lines);
      entry.causes.replaceChildren(...lines.map(({ what, figure, parts }) => h('li', {}, h('strong', {}, what),
        figure === '' ? null : h('p', {}, figure),
        h('dl', {}, ...parts.flatMap(([title, words]) => [h('dt', {}, title), h('dd', {}, words)])))));
    }
  });
  return h('section', { 'aria-label': FAULTS }, h('h3', { id: 'faults', tabindex: -1 }, FAULTS), lead, list, h('ul', { class: 'care' },
    ...FAULTS_CARE.map((words) => h('li', {}, words))));
}

/** @param {string} symptom @param {FaultCause} one @param {State} s @param {Engine} engine */
export function cause(symptom, one, s, engine) {
  const [what, test = '', act = '', not = ''] = Object.hasOwn(CAUSES,
    one.code) ? CAUSES[one.code] : [plain(one.code)];
  return { what, figure: numberWords(symptom, one, s, engine),
    parts: [[TEST_SO, test], [DO_SO, act], [NOT_YET, not]].filter(([, words]) => words !== '') };
}

/** @param {string} code */
const plain = (code) => code.replaceAll('_', ' ');
/** @param {string} symptom */
const name = (symptom) => (Object.hasOwn(SYMPTOMS, symptom) ? SYMPTOMS[symptom] : plain(symptom));

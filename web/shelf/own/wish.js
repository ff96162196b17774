// web/shelf/own/wish.js: what a half-made flute shall play. Its uncut holes tell nothing, so it is proposed from what
// is there, and the maker says otherwise.

import { h, newId, say } from '../../widgets/dom.js';
import { inLetters } from '../../text/naming.js';
import { noteName } from '../../text/numbers.js';
import { noteQuestion } from '../../widgets/note_names.js';
import { cutHoles, nearestScale, pitches, rootOf } from './own_doc.js';
import { LOWEST, OWN_STEPS, SCALE_WANTED, notANote, notCut, proposedBy } from './words.js';

/** @typedef {import('./own_doc.js').OwnFlute} OwnFlute */

const OWN = 'own';

/** @param {Desk} desk @param {(key: string, text?: string) => string} draft what was chosen, kept with the sheet
 * @param {() => void} changed */
export function ownWish(desk, draft, changed) {
  const id = newId('wish');
  const head = h('p', {});
  const note = h('p', { class: 'note', id: `${id}-note` });
  const scale = h('select', { id, 'aria-describedby': note.id, onchange: () => {
    draft('scale', scale.value);
    changed();
  } });
  const lowest = h('input', { type: 'text', class: 'words', id: `${id}-low`, autocomplete: 'off', spellcheck: 'false',
    autocapitalize: 'off', 'aria-describedby': `${note.id} ${id}-wrong`, onchange: () => {
      draft('low', lowest.value.trim());
      changed();
    } });
  const wrong = h('p', { class: 'wrong', role: 'alert', id: `${id}-wrong` });
  const question = noteQuestion(desk, changed);
  /** @param {string} words @param {HTMLElement} control */
  const line = (words, control) => h('div', { class: control === scale ? 'line pick' : 'line' }, h('label', { for: control.id }, words), control);
  const parts = [head, line(SCALE_WANTED, scale), line(LOWEST, lowest), wrong, question.element, note];
  const element = h('div', { class: 'wish' });
  let proposed = '';

  return { element,
    /** A whole flute is not asked. */
    none: () => element.replaceChildren(),
    /** @param {OwnFlute} own @param {number} foot_hz what it sounds all covered, heard or reckoned
     * @param {Doc['song']} last of this maker @param {Workshop} workshop
     * @returns {{song: Doc['song'], proposed: boolean} | null} null: the note cannot be read, which is said */
    song(own, foot_hz, last, workshop) {
      if (element.childElementCount === 0) element.append(...parts);
      const cut = new Set(cutHoles(own).map((hole) => hole.number));
      say(head, notCut(own.holes.flatMap((_, n) => (cut.has(n + 1) ? [] : [n + 1]))));
      const steps = typeof last.scale === 'object' && last.scale.cents.length === own.holes.length + 1 ? last.scale.cents : null;
      const named = desk.choices.scales.slice().sort((a, b) => Number(b.name === last.scale) - Number(a.name === last.scale));
      const scales = [...(steps === null ? [] : [{ name: OWN, cents: steps }]), ...named];
      const best = nearestScale(scales, [foot_hz, ...pitches(own).slice(1)]);
      if (scale.length !== scales.length) {
        scale.replaceChildren(...scales.map(({ name }) => h('option', { value: name }, name === OWN ? OWN_STEPS : name)));
      }
      scale.value = scales.some(({ name }) => name === draft('scale')) ? draft('scale') : best.name;
      const text = draft('low');
      if (lowest.value.trim() !== text) lowest.value = text;
      const spelt = inLetters(text);
      question.show(spelt.asks);
      const low = text === '' || spelt.asks !== null ? null : workshop.reading({ text: spelt.text, a4_hz: last.a4_hz });
      const bad = low !== null && low.answer === undefined;
      say(wrong, bad ? notANote(text) : '');
      lowest.toggleAttribute('aria-invalid', bad);
      if (bad || spelt.asks !== null) return null;
      const asLast = scale.value === OWN && steps !== null;
      return { proposed: text === '', song: { lowest: { hz: low?.answer?.hz ?? rootOf(foot_hz, cut.size === 0, last.a4_hz) },
        scale: asLast ? { cents: steps } : scale.value, holes: own.holes.length,
        ...(asLast && last.fingerings !== undefined ? { fingerings: last.fingerings } : {}) } };
    },
    /** @param {OwnFlute} own @param {string} name of the lowest note, where it is the proposed one; else '' */
    tell(own, name) {
      if (name !== '') proposed = name;
      say(note, proposedBy(noteName(proposed), own.foot.hz !== undefined, cutHoles(own).some((hole) => hole.hz !== undefined)));
    },
  };
}

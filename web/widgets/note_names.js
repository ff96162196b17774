// web/widgets/note_names.js: in which way notes are said, to be chosen on Song; and the question where a note that
// was typed can mean two. Loaded after the first marks, and with the rooms where notes are typed.

import { h } from './dom.js';
import { list } from './choice.js';
import { MEANS_TWO, NOTE_NAMES, NOT_SAID, QUESTIONS, REMEMBERED, WAYS, answer, choose, inLetters, undecided, useNaming,
  wayNow } from '../text/naming.js';
import { notes } from '../state/readers.js';

useNaming();
const LOWEST = 'song.lowest';

/** Everything that names a note does so anew. @param {Desk} desk */
function renew(desk) {
  desk.edit(({ doc }) => ({ doc: { ...doc, show: doc.show && { ...doc.show } } }),
    desk.store.get().typed[LOWEST]?.problem ? [] : [LOWEST]);
}

/** What has to be said before a note can be read. @param {Desk} desk @param {() => void} done once it has been said */
export function noteQuestion(desk, done) {
  const element = h('div', { class: 'asks', role: 'status' });
  let shown = '';
  return { element,
    /** @param {import('../text/naming.js').Asked | null} asked */
    show(asked) {
      if (shown === (asked ?? '')) return;
      shown = asked ?? '';
      element.replaceChildren(...(asked === null ? [] : [h('p', {}, QUESTIONS[asked].asks),
        h('p', { class: 'buttons' }, ...QUESTIONS[asked].answers.map(([value, words]) =>
          h('button', { type: 'button', class: 'plain', onclick: () => {
            answer(value);
            this.show(null);
            renew(desk);
            done();
          } }, words))),
        h('p', { class: 'note' }, REMEMBERED)]));
    } };
}

/** Under the lowest note on Song: the question, and the way. @param {Desk} desk */
export function noteNames(desk) {
  const { store } = desk;
  const question = noteQuestion(desk, () => {
    const typed = store.get().typed[LOWEST];
    if (typed?.problem) desk.type(LOWEST, typed.text, notes.read);
  });
  const way = list(desk, { label: NOTE_NAMES, options: () => [...(undecided() ? [/** @type {[string, string]} */ (['', NOT_SAID])]
    : []), ...WAYS], now: () => wayNow() || (undecided() ? '' : 'letters'),
  pick: (value) => {
    choose(/** @type {'letters'} */ (value));
    renew(desk);
  } });
  // What was typed before this had come is read again: it may mean two notes.
  const early = store.get().typed[LOWEST];
  const now = early && notes.read(early.text, early.unit);
  if (early && now && ('problem' in now || now.value !== early.value)) desk.type(LOWEST, early.text, notes.read);
  store.subscribe((s) => {
    const typed = s.typed[LOWEST];
    question.show(typed?.problem?.code === MEANS_TWO ? inLetters(typed.text).asks : null);
  });
  return h('div', {}, question.element, way);
}

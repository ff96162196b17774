// web/bench/typed_line.js: a pitch typed from any other meter: hertz, or cents from a note. The
// core reads it; here are the line, and which sentence says what is wrong.

/// <reference path="./types.d.ts" />
import { h } from '../widgets/dom.js';
import { inLetters } from '../text/naming.js';
import { noteQuestion } from '../widgets/note_names.js';
import { entry } from './entry.js';
import { noteOf } from './notes.js';
import { OCTAVE_BELOW, OR_TYPE, OR_TYPE_NOTE, SECOND_REGISTER, TAKE_IT, centsTooMany, example, hzTooHigh, hzTooLow,
  noPitch } from './words.js';

/** What is wrong with a typed pitch. @param {Violation | undefined} violation @param {string} typed */
export function pitchWords(violation, typed) {
  const { code, path, value, limit } = violation ?? { code: '', path: '', value: 0, limit: 0 };
  const plain = typed.trim().slice(0, 40);
  if (path === 'hz' && code === 'too_small') return hzTooLow(Math.round(Number(value)), limit);
  if (path === 'hz' && code === 'too_large') return hzTooHigh(Math.round(Number(value)), limit);
  if (path === 'cents') return centsTooMany(Math.round(Number(value)));
  if (code === 'second_register') return SECOND_REGISTER;
  if (code === 'octave_below') return OCTAVE_BELOW;
  return plain === '' ? example() : noPitch(plain);
}

/** A line for any other meter. @param {Session} session @param {number[]} open
 * @param {number} expected_hz @param {(hz: number) => void} add */
export function typedLine(session, open, expected_hz, add) {
  const { desk, workshop } = session;
  /** @type {ReturnType<typeof noteQuestion> | null} */
  let question = null;
  const line = entry({ label: OR_TYPE, note: OR_TYPE_NOTE,
    text: session.half, words: true, enter: () => take(),
    read: (text) => {
      const note = noteOf(session.bench.get().next, open);
      const spelt = inLetters(text, true);
      question?.show(spelt.asks);
      session.half = spelt.asks === null ? '' : text;
      if (spelt.asks !== null) return { wrong: '' };
      const { answer, violations } = workshop.reading({ text: spelt.text, name: note?.name || undefined,
        note_hz: note?.target_hz, expected_hz: expected_hz || undefined,
        a4_hz: desk.store.get().doc.song.a4_hz });
      return answer === undefined ? { wrong: pitchWords(violations?.[0], text) } : { value: answer.hz };
    },
    aside: (hz) => `${hz.toFixed(1)} Hz` });
  question = noteQuestion(desk, () => line.input.focus());
  function take() {
    const got = line.get();
    if (got === undefined) return;
    line.clear();
    session.typing = true;
    add(got.value);
  }
  /** Ready for the next pitch, where the last one was typed: one touch less. */
  const ready = () => { if (session.typing) line.input.focus({ preventScroll: true }); };
  setTimeout(ready);  // when the panel it belongs to is on the page
  line.input.setAttribute('title', example());
  line.element.classList.add('typed');
  line.element.append(question.element, h('button', { type: 'button', class: 'second add', onclick: take }, TAKE_IT));
  return { ...line, ready };
}

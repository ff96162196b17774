// web/bench/typed_line.js: a pitch typed from any other meter: hertz, or cents from a note. The
// core reads it; here are the line and the sentences.

/// <reference path="./types.d.ts" />
import { h } from '../widgets/dom.js';
import { entry } from './entry.js';
import { noteOf } from './words.js';

const EXAMPLE = 'Write what the meter shows: 587,3 Hz, or cents from the note such as +12, −7 or G4 +12.';

/** What is wrong with a typed pitch. @param {Violation | undefined} violation @param {string} typed */
export function pitchWords(violation, typed) {
  const { code, path, value, limit } = violation ?? { code: '', path: '', value: 0, limit: 0 };
  const plain = typed.trim().slice(0, 40);
  if (path === 'hz' && (code === 'too_small' || code === 'too_large')) {
    return `${Math.round(Number(value))} Hz is no note of such a flute; it takes at ${
      code === 'too_small' ? 'least' : 'most'} ${limit} Hz.`;
  }
  if (path === 'cents') return `${Math.round(Number(value))} cents is more than a meter shows. ${EXAMPLE}`;
  if (code === 'second_register') {
    return 'That is the second register: blow softer, or look at the octave the meter shows.';
  }
  if (code === 'octave_below') {
    return 'That is an octave lower than this fingering gives: look at the octave the meter shows.';
  }
  return plain === '' ? EXAMPLE : `“${plain}” is not a pitch. ${EXAMPLE}`;
}

/** A line for any other meter. @param {Session} session @param {number[]} open
 * @param {number} expected_hz @param {(hz: number) => void} add */
export function typedLine(session, open, expected_hz, add) {
  const { desk, workshop } = session;
  const line = entry({ label: 'Or type it', note: 'from any other meter: 587,3 Hz, or cents such as +12',
    text: '', words: true, enter: () => take(),
    read: (text) => {
      const note = noteOf(session.bench.get().next, open);
      const { answer, violations } = workshop.reading({ text, name: note?.name || undefined,
        note_hz: note?.target_hz, expected_hz: expected_hz || undefined,
        a4_hz: desk.store.get().doc.song.a4_hz });
      return answer === undefined ? { wrong: pitchWords(violations?.[0], text) } : { value: answer.hz };
    },
    aside: (hz) => `${hz.toFixed(1)} Hz` });
  function take() {
    const got = line.get();
    if (got === undefined) return;
    line.clear();
    add(got.value);
  }
  line.input.setAttribute('title', EXAMPLE);
  line.element.classList.add('typed');
  line.element.append(h('button', { type: 'button', class: 'second add', onclick: take }, 'Take it'));
  return line;
}

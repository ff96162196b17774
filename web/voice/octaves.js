// web/voice/octaves.js: how true the overblown octaves are, and how much they count when holes are laid out.

/// <reference path="./types.d.ts" />
import { h, say } from '../widgets/dom.js';
import { radios } from '../widgets/choice.js';
import { logOf, standing } from '../state/build.js';
import { withValue } from '../state/path.js';
import { noteName } from '../text/numbers.js';
import { OCTAVES_COUNT, OCTAVES_HELP, OCTAVES_WEIGHTS, octavesNow } from './words.js';

/** @param {VoiceSession} session */
export function octaves(session) {
  const { desk } = session;
  const words = h('p', { role: 'status' });
  const weightOf = (/** @type {State} */ s) => s.doc.song.octaves_weight ?? 0;
  // A weight typed elsewhere is its nearest here, and stays as it is until another is chosen.
  const nearest = (/** @type {number} */ weight) => OCTAVES_WEIGHTS.reduce((best, [each]) =>
    (Math.abs(each - weight) < Math.abs(best - weight) ? each : best), 0);
  const choice = radios(desk, {
    label: OCTAVES_COUNT,
    options: OCTAVES_WEIGHTS.map(([weight, text]) => [String(weight), text]),
    now: (s) => String(nearest(weightOf(s))),
    pick: (value) => desk.edit((s) => ({ doc: withValue(s.doc, 'song.octaves_weight', Number(value)) }), ['song.octaves_weight']),
  });
  const help = h('p', { class: 'note' }, OCTAVES_HELP);
  const element = h('div', { class: 'octaves' }, words, choice, help);
  session.watch((s, v) => [v.now, v.of, s.doc], (s, v) => {
    const answer = v.of ?? s.answer;
    const all = (v.now?.notes ?? []).filter((note) => note.register === 2).flatMap(({ open, cents_from_octave: cents }) =>
      (typeof cents === 'number' ? [{ cents, name: noteName(answer.notes.find((note) => note.open.join() === open.join())?.name) }] : []));
    const [worst] = all.sort((a, b) => Math.abs(b.cents) - Math.abs(a.cents));
    element.hidden = worst === undefined;
    say(words, worst === undefined ? '' : octavesNow(worst.name, worst.cents));
    // Where every hole is cut nothing is laid out any more.
    choice.hidden = help.hidden = logOf(s.doc).length > 0 && standing(s.doc).holes.size >= answer.finger_holes.length;
  });
  return element;
}

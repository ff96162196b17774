// web/voice/breath/octaves.js: how true the overblown octaves are, and how much they count when holes are laid out.

/// <reference path="../types.d.ts" />
import { h, say } from '../../widgets/dom.js';
import { radios } from '../../widgets/choice.js';
import { logOf, standing } from '../../state/build.js';
import { withValue } from '../../state/path.js';
import { lengthWords } from '../../text/numbers.js';
import { OCTAVES_COUNT, OCTAVES_HELP, OCTAVES_WEIGHTS, octavesClean, octavesHeld, octavesHoles, octavesNow } from './words.js';
import { nameOf } from '../words.js';

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
    const seconds = (v.now?.notes ?? []).filter((note) => note.register === 2)
      .map((second) => ({ name: nameOf(answer, second.open), cents: second.cents_from_octave, second }));
    const there = seconds.flatMap(({ name, cents }) => (typeof cents === 'number' ? [{ name, cents }] : []));
    const [worst] = there.sort((a, b) => Math.abs(b.cents) - Math.abs(a.cents));
    element.hidden = seconds.length === 0;
    const sizes = answer.finger_holes.map((hole) => hole.diameter_mm);
    const [least, most] = [Math.min(...sizes), Math.max(...sizes)].map((mm) => lengthWords(mm, s, desk.engine));
    say(words, [octavesNow(worst, seconds.filter(({ cents }) => typeof cents !== 'number').map(({ name }) => name)),
      octavesClean(seconds),
      sizes.length > 0 && octavesHoles(least, most), octavesHeld(answer.octaves_counted, weightOf(s))].filter(Boolean).join(' '));
    // Where every hole is cut nothing is laid out any more.
    choice.hidden = help.hidden = logOf(s.doc).length > 0 && standing(s.doc).holes.size >= answer.finger_holes.length;
  });
  return element;
}

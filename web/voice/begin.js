// web/voice/begin.js: a sound hole to begin with, for the breath that is wanted; asked for when it is opened.

/// <reference path="./types.d.ts" />
import { h, say } from '../widgets/dom.js';
import { rounded } from '../state/above.js';
import { withValue } from '../state/path.js';
import { BEGIN, BEGIN_ALIKE, BEGIN_LEAD, BEGIN_MORE, TAKE_THESE, WORKING, beginName, beginNeeds, beginTaken, beginWords }
  from './words.js';

/** What is taken into the document, by path. @param {OpeningChoice} choice */
const sizes = ({ sound_hole: hole, track }) => [
  ['sound_hole.length_mm', hole.length_mm], ['sound_hole.width_mm', hole.width_mm],
  ['sound_hole.ramp_mm', hole.ramp_mm],
  ['track.depth_mm', track.depth_mm], ['track.width_mm', track.width_mm], ['track.length_mm', track.length_mm],
].flatMap(([path, mm]) => (typeof mm === 'number' ? [/** @type {[string, number]} */ ([path, rounded(mm)])] : []));

/** @param {VoiceSession} session */
export function begin(session) {
  const { desk, ask, engine } = session;
  const list = h('div', { class: 'begins' });
  const working = h('p', { class: 'note' });
  const said = h('p', { class: 'note', role: 'status' }); // of what was taken: no later answer wipes it
  const heading = h('summary', {}, BEGIN);
  const element = h('details', { class: 'begin', ontoggle: () => look() }, heading, h('p', { class: 'note' }, BEGIN_LEAD),
    working, list, said, h('p', { class: 'note' }, BEGIN_MORE));
  let asked = 0;
  /** What the answer hangs on: the tube and the song, not what it would put in. @param {State} s */
  const question = (s) => JSON.stringify([s.answer.tube, s.answer.song, s.answer.air]);
  let shown = '';

  /** @param {OpeningChoice} choice */
  const take = (choice) => {
    // What was seen of a ramp gives way to the one that is measured now.
    desk.edit((s) => ({ doc: sizes(choice).reduce((doc, [path, mm]) => withValue(doc, path, mm),
      withValue(s.doc, 'sound_hole.ramp', undefined)) }));
    say(said, beginTaken(choice));
    heading.focus();
  };
  /** @param {OpeningAnswer} answer @param {State} s */
  const show = (answer, s) => {
    const [first, ...others] = answer.choices;
    // The same cut for every breath is one proposal.
    const alike = others.length > 0 && others.every((other) => JSON.stringify(sizes(other)) === JSON.stringify(sizes(first)));
    list.replaceChildren(...(alike ? [first] : answer.choices).map((choice) => {
      const name = alike ? BEGIN_ALIKE : beginName(choice);
      return h('div', { class: 'part' }, h('h4', {}, name), h('p', {}, beginWords(choice, s, engine)),
        h('button', { type: 'button', class: 'take', 'aria-label': `${TAKE_THESE}: ${name}`,
          onclick: () => take(choice) }, TAKE_THESE));
    }));
  };

  function look() {
    const s = desk.store.get();
    if (!element.open || s.station !== 'voice' || shown === question(s)) return;
    shown = question(s);
    asked += 1;
    const mine = asked;
    say(working, WORKING);
    void ask.opening(s.answer).then((reply) => {
      if (mine !== asked) return;
      say(working, '');
      if (reply.answer) show(reply.answer, desk.store.get());
      else list.replaceChildren(h('p', {}, beginNeeds((reply.violations ?? []).map(({ path }) => path))));
    });
  }
  session.watch((s) => [s.answer], look);
  return element;
}

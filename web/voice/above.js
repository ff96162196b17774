// web/voice/above.js: what lies above the sound hole: a size for each part, to be taken or changed.

/// <reference path="./types.d.ts" />
import { h, say } from '../widgets/dom.js';
import { rounded } from '../state/above.js';
import { withValue } from '../state/path.js';
import { sizeField } from './size_field.js';
import { isOpen, proposal } from './proposal.js';
import { ABOVE, ABOVE_LEAD, ABOVE_LINES, HOW_TO_MEASURE_THESE, MEASURING, TAKE_ALL, taken } from './words.js';

/** @param {VoiceSession} session */
export function above(session) {
  const { desk, voice } = session;
  const heading = h('h3', { tabindex: -1 }, ABOVE);
  const paths = ABOVE_LINES.map(({ path }) => path);
  /** Proposals for what is not entered: what a maker has entered is theirs. @param {State} s @param {VoiceState} v */
  const open = (s, v) => (v.now?.proposed ?? []).filter((one) => paths.includes(one.path) && isOpen(s, one.path));
  const said = h('p', { class: 'note', role: 'status' });
  const all = h('button', { type: 'button', class: 'take', onclick: () => {
    const some = open(desk.store.get(), voice.get());
    desk.edit((s) => ({ doc: some.reduce((doc, one) => withValue(doc, one.path, rounded(one.mm)), s.doc) }));
    say(said, taken(some.length));
    heading.focus();
  } }, TAKE_ALL);
  session.watch((s, v) => [v.now, s.doc, s.typed], (s, v) => {
    all.hidden = open(s, v).length === 0;
    if (!all.hidden) say(said, '');
  });
  return h('section', { 'aria-label': ABOVE }, heading, h('p', { class: 'note' }, ABOVE_LEAD), all, said,
    ...ABOVE_LINES.map(({ path, ...how }) => h('div', { class: 'part' },
      sizeField(desk, path, how).element, proposal(session, path))),
    h('details', {}, h('summary', {}, HOW_TO_MEASURE_THESE),
      h('dl', {}, ...MEASURING.flatMap(([what, how]) => [h('dt', {}, what), h('dd', {}, how)]))));
}

// web/voice/proposal.js: a size that the core proposes, beside its field: the rule, and one tap to take it.

/// <reference path="./types.d.ts" />
import { h, say } from '../widgets/dom.js';
import { rounded } from '../state/above.js';
import { valueAt } from '../state/path.js';
import { TAKE_IT, partName, proposalWords, takeName } from './words.js';

/** Whether nothing is entered there yet. @param {State} s @param {string} path */
export const isOpen = (s, path) => valueAt(s.doc, path) === undefined && (s.typed[path]?.text ?? '').trim() === '';

/** @param {VoiceSession} session @param {string} path */
export function proposal(session, path) {
  const { desk, voice, engine } = session;
  /** The core proposes what is not entered; what was taken keeps its rule beside it. @type {Proposal | undefined} */
  let last;
  const words = h('span');
  const take = h('button', { type: 'button', class: 'take', 'aria-label': takeName(partName(path)), onclick: () => {
    const one = proposalOf(voice.get(), path);
    if (one === undefined) return;
    desk.set(path, rounded(one.mm));
    desk.placeOf(path)?.focus();  // the button goes
  } }, TAKE_IT);
  const element = h('div', { class: 'proposal', hidden: true }, words, take);
  session.watch((s, v) => [v.now, s.doc, s.typed], (s, v) => {
    last = proposalOf(v, path) ?? last;
    const open = isOpen(s, path);
    const same = last !== undefined && valueAt(s.doc, path) === rounded(last.mm);
    element.hidden = last === undefined || (!same && (!open || proposalOf(v, path) === undefined));
    if (last === undefined || element.hidden) return;
    say(words, proposalWords(last, same, s, engine));
    take.hidden = same;
  });
  return element;
}

/** @param {VoiceState} v @param {string} path */
export const proposalOf = (v, path) => v.now?.proposed.find((one) => one.path === path);

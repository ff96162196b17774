// web/shelf/opened.js: a link in the page's address: its flute is shown beside the maker's own work,
// never in its place.

import { hand } from '../state/keep.js';
import { isExample, keep, known, work } from '../state/keeper.js';
import { withoutPlan } from '../state/plan.js';
import { h, say } from '../widgets/dom.js';
import { goTo } from '../widgets/reveal.js';
import { sentence } from '../text/violations.js';
import { button, notice, settle } from './notices.js';
import { downloadFlute } from './files.js';
import { clearLink, show, take } from './take.js';
import { ALREADY_IN_HAND, BACK_TO_EXAMPLE, BACK_TO_MINE, CLOSE, DOWNLOAD_MINE, FROM_LINK, HAND_NOT_KEPT,
  KEPT_WHEN_CHANGED, LINK_AS_IT_CAME, LINK_NOT_OPENED, LINK_WAITS, OWN_ON_SHELF, OWN_WITH_CHANGES, TRY_AGAIN,
  TRY_TEXT, UNTOUCHED, linkSentence, nameOf, notLaidOut } from './words.js';

const MOST_UNITS = 12288;  // what the core takes at most, before it looks

/** @param {Desk} desk */
export async function opened(desk) {
  // Not location.hash: one browser decodes that.
  const text = location.href.slice(location.href.indexOf('#') + 1);
  if (text === '' || document.getElementById(text) !== null) return;
  await open(desk, text);
}

/** Shows the flute of a link, or says why not. @param {Desk} desk @param {string} text */
export async function open(desk, text) {
  settle('link');
  const reply = text.length > MOST_UNITS ? { violations: [{ code: 'link_too_long', path: 'link' }] }
    : await desk.engine.workshop().then((w) => w.unlink(text),
      (error) => ({ violations: undefined, answer: undefined, fault: String(error) }));
  if (!reply.answer) return void notClean(desk, text, linkSentence(reply));
  const { doc, marks } = withoutPlan(reply.answer);
  const now = desk.store.get();
  /** @type {Aside} */
  const aside = JSON.stringify(doc) === now.example ? {} : { begun: 'link' };
  const linked = { doc, good: doc, typed: {}, aside, marks };
  if (JSON.stringify(now.doc) === JSON.stringify(linked.doc)) return void already();
  const solved = await desk.engine.solve(linked.doc);
  if (!solved.layout.answer) {
    const wrong = solved.layout.violations?.[0];
    return void notClean(desk, text, wrong === undefined ? linkSentence(solved.layout)
      : notLaidOut(sentence(wrong, now, desk.engine)));
  }
  if (keep(now) === 'lost') return void notKept(desk, text);
  const own = isExample(now) ? '' : hand.id;
  const earlier = known.loose !== '' && work(now) === known.loose;
  if (!earlier) back = own;
  if (await show(desk, linked) === 'lost') return void notKept(desk, text);
  beside(desk, linked.doc);
  goTo(desk, 'marks');
  scrollTo(0, 0);
}

/** Where 'back to mine' leads, over several links; '': to the example. */
let back = '';

/** @param {Desk} desk @param {Doc} doc */
function beside(desk, doc) {
  const words = h('span', {});
  const stop = desk.store.subscribe(() => {
    say(words, hand.id === '' ? KEPT_WHEN_CHANGED : OWN_WITH_CHANGES);
  });
  const own = back;
  void notice('link', false, h('p', {}, h('strong', {}, FROM_LINK),
    h('bdi', {}, nameOf(doc)), '. ', own === '' ? '' : OWN_ON_SHELF, words),
  button(own === '' ? BACK_TO_EXAMPLE : BACK_TO_MINE, async () => {
    const example = JSON.parse(desk.store.get().example);
    const came = own === '' ? await show(desk, { doc: example, good: example, typed: {}, aside: {} })
      : await take(desk, own);
    if (came === 'lost') return;
    clearLink();
    if (own === '') known.loose = '';
    stop();
    settle('link');
  }),
  button(CLOSE, () => {
    stop();
    settle('link');
  }));
}

/** @param {Desk} desk @param {string} text @param {string} why */
function notClean(desk, text, why) {
  scrollTo(0, 0);
  const box = h('input', { type: 'text', class: 'words', 'aria-label': LINK_AS_IT_CAME,
    autocomplete: 'off', spellcheck: 'false', autocapitalize: 'off' });
  box.value = text;
  return notice('link', true, h('p', {}, h('strong', {}, LINK_NOT_OPENED), why,
    UNTOUCHED), box,
  button(TRY_TEXT, () => void open(desk, box.value.trim())),
  button(CLOSE, () => settle('link')));
}

/** @param {Desk} desk @param {string} text */
function notKept(desk, text) {
  return notice('link', true, h('p', {}, h('strong', {}, LINK_WAITS), HAND_NOT_KEPT),
    button(DOWNLOAD_MINE, () => downloadFlute(desk.store.get())),
    button(TRY_AGAIN, () => void open(desk, text)),
    button(CLOSE, () => settle('link')));
}

const already = () => notice('link', false, h('p', {}, ALREADY_IN_HAND),
  button(CLOSE, () => settle('link')));

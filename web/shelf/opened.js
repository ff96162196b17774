// web/shelf/opened.js: a link in the page's address: its flute is shown beside the maker's own work,
// never in its place.

import { hand } from '../state/keep.js';
import { isExample, keep, known, work } from '../state/keeper.js';
import { withoutPlan } from '../state/plan.js';
import { h } from '../widgets/dom.js';
import { goTo } from '../widgets/reveal.js';
import { sentence } from '../text/violations.js';
import { button, notice, settle } from './notices.js';
import { downloadFlute } from './files.js';
import { clearLink, show, take } from './take.js';
import { linkSentence, nameOf } from './words.js';

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
  const linked = { doc, good: doc, typed: {}, aside: {}, marks };
  const now = desk.store.get();
  if (JSON.stringify(now.doc) === JSON.stringify(linked.doc)) return void already();
  const solved = await desk.engine.solve(linked.doc);
  if (!solved.layout.answer) {
    const wrong = solved.layout.violations?.[0];
    return void notClean(desk, text, wrong === undefined ? linkSentence(solved.layout)
      : `The link is whole, but its flute cannot be laid out. ${sentence(wrong, now, desk.engine)}`);
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
    words.textContent = hand.id === '' ? 'This one is kept as soon as you change it.'
      : 'With your changes it is a flute of its own on your shelf.';
  });
  const own = back;
  void notice('link', false, h('p', {}, h('strong', {}, 'Opened from a link: '),
    h('bdi', {}, nameOf(doc)), '. ', own === '' ? '' : 'Your own is on the shelf. ', words),
  button(own === '' ? 'Back to the example' : 'Back to mine', async () => {
    const example = JSON.parse(desk.store.get().example);
    const came = own === '' ? await show(desk, { doc: example, good: example, typed: {}, aside: {} })
      : await take(desk, own);
    if (came === 'lost') return;
    clearLink();
    if (own === '') known.loose = '';
    stop();
    settle('link');
  }),
  button('Close', () => {
    stop();
    settle('link');
  }));
}

/** @param {Desk} desk @param {string} text @param {string} why */
function notClean(desk, text, why) {
  scrollTo(0, 0);
  const box = h('input', { type: 'text', class: 'words', 'aria-label': 'The link as it came',
    autocomplete: 'off', spellcheck: 'false', autocapitalize: 'off' });
  box.value = text;
  return notice('link', true, h('p', {}, h('strong', {}, 'The link was not opened. '), why,
    ' What you have here is untouched.'), box,
  button('Try this text', () => void open(desk, box.value.trim())),
  button('Close', () => settle('link')));
}

/** @param {Desk} desk @param {string} text */
function notKept(desk, text) {
  return notice('link', true, h('p', {}, h('strong', {}, 'The link is not opened yet. '),
    'This browser cannot keep the flute that you have in hand, so it stays. Save it as a file first.'),
  button('Download mine', () => downloadFlute(desk.store.get())),
  button('Try again', () => void open(desk, text)),
  button('Close', () => settle('link')));
}

const already = () => notice('link', false, h('p', {}, 'The flute of this link is the one in hand.'),
  button('Close', () => settle('link')));

// web/guide/guide.js: a tube measured in the order of the hand, one thing at a time: from nothing to marks in
// eight entries at most. What is entered goes where the whole form's entries go; that form is never far.

import { h, say } from '../widgets/dom.js';
import { goTo } from '../widgets/reveal.js';
import { isBlank } from '../state/desk.js';
import { startFresh } from '../state/fresh.js';
import { STEPS, lacks, proposeUnit } from './steps.js';
import { BACK, LOOK_AGAIN, NEEDED, NEXT, SHOW_MARKS, SKIP, STILL_NEEDED, WHOLE_FORM, heard, progress } from './words.js';

const WAIT_MS = 250;  // for what the core says of a figure, before the next is asked for

/** Its own sheet, once. @returns {Promise<void>} */
function style() {
  return new Promise((loaded) => {
    // canewright.html has every sheet in itself already.
    if (getComputedStyle(document.documentElement).getPropertyValue('--guide') !== '') return loaded();
    document.head.append(h('link', { rel: 'stylesheet', href: 'style-guide.css',
      onload: () => loaded(), onerror: () => loaded() }));
  });
}

/** What is wrong with what a step enters, but for what is not entered yet. @param {Desk} desk
 * @param {import('./steps.js').Step} step */
const wrong = (desk, { paths }) => desk.troubles(desk.store.get()).some(({ violation: { code, path } }) =>
  code !== 'missing' && code !== 'needs' && paths.some((own) => path === own || path.startsWith(`${own}.`)));

/** @param {Desk} desk */
export async function openGuide(desk) {
  if (document.querySelector('dialog.guide') !== null) return;
  await style();
  const { store } = desk;
  if (!isBlank(store.get()) && !startFresh(desk)) return goTo(desk, 'cane');
  const asked = store.get().doc.show !== undefined;
  proposeUnit(desk, navigator.language);
  goTo(desk, 'cane');  // what is there when this is closed, or the page is opened again

  let at = 0;
  let done = false;
  /** @type {import('./steps.js').Screen | null} */
  let screen = null;
  const count = h('p', { class: 'guide-count', 'aria-hidden': 'true' });
  const title = h('h2', { id: 'guide-title' });
  const how = h('p', { class: 'lead' });
  const picture = h('div', { class: 'guide-drawn' });
  const place = h('div', { class: 'guide-entry' });
  const says = h('p', { class: 'wrong', role: 'alert', 'aria-live': 'polite' });
  const skipped = h('p', { class: 'note', id: 'guide-skip' });
  const live = h('p', { class: 'unseen', role: 'status' });
  const back = h('button', { type: 'button', class: 'plain', onclick: () => show(at - 1) }, BACK);
  const skip = h('button', { type: 'button', class: 'plain', 'aria-describedby': 'guide-skip', onclick: () => {
    STEPS[at].usual(desk);
    onwards();
  } }, SKIP);
  const next = h('button', { type: 'button', class: 'take',
    // The entry keeps the focus until the next one has it, so that a phone's keypad stays.
    onpointerdown: (/** @type {Event} */ event) => event.preventDefault(), onclick: () => void go() });
  const dialog = h('dialog', { class: 'guide', 'aria-labelledby': 'guide-title', onclose: end,
    onkeydown: (/** @type {KeyboardEvent} */ event) => {
      if (event.key !== 'Enter' || !(event.target instanceof HTMLInputElement)) return;
      event.preventDefault();
      void go();
    } },
  h('div', { class: 'guide-head' }, count, h('button', { type: 'button', class: 'plain',
    onclick: () => dialog.close() }, WHOLE_FORM)),
  title, picture, how, place, says, h('div', { class: 'guide-acts' }, next, skip, back), skipped, live);

  /** What the core was asked last, and its complaints then: others have come when it has answered. */
  let [doc, before] = [store.get().doc, /** @type {unknown} */ (null)];
  const stop = store.subscribe((s) => {
    if (s.doc !== doc) [doc, before] = [s.doc, s.problems];
    say(how, STEPS[at].how(s));
  });
  const answered = () => before !== store.get().problems;
  /** @returns {Promise<void>} */
  const heardOf = () => new Promise((on) => {
    if (answered()) return on();
    const timer = setTimeout(finish, WAIT_MS);
    const unsubscribe = store.subscribe(() => { if (answered()) setTimeout(finish); });
    function finish() {
      clearTimeout(timer);
      unsubscribe();
      on();
    }
  });

  let going = false;
  async function go() {
    if (going) return;
    going = true;
    const here = at;
    await heardOf();
    going = false;
    if (here !== at || !dialog.open) return;
    const lacking = lacks(STEPS[at], store.get());
    const faulty = wrong(desk, STEPS[at]);
    say(says, lacking && !faulty ? NEEDED : '');
    if (lacking || faulty) screen?.focus();
    else onwards();
  }

  function onwards() {
    if (at < STEPS.length - 1) return show(at + 1);
    const left = STEPS.findIndex((step) => lacks(step, store.get()) || wrong(desk, step));
    if (left >= 0) return show(left, lacks(STEPS[left], store.get()) ? STILL_NEEDED : LOOK_AGAIN);
    done = true;
    dialog.close();
  }

  /** @param {number} to @param {string} [words] */
  function show(to, words = '') {
    const old = screen;
    at = to;
    const { words: { title: name, skip: usual }, ...step } = STEPS[at];
    const s = store.get();
    const number = progress(at + 1, STEPS.length);
    say(count, number);
    say(title, name);
    say(how, step.how(s));
    say(says, words);
    say(skipped, usual);
    say(live, heard(number, name, step.how(s)));
    say(next, at === STEPS.length - 1 ? SHOW_MARKS : NEXT);
    back.hidden = at === 0;
    picture.replaceChildren(step.picture(s));
    screen = step.screen(desk, () => show(at));
    const gone = [...place.childNodes];
    place.append(...screen.nodes);
    screen.focus();  // before the old one goes: a phone's keypad stays
    for (const node of gone) node.remove();
    old?.remove();
  }

  function end() {
    stop();
    screen?.remove();
    dialog.remove();
    goTo(desk, done ? 'marks' : 'cane');
    if (!done) return desk.placeOf(STEPS[at].paths.find((path) => desk.placeOf(path) !== null) ?? '')?.focus();
    const heading = document.getElementById('title-marks');
    heading?.setAttribute('tabindex', '-1');
    heading?.focus();
  }

  const left = STEPS.findIndex((step) => lacks(step, store.get()) || wrong(desk, step));
  document.body.append(dialog);
  dialog.showModal();
  show(asked && left >= 0 ? left : 0);
}

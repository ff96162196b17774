// web/bench/card.js: the one thing to do now.

/// <reference path="./types.d.ts" />
import { h, say, waited } from '../widgets/dom.js';
import { goTo, reveal } from '../widgets/reveal.js';
import { planned } from '../state/plan.js';
import { sentence } from '../text/violations.js';
import { donePanel, waitPanel } from './rest_panels.js';
import { earPanel } from './ear_panel.js';
import { logOf } from './log.js';
import { measurePanel } from './measure_panel.js';
import { readPanel } from './read_panel.js';
import { rescuePanel } from './rescue_panel.js';
import { namesNow } from './notes.js';
import { prospect } from './prospect.js';
import { logSentence } from './tell_log.js';
import { amount, blowing, expectation, planDoubt, textOf, title } from './tell_step.js';
import { AS_YOU_ASKED, BACK_TO_STEP, CUT_NOTHING_YET, LAST_GOOD_STEP, ITS_MEASURES, MAKE_VOICE, MAKE_VOICE_HOW, NO_NOTE_COMES, NOW, NO_STEP_YET, RECKON_AGAIN, SEE_MARKS, STOP,
  STOPPED, TROUBLE, VOICE, WHY, entryWrong, failed } from './words.js';

const LONG_MS = 400;

/** @param {Session} session @param {NextStep} next @returns {Panel} */
function panelOf(session, next) {
  const { step } = next;
  if (step.until) return earPanel(session, next);
  switch (step.do) {
    case 'read': return readPanel(session, step.open ?? []);
    case 'rescue': return rescuePanel(session, next, step.options ?? next.remedies);
    case 'wait': return waitPanel(session, next);
    case 'done': return donePanel(session, next);
    default: return measurePanel(session, next);
  }
}

/** Whether the voice is still to be made: nothing was heard, and not all of its list is so.
 * @param {Session} session @param {NextStep} next */
const toMake = (session, next) => next.step.do === 'read'
  && !logOf(session.desk.store.get().doc).some((e) => e.read !== undefined)
  && (session.aside().checked ?? []).length < VOICE.length;

/** @param {Session} session */
export function card(session) {
  const { desk, bench } = session;
  const element = h('section', { class: 'card', 'aria-label': NOW });
  const announce = h('p', { class: 'unseen', role: 'status' });
  /** @type {Panel | null} */
  let panel = null;
  let shown = '';

  /** @param {string} words @param {string} place of the station, or '' */
  const onVoice = (words, place) => h('button', { type: 'button', class: 'inline', onclick: () => goTo(desk, 'voice', place) }, words);

  /** @param {NextStep} next */
  function show(next) {
    const s = desk.store.get();
    const { reading } = bench.get();
    const focused = element.contains(document.activeElement);
    panel?.remove();
    session.listener.stop();  // a new step is begun with a tap, too
    panel = reading === null ? panelOf(session, next) : readPanel(session, reading);
    const making = reading === null && toMake(session, next);
    const { before, figure, after } = making ? { before: MAKE_VOICE, figure: '', after: '' }
      : reading === null ? title(next, s, desk.engine) : blowing(next, reading);
    const cutting = reading === null && ['foot', 'hole'].includes(next.step.do) && !next.step.until;
    const heading = h('h3', { tabindex: -1, class: 'do' }, `${before} `,
      h('span', { class: cutting ? 'figure-now cutting' : 'figure-now' }, figure), ' ',
      h('span', { class: cutting ? 'figure-size' : '' }, after));
    const why = making ? MAKE_VOICE_HOW : reading === null ? textOf(WHY, next.why) : AS_YOU_ASKED;
    const from = reading === null ? amount(next, s, desk.engine) : '';
    const doubt = reading === null ? planDoubt(next) : '';
    element.replaceChildren(heading, ...(from === '' ? [] : [h('p', { class: 'from' }, from)]),
      h('p', { class: 'why' }, why),
      ...(reading === null && !making && expectation(next) !== '' ? [h('p', { class: 'expect' }, expectation(next))] : []),
      ...(doubt === '' ? [] : [h('div', { class: 'trouble doubt' }, h('p', {}, h('strong', {}, doubt)),
        h('p', {}, `${CUT_NOTHING_YET} `, h('button', { type: 'button', class: 'inline', onclick: () => goTo(desk, 'marks') }, SEE_MARKS)))]),
      ...(making ? [h('p', {}, onVoice(ITS_MEASURES, ''))] : []),
      panel.element, ...(making || reading !== null || next.step.do === 'read' ? [h('p', { class: 'note' }, onVoice(NO_NOTE_COMES, 'faults'))] : []),
      ...(reading === null ? [prospect(session, next)] : []),
      ...(reading === null ? [] : [h('button', { type: 'button', class: 'plain',
        onclick: () => session.read(null) }, BACK_TO_STEP)]));
    if (focused) heading.focus();
    say(announce, `${before} ${figure} ${after}`);
  }

  function render() {
    const b = bench.get();
    const s = desk.store.get();
    // What is logged is done: until the next step is there, nothing of this one can be tapped again.
    const busy = b.working && b.of !== null && logOf(b.of).length !== logOf(s.doc).length;
    element.setAttribute('aria-busy', String(busy));
    if (b.next === null) return;
    const next = planned(b.next, s.plan);
    // A step stands for its log: what was heard for one is nothing for the next.
    const now = JSON.stringify([next.step, next.why, next.prospect, planDoubt(next), toMake(session, next), next.expect_cents, b.reading,
      logOf(b.of ?? s.doc).length, s.doc.show, s.doc.shop?.bits, namesNow()]);
    if (now === shown) return;
    shown = now;
    show(next);
  }
  bench.subscribe(render);
  desk.store.subscribe((s) => { if (s.station === 'bench') render(); });
  return h('div', {}, waiting(session), element, remedies(session), announce);
}

/** What keeps the next step from being known, and that it is being reckoned.
 * @param {Session} session */
function waiting(session) {
  const { desk, bench } = session;
  const words = h('span', { role: 'status' });
  const line = h('p', { class: 'working', hidden: true }, words, ' ', h('button', { type: 'button',
    class: 'inline', onclick: () => session.stop() }, STOP));
  /** @param {boolean} working */
  const wait = (working) => {
    line.hidden = !working;
    waited(words, working);
  };
  const again = () => h('button', { type: 'button', class: 'inline',
    onclick: () => desk.edit((s) => ({ doc: { ...s.doc } })) }, RECKON_AGAIN);
  const trouble = h('div', { class: 'trouble', role: 'status' });
  let timer = 0;
  bench.subscribe((b) => {
    clearTimeout(timer);
    if (!b.working) wait(false);
    else timer = window.setTimeout(() => wait(true), LONG_MS);
    trouble.hidden = b.problems.length === 0 && b.fault === '' && !b.stopped;
    const s = desk.store.get();
    trouble.replaceChildren(
      h('p', {}, h('strong', {}, `${b.next === null ? NO_STEP_YET : LAST_GOOD_STEP} `)),
      ...b.problems.map((v) => {
        const place = desk.placeOf(v.path);
        const words = v.path.startsWith('log') ? entryWrong(Number(/\d+/.exec(v.path)?.[0] ?? 0) + 1,
          logSentence(v, s.doc, s, desk.engine)) : sentence(v, s, desk.engine);
        return h('p', {}, ...(place === null ? [] : [h('button', { type: 'button', class: 'inline',
          onclick: () => reveal(desk, place) }, place.label), ': ']), words);
      }),
      ...(b.stopped ? [h('p', {}, `${STOPPED} `, again())] : []),
      ...(b.fault === '' ? [] : [h('p', {}, `${failed(b.fault)} `, again())]));
  });
  return h('div', {}, line, trouble);
}

/** What the readings say is wrong beside the step. @param {Session} session */
function remedies(session) {
  const { bench } = session;
  const element = h('details', { class: 'amiss' });
  /** @type {Panel | null} */
  let panel = null;
  let shown = '';
  const render = () => {
    const { next } = bench.get();
    const hushed = session.hushed();
    const text = JSON.stringify([next?.trouble, next?.remedies, next?.step.do, hushed, namesNow()]);
    if (text === shown) return;
    shown = text;
    panel?.remove();
    panel = null;
    element.hidden = next === null || next.step.do === 'rescue' || next.trouble === 'none' || next.trouble === ''
      || next.remedies.some((r) => hushed.includes(r.what));
    if (next === null || element.hidden) return void element.replaceChildren();
    panel = rescuePanel(session, next, next.remedies);
    element.replaceChildren(h('summary', {}, textOf(TROUBLE, next.trouble)), panel.element);
  };
  bench.subscribe(render);
  session.desk.store.subscribe((s) => { if (s.station === 'bench') render(); });
  return element;
}

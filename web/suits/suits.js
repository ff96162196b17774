// web/suits/suits.js: what this tube can be, on Cane and on Song; and on Song and Marks, where limits cost notes
// their pitch, what would put them right. Loaded at rest; reckoned when it is opened, or needed.

/// <reference path="./types.d.ts" />
import { h, say } from '../widgets/dom.js';
import { isBlank, isUnmet } from '../state/desk.js';
import { later } from '../widgets/later.js';
import { askOnce } from './asking.js';
import { drills } from './drills.js';
import { materials } from './materials.js';
import { handsFor } from '../state/hands.js';
import { withValue } from '../state/path.js';
import { BEGUN, FAILED, LEAD, MEASURE_HAND, NEARER, NOTHING, SO_FAR, TAKE_IT, TRYING, WHAT_IT_CAN_BE, WOULD_DO, choiceWords, insteadWords, mendedLimit,
  lookForWords, mendGain, mendName, taken, triedWords, verdictWords, wishName } from './words.js';
import { noteName } from '../text/numbers.js';

const SHOWN = 5;
const REST_MS = 400; // of nothing typed, before what is needed without a tap is reckoned

/** The room's own sheet, once; what it styles waits for nothing. */
function style() {
  // canewright.html has every sheet in itself already.
  if (getComputedStyle(document.documentElement).getPropertyValue('--suits') !== '') return;
  document.head.append(h('link', { rel: 'stylesheet', href: 'style-suits.css' }));
}

/** One part after the other: a page that has just come has to answer between them. @param {Desk} desk */
export async function suits(desk) {
  style();
  const parts = [
    ...['cane', 'song'].map((key) => () => document.getElementById(`station-${key}`)?.append(choices(desk))),
    // Below the fields whose limits they fill in.
    () => desk.placeOf('shop.spacing_mm.max')?.element.after(later('hands', MEASURE_HAND,
      async () => (await import('./hands.js')).hands(desk))),
    () => desk.placeOf('shop.diameter_mm.min')?.element.before(drills(desk)),
    () => document.querySelector('#station-cane .afresh')?.before(materials(desk)),
    ...[...document.querySelectorAll('.cannot')].map((place) => () => place.after(mends(desk))),
  ];
  for (const part of parts) {
    part();
    await new Promise((rested) => { setTimeout(rested); });
  }
}

/** The tube and the shop, without what is wished and who covers what of it. @param {State} s */
const tubeOf = ({ doc }) => JSON.stringify([doc.tube, doc.sound_hole, doc.plug, doc.block, doc.air, { ...doc.shop, hands: null }, doc.log]);
/** What hangs on nothing but these and the wish. @param {State} s */
const asked = (s) => JSON.stringify([tubeOf(s), s.doc.shop?.hands, s.doc.song, noteName('B4')]);  // the last: in which way notes are said

/** @param {Desk} desk */
function choices(desk) {
  const { store, engine } = desk;
  const list = h('div', { class: 'suits-list' });
  const first = h('p', { role: 'status' });
  // Beside what is announced: its count would be, at every part.
  const bar = h('progress', { hidden: true, 'aria-label': TRYING });
  const count = h('p', { class: 'note', hidden: true });
  const look = h('p', { class: 'note' });
  const said = h('p', { class: 'note', role: 'status' });
  const summary = h('summary', {}, WHAT_IT_CAN_BE);
  const element = h('details', { class: 'suits', ontoggle: () => void show() }, summary,
    h('p', { class: 'note' }, LEAD), first, bar, count, said, list, look);
  let of = '';
  let listed = '';  // the tube whose choices stand there

  /** @param {{lowest: string, scale: Doc['song']['scale'], holes: number}} choice */
  function take(choice) {
    desk.edit((s) => {
      let doc = withValue(withValue(withValue(s.doc, 'song.lowest', choice.lowest), 'song.scale', choice.scale),
        'song.fingerings', undefined);
      if (doc.song.holes !== choice.holes) {
        doc = withValue(withValue(doc, 'song.holes', choice.holes), 'shop.hands', handsFor(choice.holes, doc.shop?.hands));
      }
      return { doc };
    }, ['song.lowest']);
    say(said, taken(wishName(choice)));
    summary.focus();
  }

  /** @param {Parameters<typeof take>[0]} choice @param {string} words */
  const suit = (choice, words) => h('div', { class: 'suit' }, h('h4', {}, wishName(choice)), h('p', {}, words),
    h('button', { type: 'button', class: 'take', 'aria-label': `${TAKE_IT}: ${wishName(choice)}`, onclick: () => take(choice) }, TAKE_IT));

  async function show() {
    const s = store.get();
    if (!element.open || isBlank(s) || of === asked(s)) return;
    const mine = asked(s);
    of = mine;
    // Those of another tube nobody should tap; of another wish they are the same.
    const anew = listed !== tubeOf(s);
    listed = tubeOf(s);
    if (anew) list.replaceChildren();
    say(look, '');
    if (s.doc.log?.some((entry) => entry.hole !== undefined)) return say(first, BEGUN);
    say(first, TRYING);
    const workshop = await engine.workshop().catch(() => null);
    // The whole takes a second on a phone: the best so far stands there meanwhile.
    const reply = workshop === null ? null : await askOnce(workshop, mine, s.doc, ({ done, of: all, best }) => {
      if (of !== mine) return;
      Object.assign(bar, { max: all, value: done });
      say(count, triedWords(done, all));
      bar.hidden = count.hidden = false;
      if (best !== null && anew) list.replaceChildren(h('p', { class: 'note' }, SO_FAR), suit(best, choiceWords(best, store.get(), engine)));
    }).catch(() => null);
    if (of !== mine) return;
    bar.hidden = count.hidden = true;
    const answer = reply?.answer;
    if (!answer) {
      of = listed = '';
      // Overtaken by a change of the tube, which is asked about in a moment.
      if (asked(store.get()) === mine) say(first, FAILED);
      return;
    }
    const now = store.get();
    say(first, verdictWords(answer));
    const { instead } = answer;
    const few = instead?.fewer_holes ?? null;
    list.replaceChildren(...answer.choices.slice(0, SHOWN).map((choice) => suit(choice, choiceWords(choice, now, engine))),
      ...(instead === null ? [] : [few === null ? h('p', {}, insteadWords(instead)) : suit(few, insteadWords(instead))]));
    say(look, answer.look_for === null ? '' : lookForWords(answer.look_for, now, engine));
  }
  let timer = 0;
  store.subscribe(() => {
    if (!element.open) return;
    clearTimeout(timer);
    timer = window.setTimeout(() => void show(), REST_MS);
  });
  return element;
}

/** @param {Desk} desk */
function mends(desk) {
  const { store, engine } = desk;
  /** Whether notes are off for a limit's sake. @param {State} s */
  const isBound = (s) => !isBlank(s) && !s.doc.log?.length && (isUnmet(s) || (s.answer.binding.length > 0
    && Number(s.answer.worst_cents) > Number(desk.value(s, 'song.tolerance_cents'))));
  const list = h('p', { class: 'mends-list' });
  const said = h('p', { class: 'note', role: 'status' });
  const element = h('div', { class: 'mends', hidden: true }, h('h3', {}, WOULD_DO), list);
  const whole = h('div', { class: 'would' }, element, said);
  let of = '';
  let timer = 0;
  /** @type {Promise<unknown> | null} */
  let running = null;

  /** @param {Doc} doc @param {{path: string, value: any}} one */
  const put = (doc, { path, value }) => withValue(doc, path, value);
  /** @param {string} name @param {(doc: Doc) => Doc} change @param {string} [gain]
   * @param {string} [limit] that it mends */
  const button = (name, change, gain = '', limit = '') => h('span', { class: 'mend' }, limit && h('span', { class: 'note' }, `${limit} `),
    h('button', { type: 'button', class: 'inline',
    onclick: () => {
      desk.edit((s) => ({ doc: change(s.doc) }));
      say(said, taken(name));
    } }, name), gain === '' ? '' : `: ${gain}`);

  async function reckon() {
    const s = store.get();
    if (!isBound(s)) return;
    const mine = asked(s);
    of = mine;
    const workshop = await engine.workshop();
    if (running !== null) workshop.stop('mends');  // of what is no longer wished
    const run = running = workshop.mends(s.doc);
    const { answer } = await run.finally(() => { if (running === run) running = null; });
    if (of !== mine || !answer) return;
    const reached = answer.mends.some((mend) => mend.in_tune);
    const near = reached ? null : (await askOnce(workshop, mine, s.doc))?.answer?.wish;
    if (of !== mine) return;
    const notes = (near?.nearest ?? []).map(({ lowest }) => button(noteName(lowest), (doc) => withValue(doc, 'song.lowest', lowest)));
    list.replaceChildren(...answer.mends.map((mend) => button(mendName(mend, s, engine),
      (doc) => mend.set.reduce(put, doc), mendGain(mend), mendedLimit(mend, s, engine))),
    ...(notes.length > 0 ? [`${NEARER} `, ...notes] : []),
    ...(answer.mends.length + notes.length === 0 ? [NOTHING] : []));
    element.hidden = false;
  }
  store.subscribe((s) => {
    if (asked(s) === of && isBound(s)) return;
    of = '';
    element.hidden = true;
    clearTimeout(timer);
    if (isBound(s)) timer = window.setTimeout(() => void reckon().catch(() => {}), REST_MS);
  });
  return whole;
}

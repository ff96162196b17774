// web/marks/makings.js: what makes the bands of the notes, and the same flute built thousands of times
// by chance. Loaded when it is opened.

import { h, say } from '../widgets/dom.js';
import { onChange } from '../state/store.js';
import { strays, trialOf } from '../state/sure.js';
import { BUILDS, startTrial, stopTrial } from '../state/trial.js';
import { band, causeName, noteOrFingering } from '../text/sure.js';
import { parts, thousands, trialSentence } from '../text/trial.js';
import { centsWords } from '../text/numbers.js';
import { ALL_WITHIN, BEGINNING, BUILT, IN_CENTS, LARGEST, MEANS, NOTE, RECKONED, STOP, TRY_AGAIN, flutes,
  tryOn, within } from './words.js';

const CAUSES_SHOWN = 6;

/** @param {Desk} desk */
export function makings(desk) {
  const element = h('div');
  /** @type {Spread | null} */
  let shown = null;
  desk.store.subscribe(({ sure }) => {
    if (sure === shown) return;
    shown = sure;
    element.replaceChildren(...(sure === null ? [] : told(sure)));
  });
  return element;
}

/** The shop's part and the model's, told apart. @param {Spread} is @returns {Node[]} */
function told(is) {
  const spoken = is.notes.filter((note) => note.sigma_cents !== null);
  const { 5: near, 20: far } = is.within;
  return [
    h('p', { class: 'note' }, MEANS),
    h('dl', { class: 'bands' }, ...[...spoken].reverse().flatMap((note) => [
      h('dt', {}, `${noteOrFingering(note.name, note.open)} ${band(note.sigma_cents)}`),
      h('dd', {}, parts(note))])),
    h('h4', {}, LARGEST),
    h('ol', { class: 'causes' }, ...is.ranked.filter((cause) => cause.cents >= 0.05)
      .slice(0, CAUSES_SHOWN).map((cause) => h('li', {}, h('span', {}, causeName(cause)),
        h('span', { class: 'much' }, `± ${centsWords(cause.cents)}`)))),
    h('p', { class: 'note' }, within(near, far)),
  ];
}

/** @param {Desk} desk @returns {Node[]} */
export function trial(desk) {
  const { store, engine } = desk;
  const button = h('button', { type: 'button', class: 'plain', onclick: () => {
    if (trialOf(store.get())?.running) stopTrial(store);
    else void startTrial(store, engine);
  } }, '');
  const bar = h('progress', { max: BUILDS, value: 0, 'aria-label': BUILT });
  const words = h('p', { role: 'status' });
  const count = h('p', { class: 'note' });
  const figures = h('div');
  store.subscribe(onChange((s) => [trialOf(s), s.sure], (s) => {
    const now = trialOf(s);
    const running = now?.running === true;
    say(button, running ? STOP : now === null ? tryOn(thousands(BUILDS)) : TRY_AGAIN);
    bar.hidden = !running;
    bar.value = now?.result?.builds ?? 0;
    count.hidden = !running;
    const straying = now === null || running ? [] : names(now, s.sure);
    say(count, running ? trialSentence(now, []) || BEGINNING : '');
    say(words, now === null || running ? '' : trialSentence(now, straying));
    figures.replaceChildren(...(now?.result && !running && now.fault === '' && s.sure !== null
      ? [beside(now.result, s.sure, straying.length > 0)] : []));
  }));
  return [button, bar, count, words, figures];
}

/** Those that stray. @param {Trial} now @param {Spread | null} is */
const names = (now, is) => (now.result?.notes ?? []).flatMap((note, i) => (strays(note)
  ? [noteOrFingering(is?.notes[i]?.name, note.open)] : []));

/** Both figures of each note, the one to trust first.
 * @param {MonteCarlo} tried @param {Spread} is @param {boolean} triedFirst */
function beside(tried, is, triedFirst) {
  /** @template T @param {T} quick @param {T} built */
  const inOrder = (quick, built) => (triedFirst ? [built, quick] : [quick, built]);
  const rows = [...is.notes.entries()].reverse().filter(([, note]) => note.sigma_cents !== null);
  return h('table', { class: 'notes' }, h('caption', { class: 'unseen' }, IN_CENTS),
    h('thead', {}, h('tr', {}, h('th', { scope: 'col' }, NOTE),
      ...inOrder(RECKONED, flutes(thousands(tried.builds)))
        .map((head) => h('th', { scope: 'col', class: 'right' }, head)))),
    h('tbody', {}, ...rows.map(([i, note]) => h('tr', {},
      h('th', { scope: 'row' }, noteOrFingering(note.name, note.open)),
      ...inOrder(note.sigma_cents, tried.notes[i]?.sigma_cents ?? null)
        .map((sigma) => h('td', { class: 'right' }, sigma === null ? '' : `± ${sigma.toFixed(1)}`)))),
    h('tr', {}, h('th', { scope: 'row', class: 'words' }, ALL_WITHIN),
      ...inOrder(is.within['10'], tried.within['10'])
        .map((share) => h('td', { class: 'right' }, `${Math.round(share * 100)} %`)))));
}


// web/shelf/own/hand.js: the maker ticks which finished flutes teach the next.

import { h, newId, say } from '../../widgets/dom.js';
import { startFresh } from '../../state/fresh.js';
import { hand as inHand } from '../../state/keep.js';
import { isExample } from '../../state/keeper.js';
import { isHand } from '../../state/taught.js';
import { STAYS_IN_HAND, isCut, isRead, nameOf, nothingLearned, quoted } from '../words.js';
import { HAND, HAND_NOTE, NEW_TUBE, NOT_FOR_THIS, NOT_TICKED, TEACH, TICK_ONE, burned, changedSince, newestOf, oddOne, taught,
  toldOf } from './words.js';

/** @typedef {{of: string[], flutes: number, unknowns: string[], mean: number[], between: number[][],
 *   covariance: number[][], burn?: {mean_mm: number, sigma_mm: number, between_mm: number, holes: number},
 *   odd: {flute: number, of: string, unknown: string, chance: number, named: boolean}[],
 *   changed: {after: number, unknown: string}[]}} HandAnswer */

/** What is said of a hand, a sentence each. @param {HandAnswer} hand @returns {string[]} */
export const handWords = (hand) => [
  ...hand.unknowns.map((unknown, n) => toldOf(unknown, hand.mean[n], Math.sqrt(hand.between[n][n]),
    Math.sqrt(hand.covariance[n][n]))),
  ...(hand.burn ? [burned(hand.burn.mean_mm, hand.burn.between_mm, hand.burn.sigma_mm)] : []),
  ...hand.odd.map(({ of, unknown, named }) => oddOne(of, unknown, named)),
  ...hand.changed.map(({ after, unknown }) => changedSince(hand.of[after] ? quoted(hand.of[after]) : `flute ${after + 1}`, unknown))];

const STEM = 5;  // letters of an id that are chance: state/keeper.js
/** When the last thing was done to it [ms]: by its log, else when it was entered; not when it was last looked at.
 * @param {Flute} flute */
export function finishedAt({ id, at, kept: { doc } }) {
  const times = (doc.log ?? []).map((entry) => (typeof entry.at === 'number' ? entry.at * 1000 : Date.parse(entry.at ?? '')))
    .filter(Number.isFinite);
  const entered = Number.parseInt(id.slice(0, -STEM), 36);
  return times.length > 0 ? Math.max(...times) : Number.isFinite(entered) ? entered : at;
}

/** Why it is not ticked by itself: '' where it is the maker's and finished. @param {Flute} flute
 * @returns {'' | keyof typeof NOT_TICKED} */
export const whyNot = ({ kept: { doc, aside: { begun } } }) => (!isCut(doc) ? 'half'
  : begun === undefined || begun === 'empty' ? '' : begun);

/** @param {Desk} desk */
export function handList(desk) {
  const list = h('ul', { class: 'drawer' });
  const told = h('div', { class: 'told', role: 'status' });
  // what is in force since an earlier visit, or by a link
  const force = h('div', { class: 'in-force' });
  const element = h('details', { class: 'hand' }, h('summary', {}, HAND), h('p', { class: 'note' }, HAND_NOTE), list,
    h('p', { class: 'buttons' }, h('button', { type: 'button', class: 'take', onclick: () => void teach() }, TEACH)), told, force);
  /** As the maker left them. @type {Map<string, boolean>} */
  const ticks = new Map();
  /** @type {Flute[]} */
  let flutes = [];

  /** @param {string[]} lines */
  const tell = (lines) => told.replaceChildren(...lines.map((line) => h('p', {}, line)));
  /** @type {unknown} */
  let shown = null;
  desk.store.subscribe(({ doc: { pattern } }) => {
    if (pattern === shown) return;
    shown = pattern;
    told.replaceChildren();
    const hand = isHand(pattern) ? /** @type {any} */ (pattern) : null;
    force.replaceChildren(...(hand === null ? [] : [...[taught(hand.flutes), ...handWords({ ...hand, odd: [], changed: [] })]
      .map((line) => h('p', {}, line)), h('button', { type: 'button', class: 'inline', onclick: () => desk.edit((s) => {
      const { pattern: _, ...doc } = s.doc;
      return { doc };
    }) }, NOT_FOR_THIS)]));
  });

  async function teach() {
    const chosen = flutes.filter((f) => ticks.get(f.id)).reverse();  // the oldest first
    if (chosen.length === 0) return tell([TICK_ONE]);
    const workshop = await desk.engine.workshop();
    const docs = chosen.map((f) => f.kept.doc);
    let reply = await workshop.hand(docs);
    const [over] = reply.violations ?? [];
    const most = over?.path === 'documents' && over.code === 'too_large' ? Number(over.limit) : 0;
    if (most > 0) reply = await workshop.hand(docs.slice(-most));
    if (!reply.answer) return tell([nothingLearned(reply.violations?.[0]?.code.replaceAll('_', ' ') ?? reply.fault)]);
    const hand = reply.answer;
    const { odd: _odd, changed: _changed, converged: _converged, ...pattern } = hand;  // said once, not carried
    // A flute is not taught by itself: what it told would count twice.
    const pupil = isExample(desk.store.get()) || chosen.some((f) => f.id === inHand.id);
    if (pupil && !startFresh(desk)) return tell([STAYS_IN_HAND]);
    desk.edit((s) => {
      const { pattern: _before, hand: _earlier, ...aside } = s.aside;
      return { doc: { ...s.doc, pattern }, aside };
    });
    // What it says of the flutes, odd ones and changes included, in the place of what is in force anyway.
    force.replaceChildren(...[...force.children].slice(-1));
    tell([taught(hand.flutes) + (most > 0 ? newestOf(chosen.length) : '') + (pupil ? NEW_TUBE : ''),
      ...handWords(hand)]);
    return told.scrollIntoView({ block: 'nearest' });
  }

  return { element, refresh(/** @type {Flute[]} */ kept) {
    flutes = kept.filter((f) => f.id !== '' && isRead(f.kept.doc)).sort((a, b) => finishedAt(b) - finishedAt(a));
    element.hidden = flutes.length === 0;
    list.replaceChildren(...flutes.map((flute) => {
      const why = whyNot(flute);
      const id = newId('t');
      if (!ticks.has(flute.id) && why === '') ticks.set(flute.id, true);
      const box = h('input', { type: 'checkbox', id, onchange: () => ticks.set(flute.id, box.checked) });
      box.checked = ticks.get(flute.id) === true;
      const name = h('label', { for: id });
      say(name, nameOf(flute.kept.doc));
      if (why === '') return h('li', { class: 'check' }, box, name);
      box.setAttribute('aria-describedby', `${id}-why`);
      return h('li', { class: 'check' }, box, h('span', {}, name, h('span', { class: 'note', id: `${id}-why` }, NOT_TICKED[why])));
    }));
  } };
}

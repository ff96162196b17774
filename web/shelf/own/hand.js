// web/shelf/own/hand.js: the maker ticks which finished flutes teach the next.

import { h, newId, say } from '../../widgets/dom.js';
import { startFresh } from '../../state/fresh.js';
import { isExample } from '../../state/keeper.js';
import { isRead, nameOf, nothingLearned } from '../words.js';
import { HAND, HAND_NOTE, TEACH, TICK_ONE, burned, changedSince, oddOne, taught, toldOf } from './words.js';

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
  ...hand.changed.map(({ after, unknown }) => changedSince(after, unknown))];

/** @param {Desk} desk */
export function handList(desk) {
  const list = h('ul', { class: 'drawer' });
  const told = h('div', { class: 'told', role: 'status' });
  const element = h('details', { class: 'hand' }, h('summary', {}, HAND), h('p', { class: 'note' }, HAND_NOTE), list,
    h('p', { class: 'buttons' }, h('button', { type: 'button', class: 'take', onclick: () => void teach() }, TEACH)), told);
  /** Ticked unless the maker took the tick away. @type {Map<string, boolean>} */
  const ticks = new Map();
  /** @type {Flute[]} */
  let flutes = [];

  /** @param {string[]} lines */
  const tell = (lines) => told.replaceChildren(...lines.map((line) => h('p', {}, line)));

  async function teach() {
    // the oldest first: what was worked on last is on top of the shelf
    const chosen = flutes.filter((f) => ticks.get(f.id)).sort((a, b) => a.at - b.at);
    if (chosen.length === 0) return tell([TICK_ONE]);
    const reply = await (await desk.engine.workshop()).hand(chosen.map((f) => f.kept.doc));
    if (!reply.answer) return tell([nothingLearned(reply.violations?.[0]?.code.replaceAll('_', ' ') ?? reply.fault)]);
    const hand = reply.answer;
    const { odd: _odd, changed: _changed, converged: _converged, ...pattern } = hand;  // said once, not carried
    if (isExample(desk.store.get()) && !startFresh(desk)) return undefined;
    desk.edit((s) => {
      const { pattern: _before, ...aside } = s.aside;
      return { doc: { ...s.doc, pattern }, aside };
    });
    tell([taught(hand.flutes), ...handWords(hand)]);
    return told.scrollIntoView({ block: 'nearest' });
  }

  return { element, refresh(/** @type {Flute[]} */ kept) {
    flutes = kept.filter((f) => f.id !== '' && isRead(f.kept.doc));
    element.hidden = flutes.length === 0;
    list.replaceChildren(...flutes.map((flute) => {
      if (!ticks.has(flute.id)) ticks.set(flute.id, true);
      const id = newId('t');
      const box = h('input', { type: 'checkbox', id, onchange: () => ticks.set(flute.id, box.checked) });
      box.checked = ticks.get(flute.id) === true;
      const name = h('label', { for: id });
      say(name, nameOf(flute.kept.doc));
      return h('li', { class: 'check' }, box, name);
    }));
  } };
}

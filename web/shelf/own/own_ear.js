// web/shelf/own/own_ear.js: the notes of a flute that exists, blown one after the other: each goes into its field.

/// <reference path="../../ear/types.d.ts" />
import { h, say } from '../../widgets/dom.js';
import { pattern } from '../../ear/fingering.js';
import { hearing } from '../../ear/hearing.js';
import { createListener } from '../../ear/listen.js';
import { upwards } from './own_doc.js';
import { ALL_HEARD, BY_EAR, BY_EAR_NOTE, LEAVE_OUT, ONE_BACK, blowNow, heardNow } from './words.js';

/** What of the sheet it needs. Rows are numbered as the holes, the foot's is one more.
 * @typedef {{holes: () => number, cut: () => Set<number>, sounds: (row: number) => string,
 *   put: (row: number, text: string) => void, expected: () => Promise<(number | null)[]>,
 *   name: (row: number) => string}} EarSheet */

/** @param {Desk} desk @param {EarSheet} sheet */
export function ownEar(desk, sheet) {
  const listener = createListener({
    pitchFrame: async (samples, rate) => (await desk.engine.workshop()).pitchFrame(samples, rate),
    heldTone: async (frames, expected) => (await desk.engine.workshop()).heldTone(frames, expected),
  });
  const shown = h('p', { class: 'fingering' });
  const heard = h('p', { class: 'note', role: 'status' });
  const again = h('button', { type: 'button', class: 'plain', onclick: () => go(before()) }, ONE_BACK);
  const leave = h('button', { type: 'button', class: 'plain', onclick: () => onwards() }, LEAVE_OUT);
  const acts = h('p', { class: 'buttons' }, again, leave);
  /** The row that is blown; 0: none is left. */
  let at = 0;
  let anew = false;  // every field was filled, so each is heard again
  let on = false;
  /** @type {(number | null)[]} */
  let expected = [];

  /** Rows in the order in which they are blown: from all covered up, what can be blown at all. */
  function order() {
    const count = sheet.holes();
    const cut = sheet.cut();
    return Array.from({ length: count + 1 }, (_, n) => count + 1 - n)
      .filter((_row, n) => cut.size === 0 || upwards(count)[n].every((number) => cut.has(number)));
  }
  function before() {
    const all = order();
    return all[Math.max(0, (at === 0 ? all.length : all.indexOf(at)) - 1)];
  }
  function onwards() {
    const all = order();
    const left = all.slice(all.indexOf(at) + 1);
    const next = anew ? left[0] : left.find((row) => sheet.sounds(row) === '');
    if (next !== undefined) return go(next);
    listener.stop();
    at = 0;
    anew = false;
    return show();
  }
  /** @param {number} row */
  function go(row) {
    at = row;
    listener.serve(expected[sheet.holes() + 1 - row] ?? 0, take);
    show();
  }
  /** @param {HeldTone} tone */
  function take(tone) {
    if (tone.hz === null || at === 0) return;
    const row = at;
    const hz = tone.hz.toFixed(1);
    sheet.put(row, hz);
    say(heard, heardNow(sheet.name(row), hz));
    onwards();
  }
  function begin() {
    const all = order();
    anew = all.every((row) => sheet.sounds(row) !== '');
    go(all.find((row) => anew || sheet.sounds(row) === '') ?? all[0]);
    void sheet.expected().then((hz) => {
      expected = hz;
      if (at !== 0) listener.serve(expected[sheet.holes() + 1 - at] ?? 0, take);
    });
  }
  function show() {
    const open = at === 0 ? [] : upwards(sheet.holes())[sheet.holes() + 1 - at];
    acts.hidden = shown.hidden = !on || at === 0;
    again.hidden = at === order()[0];
    shown.replaceChildren(...(at === 0 ? [] : [pattern(open, sheet.holes(), new Map(Array.from({ length: sheet.holes() },
      (_, n) => [n + 1, true]))), blowNow(open, sheet.holes())]));
    if (at === 0 && heard.textContent !== '') say(heard, `${heard.textContent?.split(' · ')[0]} · ${ALL_HEARD}`);
  }

  const ear = hearing(listener, 0, { take, heard: (now) => {
    const is = now.on !== 'off';
    if (is === on) return;
    on = is;
    if (on) begin();
    show();
  } });
  document.addEventListener('focusin', ({ target }) => {
    // a field that is gone to while it listens is the next to be heard
    const row = Number(/^hz(\d+)$/.exec(target instanceof HTMLElement ? target.dataset.key ?? '' : '')?.[1] ?? 0);
    if (on && row > 0 && row !== at && order().includes(row)) go(row);
  });
  desk.store.subscribe((s) => { if (s.station !== 'shelf') listener.stop(); });
  show();
  return {
    element: h('div', { class: 'own-ear', role: 'group', 'aria-label': BY_EAR }, h('p', { class: 'note' }, BY_EAR_NOTE), shown,
      ear.element, acts, heard),
    /** The rows are others now. */
    stop() {
      listener.stop();
      at = 0;
      say(heard, '');
      show();
    },
  };
}

// web/bench/rescue_panel.js: the ways out of trouble; choosing one shows what to do and logs it.

/// <reference path="./types.d.ts" />
import { h, newId, say } from '../widgets/dom.js';
import { primary } from '../widgets/primary.js';
import { withValue } from '../state/path.js';
import { nextNote } from '../text/notes.js';
import { rescueWords } from '../text/rescue.js';
import { length } from './entry.js';
import { entriesOfRescue, standing } from './log.js';
import { noteOf } from './notes.js';
import { AS_IT_CAME_OUT, DONE, WHAT_TO_DO } from './words.js';

/** @param {Session} session @param {NextStep} next @param {RescueOption[]} options
 * @returns {Panel} */
export function rescuePanel(session, next, options) {
  const { desk } = session;
  const name = newId('way');
  const told = h('div', { class: 'told-how', role: 'status' });
  /** @type {HTMLElement[]} */
  const rows = [];
  const list = h('fieldset', { class: 'ways' }, h('legend', { class: 'unseen' }, WHAT_TO_DO),
    ...options.map((option, i) => {
      const id = `${name}-${i}`;
      const words = rescueWords(option, desk.store.get(), desk.engine);
      const input = h('input', { type: 'radio', name, id, onchange: () => choose(option, i) });
      input.checked = i === 0;
      rows[i] = h('div', { class: 'way' }, input, h('label', { for: id }, h('strong', {}, words.name),
        h('span', { class: 'small' }, words.cost)));
      return rows[i];
    }));
  const wrong = h('p', { class: 'wrong', role: 'alert' });

  /** @param {RescueOption} option @param {number} index */
  function choose(option, index) {
    const s = desk.store.get();
    const stand = standing(s.doc);
    const words = rescueWords(option, s, desk.engine);
    const sleeve = option.what === 'foot_sleeve';
    const size = words.size === undefined ? null : length(session, { label: words.size, note: AS_IT_CAME_OUT,
      place: sleeve, mm: sleeve ? stand.foot_mm + (option.length_mm ?? 0) : option.size_mm });
    say(wrong, '');
    const button = primary(words.act ?? DONE, async () => {
      const got = size?.get();
      if (size !== null && got === undefined) return;
      const sentence = await act(session, next, option, got?.value ?? 0);
      if (size !== null) size.fail(sentence);
      else say(wrong, sentence);
    });
    told.replaceChildren(h('p', {}, words.how), ...(size === null ? [] : [size.element]), button, wrong);
    rows[index].append(told);
  }
  if (options.length > 0) choose(options[0], 0);
  return { element: h('div', { class: 'panel' }, list), remove() {} };
}

/** @param {Session} session @param {NextStep} next @param {RescueOption} option @param {number} size_mm
 * @returns {Promise<string>} what is wrong, else empty */
async function act(session, next, option, size_mm) {
  const { desk } = session;
  const s = desk.store.get();
  const open = next.step.open ?? [];
  switch (option.what) {
    case 'read_again':
      session.read(open);
      return '';
    case 'lowest_floats':
      desk.edit(({ doc }) => ({ doc: withValue(doc, 'song.lowest', 'free') }), ['song.lowest']);
      return '';
    case 'next_key':
      desk.edit(({ doc }) => ({ doc: withValue(doc, 'song.lowest', keyAt(option.target_hz ?? 0, next, doc)) }),
        ['song.lowest']);
      return '';
    case 'accept': {
      // What counts as in tune has to take this note in, with what is not known of it.
      const off = Math.abs(noteOf(next, open)?.now_cents ?? option.costs_cents);
      const tolerance_cents = Math.ceil(off + (next.sigma_cents ?? 0));
      desk.edit(({ doc }) => ({ doc: withValue(doc, 'song.tolerance_cents',
        Math.max(tolerance_cents, doc.song.tolerance_cents ?? 0)) }), ['song.tolerance_cents']);
      return '';
    }
    case 'lay_out_anew': case 'breathe_evenly':
      session.hush(option.what);
      return '';
    default:
      return session.log(entriesOfRescue(option, size_mm, standing(s.doc)));
  }
}

/** The lowest note so much higher, as a note's name where it was one.
 * @param {number} hz @param {NextStep} next @param {Doc} doc @returns {Lowest} */
function keyAt(hz, next, doc) {
  const { lowest } = doc.song;
  const from = noteOf(next, [])?.target_hz ?? hz;
  if (typeof lowest !== 'string') return { hz: Math.round(hz * 100) / 100 };
  /** @type {string | undefined} */
  let name = lowest;
  for (let up = Math.round(12 * Math.log2(hz / from)); up > 0 && name !== undefined; up -= 1) {
    name = nextNote(name, 1);
  }
  return name ?? { hz: Math.round(hz * 100) / 100 };
}

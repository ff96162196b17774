// web/shelf/own/own.js: the sheet of a flute that exists: a tube, and beside each hole what was measured of it.

import { h, newId, say } from '../../widgets/dom.js';
import { datumShift, fractionOf, unitOf } from '../../state/desk.js';
import { lengthReader, numberReader } from '../../state/readers.js';
import { inLetters } from '../../text/naming.js';
import { sentence } from '../../text/violations.js';
import { noteQuestion } from '../../widgets/note_names.js';
import { FIELDS, cutHoles, lineOf, pastedRows, silentDoc } from './own_doc.js';
import { recounted } from './recount.js';
import { ownEar } from './own_ear.js';
import { ownTold } from './own_told.js';
import { ownRuler } from './ruler.js';
import { FOOT, holeName } from '../words.js';
import { A_FLUTE_YOU_HAVE, BORE, HOLES, LENGTH, NAME, PLACE, ROOM, SOUNDS, WALL, WHAT_IT_IS_FOR, WIDE,
  WIDTH, cell, notAPitch, outOfOrder, soundsNote, tooManyFields, tooManyRows } from './words.js';

const DRAFT = 'canewright/sheet';  // what was typed, until it is on the shelf
const MOST_HOLES = 8;
const USUAL_HOLES = 5;
const AFTER_MS = 500;

/** @typedef {import('./own_doc.js').OwnFlute} OwnFlute */

/** @param {Desk} desk @param {() => void} changed the shelf */
export function ownSheet(desk, changed) {
  /** @type {Record<string, string>} */
  let texts = {};
  try {
    texts = JSON.parse(localStorage.getItem(DRAFT) ?? '{}');
  } catch { /* nothing was left */ }
  const holes = () => Number(texts.holes ?? USUAL_HOLES);
  /** As the page is, but in the unit and from the line that the sheet was begun in: figures do not change their
   * meaning under the hand. @returns {State} */
  const asBegun = () => {
    const s = desk.store.get();
    return texts.show === undefined ? s : { ...s, doc: { ...s.doc, show: JSON.parse(texts.show) } };
  };
  /** @type {Map<string, {input: HTMLInputElement, name: string}>} */
  const inputs = new Map();
  const wrong = h('p', { class: 'wrong', role: 'alert', id: newId('wrong') });
  const told = ownTold(desk, { state: asBegun, draft(key, text) {
    if (text === '') delete texts[key];
    else if (text !== undefined) texts[key] = text;
    if (text !== undefined) save();
    return texts[key] ?? '';
  }, kept() { texts = {}; save(); draw(); changed(); }, read: () => read(),
    refuse(violation, doc) {
      const key = lineOf(violation.path, doc, holes());
      const one = inputs.get(key);
      if (one === undefined) return false;
      fail(key, `${one.name}: ${sentence(violation, asBegun(), desk.engine)}`);
      return true;
    } });
  const ruler = ownRuler(desk, asBegun, (show) => {
    Object.assign(texts, { show: JSON.stringify(show), said: 'yes' });
    save();
    draw();
  });
  const question = noteQuestion(desk, () => void told.refresh());
  const rows = h('div', { class: 'own-rows' });
  const ear = ownEar(desk, { holes: () => holes(), name: (row) => (row > holes() ? FOOT : holeName(row)),
    cut: () => new Set(Array.from({ length: holes() }, (_, n) => n + 1).filter((row) => (texts[`at${row}`] ?? '').trim() !== '')),
    sounds: (row) => (texts[`hz${row}`] ?? '').trim(), put: (row, text) => put(`hz${row}`, text), expected: () => expected() });
  const element = h('details', { class: 'own', ontoggle: () => {
    if (!element.open) ear.stop();
    else if (inputs.size === 0) draw();
  } },
    h('summary', {}, A_FLUTE_YOU_HAVE), h('p', { class: 'note' }, WHAT_IT_IS_FOR), rows, ear.element,
    question.element, wrong, told.element);
  let timer = 0;

  function save() {
    try {
      localStorage.setItem(DRAFT, JSON.stringify(texts));
    } catch { /* no room: it stays on the page */ }
  }

  /** @param {string} key @param {string} name @param {boolean} [words] */
  function line(key, name, words = false) {
    const id = newId('own');
    const input = h('input', { type: 'text', id, class: words ? 'words' : 'figure', autocomplete: 'off',
      spellcheck: 'false', autocapitalize: 'off', enterkeyhint: 'next', inputmode: words ? 'text' : 'decimal',
      onclick: () => fractions(input),
      'aria-label': name, 'data-key': key, oninput: () => typed(key, input.value), onpaste: (/** @type {ClipboardEvent} */ event) =>
        pasted(event, key), onkeydown: (/** @type {KeyboardEvent} */ event) => {
        if (event.key !== 'Enter') return;
        const all = [...inputs.values()];
        const next = all[all.findIndex((one) => one.input === input) + 1]?.input;
        next?.focus();
        if (next) fractions(next);
      } });
    input.value = texts[key] ?? '';
    inputs.set(key, { input, name });
    return input;
  }

  /** A phone's keypad for figures has none. @param {HTMLInputElement} input */
  function fractions(input) {
    if (input.inputMode === 'text' || input.dataset.key === 'room' || unitOf(asBegun()) !== 'inch') return;
    const place = /** @type {HTMLElement} */ (input.closest('.line, .own-row'));
    import('../../widgets/fraction_keys.js').then((m) => m.under(place, input, fractionOf(asBegun()))).catch(() => {});
  }

  /** @param {string} key @param {string} text */
  function typed(key, text) {
    if (text === '') delete texts[key];
    else texts[key] = text;
    const { show, holes: _, said, ...written } = texts;
    if (Object.keys(written).length === 0 && !said) delete texts.show;
    else texts.show = show ?? JSON.stringify(desk.store.get().doc.show ?? {});
    save();
    say(wrong, '');
    for (const { input } of inputs.values()) {
      input.removeAttribute('aria-invalid');
      input.removeAttribute('aria-describedby');
    }
    circles();
    clearTimeout(timer);
    told.wait();
    timer = window.setTimeout(() => void told.refresh(), AFTER_MS);
  }

  /** As if it had been typed. @param {string} key @param {string} text */
  function put(key, text) {
    const to = inputs.get(key);
    if (to === undefined) return;
    to.input.value = text;
    typed(key, text);
  }

  /** What the fingerings should give by the sizes alone, from all covered up; empty: they are not all there.
   * @returns {Promise<(number | null)[]>} */
  async function expected() {
    const { own } = await read();
    if (!own || own.holes.some((row) => row.at === undefined)) return [];
    const { answer } = await (await desk.engine.workshop()).sound(silentDoc(own));
    return answer?.notes.map((note) => note.hz) ?? [];
  }

  /** A table goes into the rows from here on. @param {ClipboardEvent} event @param {string} key */
  function pasted(event, key) {
    const text = event.clipboardData?.getData('text/plain') ?? '';
    const first = /^at(\d+)$/.exec(key);
    if (first === null || !/[\t;\n]|,\s/.test(text.trim())) return;
    event.preventDefault();
    const fit = holes() + 2 - Number(first[1]);  // the foot is one
    const given = pastedRows(text);
    if (given.length > fit) return void fail(key, tooManyRows(given.length, fit));
    const over = given.find((cells) => cells.slice(FIELDS).some((cell) => cell !== ''));
    if (over !== undefined) return void fail(key, tooManyFields(over.length));
    given.forEach(([at, wide, pitch], n) => {
      const row = Number(first[1]) + n;
      for (const [stem, value] of [['at', at], ['wide', wide], ['hz', pitch]]) {
        if (value !== undefined && value !== '') put(`${stem}${row}`, value);
      }
    });
  }

  function draw() {
    inputs.clear();
    ear.stop();
    const count = newId('own');
    const choice = h('select', { id: count, onchange: () => {
      texts = recounted(texts, holes(), Number(choice.value));
      save();
      draw();
      rows.querySelector('select')?.focus();  // it is another one now
    } }, ...Array.from({ length: MOST_HOLES }, (_, n) => h('option', { value: String(n + 1) }, String(n + 1))));
    choice.value = String(holes());
    /** @param {string} key @param {string} name @param {boolean} [words] */
    const plain = (key, name, words) => {
      const input = line(key, name, words);
      return h('div', { class: key === 'name' ? 'line wide' : 'line' }, h('label', { for: input.id }, name), input);
    };
    const s = asBegun();
    ruler.draw();
    rows.replaceChildren(ruler.element, plain('name', NAME, true),
      h('div', { class: 'line pick' }, h('label', { for: count }, HOLES), choice),
      ...[['bore', BORE], ['wall', WALL], ['length', LENGTH], ['width', WIDTH], ['room', ROOM]]
        .map(([key, name]) => plain(key, name)),
      h('p', { class: 'note' }, soundsNote() + (s.doc.show?.datum ?? 'centre'), ` (${unitOf(s)}).`),
      h('div', { class: 'own-tube' }, h('div', { class: 'own-row head', 'aria-hidden': 'true' }, h('span', {}),
        ...[PLACE, WIDE, SOUNDS].map((word) => h('span', { class: 'small' }, word))),
      ...Array.from({ length: holes() }, (_, n) => row(n + 1)), row(holes() + 1)));
    circles();
    void told.refresh();
  }

  /** @param {number} number the one after the last hole is the foot */
  function row(number) {
    const name = number > holes() ? FOOT : holeName(number);
    return h('div', { class: number > holes() ? 'own-row end' : 'own-row' },
      h('span', { class: 'own-cane' }, h('i', { class: 'own-hole', 'data-row': String(number) }), h('span', { class: 'small' },
        number > holes() ? FOOT : String(number))),
      line(`at${number}`, cell(name, PLACE)),
      number > holes() ? h('span', {}) : line(`wide${number}`, cell(name, WIDE)),
      line(`hz${number}`, cell(name, SOUNDS), true));
  }

  /** Holes as wide as they are to the bore. */
  function circles() {
    const bore = Number.parseFloat((texts.bore ?? '').replace(',', '.'));
    for (const one of /** @type {NodeListOf<HTMLElement>} */ (rows.querySelectorAll('.own-hole'))) {
      const wide = Number.parseFloat((texts[`wide${one.dataset.row}`] ?? '').replace(',', '.'));
      one.style.setProperty('--wide', String(wide > 0 && bore > 0 ? Math.min(wide / bore, 1) : 0.4));
      one.classList.toggle('guessed', !(wide > 0));
    }
  }

  /** Said right below its line. @param {string} key @param {string} words */
  function fail(key, words) {
    const one = inputs.get(key);
    one?.input.setAttribute('aria-invalid', 'true');
    one?.input.setAttribute('aria-describedby', wrong.id);
    one?.input.closest('.line, .own-row')?.after(wrong);
    say(wrong, words);
    return null;
  }

  /** What was typed, or null: something is wrong and named, or not all is there that is needed.
   * @returns {Promise<{own: OwnFlute | null, missing: string[]}>} */
  async function read() {
    const s = asBegun();
    const workshop = await desk.engine.workshop();
    const lengths = lengthReader(desk.engine);
    const none = { own: null, missing: /** @type {string[]} */ ([]) };
    /** @type {Record<string, number>} */
    const got = {};
    for (const [key, { name }] of inputs) {
      const text = (texts[key] ?? '').trim();
      if (text === '' || key === 'name') continue;
      if (key.startsWith('hz')) {
        const spelt = inLetters(text, true);
        question.show(spelt.asks);
        if (spelt.asks !== null) return none;
        const reply = workshop.reading({ text: spelt.text, a4_hz: s.doc.song.a4_hz });
        if (reply.answer === undefined) return fail(key, notAPitch(name.split(':')[0], text)) ?? none;
        got[key] = reply.answer.hz;
        continue;
      }
      const value = key === 'room' ? numberReader(desk.engine)(text, 'mm') : lengths(text, unitOf(s));
      if ('problem' in value) return fail(key, `${name}: ${sentence(value.problem, s, desk.engine)}`) ?? none;
      got[key] = Number(value.value);
    }
    const shift = datumShift({ show: s.doc.show, sound_hole: { length_mm: got.length ?? 0, width_mm: 0 } });
    /** @param {number} n */
    const rowOf = (n) => ({ at: got[`at${n}`] === undefined ? undefined : got[`at${n}`] - shift, wide: got[`wide${n}`],
      hz: got[`hz${n}`] });
    const own = { name: texts.name?.trim(), show: s.doc.show, bore: got.bore, wall: got.wall, length: got.length,
      width: got.width, room: got.room, holes: Array.from({ length: holes() }, (_, n) => rowOf(n + 1)),
      foot: rowOf(holes() + 1) };
    let above = 0;
    for (const { number, at } of [...cutHoles(own), { number: holes() + 1, at: own.foot.at }]) {
      if (at === undefined) continue;
      if (at <= above) {
        return fail(`at${number}`, outOfOrder(number > holes() ? FOOT : holeName(number))) ?? none;
      }
      above = at;
    }
    // without its length nothing can be reckoned; what it sounds may be left out, as of any hole
    const missing = ['bore', 'wall', 'length', 'width', `at${holes() + 1}`].filter((key) => got[key] === undefined)
      .map((key) => inputs.get(key)?.name ?? key);
    return missing.length > 0 ? { own: null, missing } : { own, missing };
  }

  let drawn = desk.store.get().doc.show;
  desk.store.subscribe(({ doc }) => {
    if (doc.show === drawn) return;
    drawn = doc.show;
    if (inputs.size > 0 && texts.show === undefined) draw();
  });
  return { element };
}

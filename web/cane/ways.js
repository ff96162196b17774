// web/cane/ways.js: other ways to find the bore: what each is worth on this tube, and a weight, a
// volume, two shanks or a girth made a diameter.

import { h, newId, say } from '../widgets/dom.js';
import { radios } from '../widgets/choice.js';
import { lengthReader, numberReader } from '../state/readers.js';
import { withBoreAt, withMeanBore, withOutside } from '../state/bore.js';
import { unitOf, fractionOf } from '../state/desk.js';
import { onChange } from '../state/store.js';
import { sentence } from '../text/violations.js';
import { WAYS, bestWay, foundWords, wayName, wayWorth } from '../text/ways.js';
import { AS_BORE, AS_OUTSIDE, PUT_BACK, YOU_HAVE, asBore } from './words.js';

const BORE = ['tube.bore', 'shop.bore_mm'];

/** @param {Desk} desk @param {(what: Measurement) => Reply<Measured>} reckon a bore from what was weighed or wound
 * @returns {Node[]} */
export function ways(desk, reckon) {
  return [worth(desk), radios(desk, {
      label: YOU_HAVE, hidden: true,
      options: Object.entries(WAYS).map(([way, { name }]) => [way, name]),
      now: wayNow, pick: (way) => keepText(desk, 'way', way),
    }), ...Object.keys(WAYS).map((way) => converter(desk, way, reckon))];
}

/** @param {State} s @param {string} key */
function textOf(s, key) {
  const text = s.aside.measure?.[key];
  return typeof text === 'string' ? text : '';
}

/** @param {State} s */
const wayNow = (s) => (Object.hasOwn(WAYS, textOf(s, 'way')) ? textOf(s, 'way') : 'water_g');

/** Kept beside the document, so that nothing is reckoned anew before it is taken over; with the unit
 * meant then. @param {Desk} desk @param {string} key @param {string} text */
const keepText = (desk, key, text) => desk.edit((s) => ({ aside: { ...s.aside,
  measure: { ...s.aside.measure, [key]: text, [`${key} in`]: unitOf(s) } } }));

/** What each way would be worth, the most precise named. @param {Desk} desk */
function worth(desk) {
  const best = h('p');
  const list = h('dl');
  desk.store.subscribe(onChange((s) => [s.sure, unitOf(s)], (s) => {
    const all = s.sure?.bore_ways ?? [];
    say(best, bestWay(all));
    list.replaceChildren(...all.flatMap((way) => [h('dt', {}, wayName(way)),
      h('dd', {}, wayWorth(way, s))]));
  }));
  return h('div', {}, best, list);
}

/** Fields of one way, the bore they give, and the tap that takes it over.
 * @param {Desk} desk @param {string} way @param {(what: Measurement) => Reply<Measured>} reckon */
function converter(desk, way, reckon) {
  const { how, quantities } = WAYS[way];
  const lines = quantities.map((quantity) => entry(desk, way, quantity));
  const found = h('p', { class: 'found', role: 'status' });
  const taps = h('div', { class: 'taps' });
  const element = h('div', {}, h('p', { class: 'note' }, how), ...lines.map((line) => line.element),
    found, taps);
  /** @type {State | null} */
  let undo = null;
  let shape = '';
  desk.store.subscribe((s) => {
    element.hidden = wayNow(s) !== way;
    if (element.hidden) return;
    const { measured, problems, length_mm: length } = measure(s);
    lines.forEach((line, i) => line.show(s, problems[i]));
    const { bore } = s.doc.tube;
    const text = measured === null ? '' : foundWords(measured, s);
    say(found, text);
    const now = JSON.stringify([measured, bore.length, length, undo !== null]);
    if (now === shape) return;
    shape = now;
    taps.replaceChildren(...(measured === null ? [] : choices(measured, length, bore.length)),
      ...(undo === null ? [] : [h('button', { type: 'button', class: 'plain', onclick: putBack },
        PUT_BACK)]));
  });

  /** @param {State} s */
  function measure(s) {
    /** @type {Measurement} */
    const what = { way };
    const problems = lines.map((line, i) => {
      const read = line.read(s);
      if (read === null) return null;
      if ('problem' in read) return sentence(read.problem, s, desk.engine);
      if (read.value !== undefined) what[quantities[i].key] = /** @type {number} */ (read.value);
      return null;
    });
    const complete = quantities.every((q) => q.optional || typeof what[q.key] === 'number');
    const none = { measured: null, problems, length_mm: 0 };
    if (!complete || problems.some((p) => p !== null)) return none;
    const { answer, violations = [], fault } = reckon(what);
    if (answer) return { ...none, measured: answer, length_mm: Number(what.length_mm ?? 0) };
    for (const v of violations) {
      const at = quantities.findIndex((q) => q.key === v.path);
      const path = `measure.${quantities[Math.max(0, at)].key}`;
      problems[Math.max(0, at)] = sentence({ ...v, path }, s, desk.engine);
    }
    if (fault !== undefined) problems[0] = sentence({ code: 'fault', path: '' }, s, desk.engine);
    return none;
  }

  /** @param {Measured} measured @param {number} length @param {number} places */
  function choices(measured, length, places) {
    if (measured.outer_mm !== undefined) {
      return [tap(AS_OUTSIDE, (s) => withOutside(s.doc, measured))];
    }
    if (length > 0) return [tap(AS_BORE, (s) => withMeanBore(s.doc, measured, length))];
    return Array.from({ length: places }, (_, i) => tap(places === 1 ? AS_BORE
      : asBore(i + 1), (s) => withBoreAt(s.doc, measured, i)));
  }

  /** @param {string} words @param {(s: State) => Doc} change */
  function tap(words, change) {
    return h('button', { type: 'button', class: 'take', onclick: () => {
      undo = desk.store.get();
      desk.edit((s) => ({ doc: change(s) }), [...BORE, 'tube.wall_mm', 'tube.outer_mm']);
      taps.querySelector('button')?.focus();
    } }, words);
  }

  function putBack() {
    const before = undo;
    undo = null;
    if (before === null) return;
    desk.edit((s) => {
      const { bore, wall_mm: wall, outer_mm: outer } = before.doc.tube;
      const tube = { ...s.doc.tube, bore, wall_mm: wall, outer_mm: outer };
      return { doc: { ...s.doc, tube: JSON.parse(JSON.stringify(tube)),
        shop: JSON.parse(JSON.stringify({ ...s.doc.shop, bore_mm: before.doc.shop?.bore_mm })) } };
    }, [...BORE, 'tube.wall_mm', 'tube.outer_mm']);
    taps.querySelector('button')?.focus();
  }
  return element;
}

/** One quantity: like a field of the document, but kept aside.
 * @param {Desk} desk @param {string} way @param {import('../text/ways.js').Quantity} quantity */
function entry(desk, way, quantity) {
  const id = newId('w');
  const key = `${way}.${quantity.key}`;
  const read = quantity.length ? lengthReader(desk.engine) : numberReader(desk.engine);
  const input = h('input', { type: 'text', id, inputmode: 'decimal', autocomplete: 'off',
    spellcheck: 'false', enterkeyhint: 'next', class: 'figure',
    'aria-describedby': `${id}-note ${id}-aside ${id}-wrong`,
    oninput: () => keepText(desk, key, input.value) });
  const aside = h('span', { class: 'aside', id: `${id}-aside` });
  const wrong = h('p', { class: 'wrong', id: `${id}-wrong`, role: 'alert', 'aria-live': 'polite' });
  // The filled piece is mostly the tube below the line: shown until another length is typed.
  /** @param {State} s */
  const text = (s) => s.aside.measure?.[key] !== undefined || quantity.key !== 'length_mm'
    ? textOf(s, key) : desk.engine.writeLength(s.doc.tube.end_mm, unitOf(s), fractionOf(s));
  /** @param {State} s */
  const unit = (s) => textOf(s, `${key} in`) || unitOf(s);
  return {
    element: h('div', { class: 'line' },
      h('div', { class: 'what' }, h('label', { for: id }, quantity.label),
        h('span', { class: 'note', id: `${id}-note` }, quantity.note ?? '')),
      h('div', { class: 'control' }, h('span', { class: 'entry' }, input, aside)), wrong),
    /** @param {State} s @returns {Reading | null} null: nothing is entered yet */
    read: (s) => (text(s).trim() === '' ? null : read(text(s), unit(s))),
    /** @param {State} s @param {string | null} problem */
    show(s, problem) {
      if (input.value !== text(s)) input.value = text(s);
      input.classList.toggle('long', text(s).length > 6);
      say(wrong, problem ?? '');
      input.setAttribute('aria-invalid', String(problem !== null));
      say(aside, quantity.suffix ?? unit(s));
    },
  };
}

// web/cane/errors.js: how well the maker measures, marks and drills.

import { h } from '../widgets/dom.js';
import { field, plainField } from '../widgets/field.js';
import { lengthReader, stepped } from '../state/readers.js';
import { withValue } from '../state/path.js';
import { INCH_MM, unitOf } from '../state/desk.js';
import { fine } from '../text/numbers.js';
import { HOW_WELL, LENGTHS, OFF_BY, TEMPERATURE, TO_USUAL, howFarOff, usually } from './words.js';

/** @param {Desk} desk */
export function errors(desk) {
  const usual = desk.choices.defaults.shop;
  const reset = h('button', { type: 'button', class: 'plain', onclick: () => desk.edit((s) => ({
    doc: PATHS.reduce((doc, path) => withValue(doc, path, undefined), s.doc),
  }), PATHS) }, TO_USUAL);
  /** @type {Partial<State>} */
  let of = {};
  desk.store.subscribe((s) => {
    if (s.doc === of.doc && s.typed === of.typed) return;
    of = s;
    reset.hidden = PATHS.every((path) => s.typed[path] === undefined
      && desk.value(s, path) === desk.value({ ...s, doc: { ...s.doc, shop: {} } }, path));
  });
  return h('details', { class: 'errors' }, h('summary', {}, HOW_WELL),
    h('p', { class: 'note' }, OFF_BY),
    ...LENGTHS.map(([key, label, note]) => errorField(desk, `shop.${key}`, label,
      usual?.[key] === undefined ? note : usually(note, `${usual[key]} mm`))),
    plainField(desk, 'shop.temperature_c', { label: TEMPERATURE, suffix: '°C', step: 0.5,
      note: usual?.temperature_c === undefined ? '' : usually('', `${usual.temperature_c} °C`) }).element,
    reset);
}

const PATHS = [...LENGTHS.map(([key]) => `shop.${key}`), 'shop.temperature_c'];
const STEP_MM = 0.05;
const STEP_INCH = 0.002;

/** Finer than a length on the ruler: hundredths of a millimetre, thousandths of an inch.
 * @param {Desk} desk @param {string} path @param {string} label @param {string} note */
function errorField(desk, path, label, note) {
  return field(desk, path, {
    label, full: howFarOff(label), note, read: lengthReader(desk.engine),
    write: (mm, state) => fine(mm, state), aside: (_mm, state) => `± ${unitOf(state)}`,
    step: (direction, state) => {
      const mm = desk.value(state, path);
      if (typeof mm !== 'number') return undefined;
      const step = unitOf(state) === 'inch' ? STEP_INCH * INCH_MM : STEP_MM;
      const next = stepped(mm, direction * step);
      return next < 0 ? undefined : next;
    },
  }).element;
}

// web/suits/drills.js: drills to tick, as their owner knows them, on Song.

/// <reference path="./types.d.ts" />
import { h, say } from '../widgets/dom.js';
import { withValue } from '../state/path.js';
import { PLASTIC, cautions } from '../text/cautions.js';
import { entry, keep } from './entry.js';
import { unitOf, fractionOf } from '../state/desk.js';
import { ADD_ROD, BURNS, DRILLS, DRILLS_LEAD, NO_BIT_HELPS, ROD, RODS, RODS_LEAD, bitGain, drillCount, removeRod, rodName,
  setName } from './words.js';

const SAME_MM = 1e-6;
/** @param {Bit} a @param {Bit} b */
const same = (a, b) => Math.abs(a.mm - b.mm) < SAME_MM && (a.label ?? '') === (b.label ?? '');
/** A metric size needs no name. @param {Bit} bit @returns {Bit} */
const kept = (bit) => (/mm$/.test(bit.label ?? '') ? { mm: bit.mm } : bit);

/** @param {Desk} desk */
export function drills(desk) {
  const { store, engine } = desk;
  const sets = h('div', {});
  const count = h('p', { class: 'note', role: 'status' });
  /** @type {{bit: Bit, box: HTMLInputElement}[]} */
  const boxes = [];
  const owned = () => store.get().doc.shop?.bits ?? [];
  const gain = h('p', { class: 'note', role: 'status' });
  /** @param {Bit} bit @param {boolean} on */
  const tick = (bit, on) => desk.edit((s) => {
    const rest = owned().filter((other) => !same(other, bit));
    const bits = on ? [...rest, bit].sort((a, b) => a.mm - b.mm) : rest;
    return { doc: withValue(s.doc, 'shop.bits', bits.length === 0 ? undefined : bits) };
  }, ['shop.bits']);
  function told() {
    for (const { bit, box } of boxes) box.checked = owned().some((other) => same(other, bit));
    say(count, drillCount(owned().length));
    void more().catch(() => {});
  }
  let asked = false;
  const element = h('details', { class: 'drills', ontoggle: () => void load() }, h('summary', {}, DRILLS),
    h('p', { class: 'note' }, DRILLS_LEAD), count, gain, sets, rods(desk, owned, tick));
  /** @type {unknown} */
  let of = null;
  /** What one bit more would gain, where the bits are what limits. */
  async function more() {
    const s = store.get();
    if (of === s.answer) return;
    of = s.answer;
    const bound = s.answer.binding.some(({ constraint }) => constraint === 'bits') && !s.doc.log?.length;
    const { answer } = bound ? await engine.workshop().then((w) => w.mends(s.doc)) : { answer: null };
    if (of !== s.answer) return;
    const mend = answer?.mends.find(({ code }) => code === 'one_more_bit');
    say(gain, mend ? bitGain(mend, s, engine) : answer ? NO_BIT_HELPS : '');
  }
  async function load() {
    if (asked || !element.open) return;
    asked = true;
    const { answer } = await engine.workshop().then((w) => w.drills()).catch(() => ({ answer: undefined }));
    if (!answer) {
      asked = false;
      element.open = false;
      return;
    }
    sets.replaceChildren(...answer.sets.map(({ name, bits }) => h('fieldset', { class: 'drill-set' }, h('legend', {}, setName(name)),
      ...bits.map((each) => {
        const bit = kept(each);
        const box = /** @type {HTMLInputElement} */ (h('input', { type: 'checkbox', onchange: () => tick(bit, box.checked) }));
        boxes.push({ bit, box });
        return h('label', { class: 'drill' }, box, ` ${each.label}`);
      }))));
    told();
  }
  store.subscribe(() => { if (element.open) told(); });
  return element;
}

/** Rods that burn holes, by the maker's own allowance. @param {Desk} desk @param {() => Bit[]} owned
 * @param {(bit: Bit, on: boolean) => void} tick */
function rods(desk, owned, tick) {
  const { store, engine } = desk;
  const rod = entry(desk, 'rod.rod_mm', ROD);
  const burns = entry(desk, 'rod.burns_mm', BURNS);
  const list = h('div', {});
  const lines = h('div', {}, h('p', { class: 'note' }, RODS_LEAD), rod.element, burns.element,
    h('button', { type: 'button', class: 'plain', onclick: add }, ADD_ROD));
  const never = h('p', {}, cautions('pipe')[1].lines[0]);
  function add() {
    const [size, wider] = [rod.mm(), burns.mm()];
    const s = store.get();
    if (size === undefined || wider === undefined) {
      for (const [each, mm] of /** @type {const} */ ([[rod, size], [burns, wider]])) if (mm === undefined) each.missing();
      return;
    }
    const unit = unitOf(s);
    const written = engine.writeLength(size, unit, fractionOf(s));
    tick({ mm: Math.round((size + wider) * 1000) / 1000, label: rodName(unit === 'inch' ? written : `${written} mm`) }, true);
    keep(desk, { 'rod.rod_mm': '' });
  }
  let shown = '';
  store.subscribe((s) => {
    lines.hidden = PLASTIC.test(s.doc.tube.material ?? '');
    never.hidden = !lines.hidden;
    const mine = owned().filter(({ label }) => /rod$/.test(label ?? ''));
    const text = JSON.stringify(mine);
    if (text === shown) return;
    shown = text;
    list.replaceChildren(...mine.map((bit) => h('p', {}, `${bit.label}: ${Math.round(bit.mm * 100) / 100} mm `, h('button',
      { type: 'button', class: 'inline', onclick: () => tick(bit, false) }, removeRod(bit.label ?? '')))));
  });
  return h('fieldset', { class: 'rods' }, h('legend', {}, RODS), lines, never, list);
}

// web/suits/drills.js: drills to tick, as their owner knows them, on Song.

/// <reference path="./types.d.ts" />
import { h, say } from '../widgets/dom.js';
import { withValue } from '../state/path.js';
import { DRILLS, DRILLS_LEAD, drillCount, setName } from './words.js';

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
  /** @param {Bit} bit @param {boolean} on */
  const tick = (bit, on) => desk.edit((s) => {
    const rest = owned().filter((other) => !same(other, bit));
    const bits = on ? [...rest, bit].sort((a, b) => a.mm - b.mm) : rest;
    return { doc: withValue(s.doc, 'shop.bits', bits.length === 0 ? undefined : bits) };
  }, ['shop.bits']);
  function told() {
    for (const { bit, box } of boxes) box.checked = owned().some((other) => same(other, bit));
    say(count, drillCount(owned().length));
  }
  let asked = false;
  const element = h('details', { class: 'drills', ontoggle: () => void load() }, h('summary', {}, DRILLS),
    h('p', { class: 'note' }, DRILLS_LEAD), count, sets);
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

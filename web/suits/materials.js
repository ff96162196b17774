// web/suits/materials.js: below the material chosen on Cane: what differs in the work, and what can hurt.

import { h } from '../widgets/dom.js';
import { PLASTIC, cautions } from '../text/cautions.js';
import { ASK_PLASTIC, PLASTICS, POISONS, aboutMaterial, isPoison, materialOf } from './words.js';

/** @param {Desk} desk */
export function materials(desk) {
  const title = h('summary', {});
  const parts = h('div', {});
  const element = h('details', { class: 'material' }, title, parts);
  /** @type {string | null} */
  let shown = null;
  desk.store.subscribe((s) => {
    const material = String(desk.value(s, 'tube.material') ?? '');
    if (material === shown) return;
    shown = material;
    const about = materialOf(material);
    title.textContent = aboutMaterial(material);
    if (isPoison(material)) element.open = true;
    /** @param {string[]} lines */
    const list = (lines) => h('ul', {}, ...lines.map((line) => h('li', {}, line)));
    parts.replaceChildren(...(about?.kind === 'plastic' ? [h('p', {}, ASK_PLASTIC, ' ', ...PLASTICS.map((name) => h('button',
      { type: 'button', class: 'inline', onclick: () => desk.set('tube.material', name) }, name)))] : []),
    list(about?.work ?? []),
    h('ul', { class: 'hazards' }, ...[...about?.hazards ?? [], ...(PLASTIC.test(material) ? [] : [POISONS])]
      .map(({ line, from }) => h('li', {}, line, ' ', h('span', { class: 'small' }, `(${from})`)))),
    ...cautions(material).flatMap((group) => [h('h4', {}, group.title), list(group.lines)]));
  });
  return element;
}

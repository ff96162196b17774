// web/widgets/primary.js: the one large button of what is being done.

import { h } from './dom.js';

const ARMED_MS = 450;  // a second tap meant for the button before must not press this one

/** @param {string} label @param {() => void} act @param {string} [kind] */
export function primary(label, act, kind = '') {
  const button = h('button', { type: 'button', class: `primary ${kind}`, disabled: true, onclick: act },
    label);
  setTimeout(() => { button.disabled = false; }, ARMED_MS);
  return button;
}

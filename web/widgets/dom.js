// web/widgets/dom.js: makes elements. Text only ever goes in as text.

const SVG = 'http://www.w3.org/2000/svg';

/** Lets the browser paint and heed a touch before what comes next. @returns {Promise<void>} */
export const pause = () => new Promise((on) => { setTimeout(on); });

/** @typedef {Node | string | null | false} Child */
/** @typedef {Record<string, string | number | boolean | null | undefined
 *   | ((event: any) => void)>} Props */

/**
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} tag @param {Props} [props] `onclick` and the like are listeners, the rest attributes
 * @param {...Child} children
 * @returns {HTMLElementTagNameMap[K]}
 */
export function h(tag, props = {}, ...children) {
  return fill(document.createElement(tag), props, children);
}

/**
 * @template {keyof SVGElementTagNameMap} K
 * @param {K} tag @param {Props} [props] @param {...Child} children
 * @returns {SVGElementTagNameMap[K]}
 */
export function s(tag, props = {}, ...children) {
  return fill(document.createElementNS(SVG, tag), props, children);
}

/**
 * @template {Element} E
 * @param {E} element @param {Props} props @param {Child[]} children
 */
function fill(element, props, children) {
  for (const [name, value] of Object.entries(props)) {
    if (typeof value === 'function') element.addEventListener(name.slice(2), value);
    else if (value !== undefined && value !== null && value !== false) {
      element.setAttribute(name, value === true ? '' : String(value));
    }
  }
  element.append(...children.filter((child) => child !== null && child !== false));
  return element;
}

let ids = 0;
/** @param {string} stem */
export const newId = (stem) => `${stem}-${++ids}`;

/** Sets text only where it differs, so that a screen reader hears changes and nothing else.
 * @param {Element} element @param {string} text */
export function say(element, text) {
  if (element.textContent !== text) element.textContent = text;
}

/** @type {WeakMap<Element, number>} */
const waits = new WeakMap();

/** That it is being reckoned, and after a second for how long. Only the first is read out.
 * @param {HTMLElement} element @param {boolean} working */
export function waited(element, working) {
  if (working === waits.has(element)) return;
  clearInterval(waits.get(element));
  waits.delete(element);
  element.textContent = working ? 'Reckoning …' : '';
  if (!working) return;
  const time = h('span', { 'aria-hidden': 'true' });
  element.append(time);
  let seconds = 0;
  waits.set(element, setInterval(() => say(time, ` ${seconds += 1} s`), 1000));
}

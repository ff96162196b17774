// web/widgets/fraction_keys.js: what a phone's keypad for figures lacks, under the entry in hand: a space, and
// the fractions of an inch. One row for the whole page: it goes where it is wanted.

import { h } from './dom.js';

const row = h('div', { role: 'group', 'aria-label': 'Fraction keys', class: 'fraction-keys' });
/** @type {HTMLInputElement | null} */
let into = null;
let finest = 0;
// The page's policy allows no style in the text of a page, but from a script.
Object.assign(row.style, { display: 'grid', gridColumn: '1 / -1', gridTemplateColumns: 'repeat(auto-fit, minmax(2.75rem, 1fr))',
  gap: '2px', margin: '.3rem 0', flexBasis: '100%' });

/** @param {string} text @param {string} shown @param {string} name */
function key(text, shown, name) {
  const button = h('button', { type: 'button', class: 'take', 'aria-label': name, tabindex: '-1',
    // The entry keeps the focus, so that the keypad stays.
    onpointerdown: (/** @type {Event} */ event) => event.preventDefault(),
    onclick: () => {
      if (into === null) return;
      into.focus();
      into.setRangeText(text, into.selectionStart ?? into.value.length, into.selectionEnd ?? into.value.length, 'end');
      into.dispatchEvent(new Event('input', { bubbles: true }));
    } }, shown);
  Object.assign(button.style, { margin: '0', padding: '0', fontSize: text === ' ' ? '.75em' : '' });
  return button;
}

/** Puts the keys under an entry. @param {Element} line @param {HTMLInputElement} input
 * @param {number} fraction the finest that is wanted: 16, 32, 64 */
export function under(line, input, fraction) {
  into = input;
  if (finest !== fraction) {
    finest = fraction;
    const parts = [2, 4, 8, 16, 32, 64].filter((n) => n <= fraction);
    row.replaceChildren(key(' ', 'space', 'space'), ...parts.map((n) => key(`/${n}`, `/${n}`, `over ${n}`)));
  }
  if (row.parentElement !== line) line.append(row);
}

// web/voice/cut/worth.js: what a millimetre of each size of the voice does to the lowest note.

/// <reference path="../types.d.ts" />
import { h, s as svg, say } from '../../widgets/dom.js';
import { FLATTER, SHARPER, WORTH, ruled, worthCents, worthName, worthWords } from './words.js';

const WIDTH = 340;
const ROW = 36;
const TOP = 22;
const BAR = 9;      // its height, below the words of its row
const REACH = 160;  // of the longest, either way of the middle

/** @param {VoiceSession} session */
export function worth(session) {
  const picture = h('div', { class: 'worth-holder' });
  const words = h('p', { class: 'note' });
  const heading = h('summary');
  // A long picture: where the page is one column it waits until it is asked for.
  const element = h('details', { class: 'worths', open: matchMedia('(min-width: 1080px)').matches }, heading, picture, words);
  session.watch((s, v) => [v.now, s.doc.show], (s, v) => {
    const [step, mm] = ruled(s);
    const parts = ranked(v.now?.as_cut.parts ?? [], mm);
    element.hidden = parts.length === 0;
    const said = parts.length === 0 ? '' : worthWords(parts, step);
    say(heading, WORTH(step));
    say(words, said);
    picture.replaceChildren(...(parts.length === 0 ? [] : [drawing(parts, `${WORTH(step)}. ${said}`)]));
  });
  return element;
}

/** By size, the largest first. @param {CutPart[]} parts @param {number} mm of the step */
export function ranked(parts, mm) {
  return parts.flatMap(({ path, cents_per_mm: slope }) => (slope === null ? []
    : [{ path, name: worthName(path), cents: slope * mm }])).sort((a, b) => Math.abs(b.cents) - Math.abs(a.cents));
}

/** @param {ReturnType<typeof ranked>} parts @param {string} said */
export function drawing(parts, said) {
  const most = Math.max(...parts.map(({ cents }) => Math.abs(cents)), 1e-9);
  const middle = WIDTH / 2;
  const bottom = TOP + parts.length * ROW;
  return svg('svg', { viewBox: `0 0 ${WIDTH} ${bottom + 4}`, class: 'worth', role: 'img', focusable: 'false', 'aria-label': said },
    label(0, 12, 'start', FLATTER), label(WIDTH, 12, 'end', SHARPER),
    ...parts.flatMap(({ name, cents }, n) => {
      const y = TOP + n * ROW;
      const wide = Math.round(10 * REACH * Math.abs(cents) / most) / 10;
      return [label(0, y + 15, 'start', name), label(WIDTH, y + 15, 'end', worthCents(cents)),
        svg('rect', { x: cents < 0 ? middle - wide : middle, y: y + 20, width: wide, height: BAR })];
    }),
    svg('path', { d: parts.map((_, n) => `M${middle} ${TOP + n * ROW + 18}v${BAR + 4}`).join('') }));
}

/** @param {number} x @param {number} y @param {string} anchor @param {string} words */
const label = (x, y, anchor, words) => svg('text', { x, y, 'text-anchor': anchor, 'font-size': 13 }, words);

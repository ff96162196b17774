// web/bench/meter.js: how far to go, large, in figure and word first, as a place on a scale second.

import { h, s, say } from '../widgets/dom.js';
import { NOT_BLOWN, SCALE, meterWord } from './words.js';

const FLATTEST = -60;  // the scale's ends [cents from where to stop]
const SHARPEST = 20;

export function meter() {
  const still = matchMedia('(prefers-reduced-motion: reduce)');
  const size = h('span', { class: 'go-size' });
  const word = h('span', { class: 'go-word' });
  const mark = s('path', { class: 'here', d: 'M0 13 l-5 9 h10 z' });
  const scale = s('svg', { class: 'scale', viewBox: `${FLATTEST - 5} 0 ${SHARPEST - FLATTEST + 10} 28`,
    'aria-hidden': 'true' },
  s('rect', { x: 0, y: 4, width: SHARPEST, height: 7, class: 'beyond' }),
  s('line', { x1: FLATTEST, y1: 11, x2: SHARPEST, y2: 11, class: 'rail' }),
  ...[-60, -50, -40, -30, -20, -10, 10, 20].map((c) => s('line', { x1: c, y1: c % 20 === 0 ? 6 : 8, x2: c,
    y2: 11, class: 'rail' })),
  ...SCALE.map(([c, words]) => s('text', { x: c, y: 27, 'text-anchor': c === FLATTEST ? 'start' : c === SHARPEST ? 'end'
    : 'middle' }, words)),
  s('line', { x1: 0, y1: 0, x2: 0, y2: 12, class: 'stop-here' }), mark);
  return {
    element: h('div', { class: 'meter' }, h('p', { class: 'go' }, size, word), scale),
    /** @param {number | null} cents from where to stop, below 0 flat; null: nothing heard yet
     * @param {boolean} live heard at this moment */
    show(cents, live) {
      const whole = cents === null ? null : Math.round(cents);
      say(size, whole === null ? '' : String(Math.abs(whole)));
      say(word, whole === null ? NOT_BLOWN : meterWord(whole));
      if (live && still.matches) return;
      const at = Math.max(FLATTEST, Math.min(SHARPEST, cents ?? FLATTEST));
      mark.setAttribute('transform', `translate(${at.toFixed(1)} 0)`);
      mark.toggleAttribute('hidden', cents === null);
      mark.classList.toggle('live', live);
    },
  };
}

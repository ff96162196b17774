// web/voice/drawn.js: the section drawn to scale, mouth at the top, with the terms written beside it.

/// <reference path="./types.d.ts" />
import { h, s as svg } from '../widgets/dom.js';
import { sectionOf, spaced } from '../widgets/section.js';
import { CUT_OPEN, DASHED, TERMS, drawnWords, sizeWords } from './words.js';

const EDGE_PX = 3;
const LABELS = 10.5;      // rem, of the column with the terms
const MOST_PX_MM = 6;
const MOST_PX = 30 * 16;

/** @param {VoiceSession} session */
export function drawn(session) {
  const holder = h('div', { class: 'cut-open' });
  const dashed = h('p', { class: 'note' }, DASHED);
  let width = 0;
  const draw = () => {
    const { of, now } = session.voice.get();
    const s = session.desk.store.get();
    if (width < 60) return;
    // What is answered and what is shown of it may be a moment apart; they are of one document then.
    const section = sectionOf(of ?? s.answer, now);
    dashed.hidden = !section.terms.some((term) => term.dashed);
    holder.replaceChildren(picture(section, Math.min(width, MOST_PX), s, session.engine));
  };
  session.watch((s, v) => [v.now, v.of ?? s.answer, s.doc.show, width], draw);
  // Also when the letters or the page have another size.
  new ResizeObserver(() => {
    if (Math.abs(holder.clientWidth - width) < 1) return;
    width = holder.clientWidth;
    requestAnimationFrame(draw);  // it has another height then, which the observer would have to tell itself
  }).observe(holder);
  return h('section', { 'aria-label': CUT_OPEN }, h('h3', {}, CUT_OPEN), holder, dashed);
}

/** @param {import('../widgets/section.js').Section} section @param {number} width [px] @param {State} s
 * @param {Engine} engine */
function picture(section, width, s, engine) {
  const rem = parseFloat(getComputedStyle(document.documentElement).fontSize);
  const labels = Math.min(LABELS * rem, width * 0.57);
  const letter = Math.min(rem * 0.94, labels / 14.8);
  const scale = Math.min(MOST_PX_MM, (width - labels - 2 * EDGE_PX) / (section.high - section.low));
  const row = letter * 1.6;
  const height = Math.max((section.to - section.from) * scale, row * section.terms.length) + 2 * EDGE_PX;
  /** @param {number} up */
  const x = (up) => EDGE_PX + (up - section.low) * scale;
  /** @param {number} at */
  const y = (at) => EDGE_PX + (at - section.from) * scale;
  const right = x(section.high);
  const column = right + letter * 1.6;
  const rows = spaced(section.terms.map((term) => y(term.at)), row, height);
  const words = section.terms.map((term) => `${TERMS[term.what]}${term.mm === null ? '' : ` ${
    sizeWords(term.path, term.mm, s, engine)}`}`);
  return svg('svg', { width, height, viewBox: `0 0 ${width} ${height}`, class: 'opened', role: 'img', focusable: 'false',
    'aria-label': drawnWords(words.filter((_, i) => !section.terms[i].dashed),
      words.filter((_, i) => section.terms[i].dashed)) },
  ...section.bodies.map(({ what, points, dashed }) => svg('path', { class: `${what.replace(' ', '-')}${
    dashed ? ' dashed' : ''}`, d: `M${points.map(([at, up]) => `${round(x(up))} ${round(y(at))}`).join('L')}Z` })),
  ...ends(section, x, y),
  ...section.terms.map((term, i) => svg('path', { class: 'leader', d: `M${round(x(term.up))} ${round(y(term.at))}L${
    round(right + 3)} ${round(rows[i])}H${round(column - 4)}` })),
  ...section.terms.map((term) => svg('circle', { class: 'at', cx: round(x(term.up)), cy: round(y(term.at)), r: 1.8 })),
  ...section.terms.map((term, i) => svg('text', { x: round(column), y: round(rows[i] + letter * 0.35),
    'font-size': round(letter) }, TERMS[term.what], term.mm === null ? null : svg('tspan', { dx: letter * 0.4,
    class: term.dashed ? 'guess' : 'size' }, sizeWords(term.path, term.mm, s, engine)))));
}

/** Where the tube goes on, it is broken off. @param {import('../widgets/section.js').Section} section
 * @param {(up: number) => number} x @param {(at: number) => number} y */
function ends({ from, to, low, broken }, x, y) {
  return [...(broken ? [from] : []), to].map((at) => svg('path', { class: 'break',
    d: Array.from({ length: 9 }, (_, i) => `${i === 0 ? 'M' : 'L'}${round(x(low - 2 * low * i / 8))} ${
      round(y(at) + (i % 2 === 0 ? 0 : at === to ? -5 : 5))}`).join('') }));
}

/** @param {number} px */
const round = (px) => Math.round(px * 10) / 10;

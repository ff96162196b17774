// web/voice/making/steps_drawn.js: the steps of making a voice as drawings, one style for all.

/// <reference path="../types.d.ts" />
import { h, s as svg } from '../../widgets/dom.js';
import { laidOut } from './steps_laid.js';
import { stepsOf } from './steps_views.js';
import { DRAWN, DRAWN_STEPS } from './words.js';

const MOST_PX = 24 * 16;
/** On paper two beside each other, four to a page, in letters of 7.5 points. */
const PRINTED_PX = 250;
const PRINTED_LETTER_PX = 10;

/** A figure a step, drawn anew with the tube's sizes and with the room there is. @param {VoiceSession} session */
export function stepsDrawn(session) {
  const figures = DRAWN_STEPS.map(() => h('div', { class: 'made' }));
  let width = 0;
  /** @param {number} room @param {number} letter [px] */
  const drawIn = (room, letter) => {
    const { of, now } = session.voice.get();
    stepsOf(of ?? session.desk.store.get().answer, now).forEach(({ views }, i) => figures[i].replaceChildren(
      picture(laidOut(views, room, letter, (what) => DRAWN[what]), letter, DRAWN_STEPS[i])));
  };
  const draw = () => {
    const rem = parseFloat(getComputedStyle(document.documentElement).fontSize);
    if (width >= 60) drawIn(width, Math.min(rem * 0.9, width / 20));
  };
  addEventListener('beforeprint', () => {
    if (session.desk.store.get().station === 'voice') drawIn(PRINTED_PX, PRINTED_LETTER_PX);
  });
  addEventListener('afterprint', draw);
  session.watch((s, v) => [v.now, v.of ?? s.answer, width], draw);
  new ResizeObserver(() => {
    const room = Math.min(figures[0].clientWidth, MOST_PX);
    if (Math.abs(room - width) < 1) return;
    width = room;
    requestAnimationFrame(draw);  // it has another height then, which the observer would have to tell itself
  }).observe(figures[0]);
  return figures;
}

/** @param {import('./steps_laid.js').Laid} laid @param {number} letter [px] @param {string} label */
function picture({ width, height, lines, words, dots }, letter, label) {
  const shapes = lines.filter(({ what }) => what !== 'leader');
  const leaders = lines.filter(({ what }) => what === 'leader');
  return svg('svg', { width: round(width), height: round(height), viewBox: `0 0 ${round(width)} ${round(height)}`, role: 'img',
    focusable: 'false', 'aria-label': label },
  ...shapes.flatMap(drawnLine), ...leaders.flatMap(drawnLine),
  ...dots.map(([cx, cy]) => svg('circle', { class: 'at', cx: round(cx), cy: round(cy), r: 2 })),
  ...words.map(({ what, text, x, y }) => svg('text', { class: what, x: round(x), y: round(y), 'text-anchor': 'middle',
    'font-size': round(what === 'whither' ? letter * 0.88 : letter) }, text)));
}

/** @param {import('./steps_laid.js').Line} line */
function drawnLine({ what, points, closed, head }) {
  const d = `M${points.map(([x, y]) => `${round(x)} ${round(y)}`).join('L')}${closed ? 'Z' : ''}`;
  if (!head) return [svg('path', { class: what, d })];
  const [[x0, y0], [x1, y1]] = points.slice(-2);
  const turn = Math.atan2(y1 - y0, x1 - x0);
  /** @param {number} back @param {number} side */
  const corner = (back, side) => `${round(x1 - back * Math.cos(turn) - side * Math.sin(turn))} ${
    round(y1 - back * Math.sin(turn) + side * Math.cos(turn))}`;
  const arrow = `M${round(x1)} ${round(y1)}L${corner(9, 4.5)}L${corner(9, -4.5)}Z`;
  return [svg('path', { class: `${what} halo`, d }), svg('path', { class: what, d }), svg('path', { class: `${what} head`, d: arrow })];
}

/** @param {number} px */
const round = (px) => Math.round(px * 10) / 10;

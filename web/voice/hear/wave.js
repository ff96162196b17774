// web/voice/hear/wave.js: pressure and flow along the tube for the note that was chosen.

/// <reference path="../types.d.ts" />
import { h, s as svg, say } from '../../widgets/dom.js';
import { AIR, FLOW, FOOT, PRESSURE, SOUND_HOLE, pictureAria, waveWords } from './words.js';

const WIDTH = 600;
const HEIGHT = 230;
const EDGE = 8;
const MIDDLE = 105;   // of the curves
const SWING = 78;     // their greatest
const TUBE = 200;     // the tube's middle, its bore beside
const BORE = 9;

/** @param {VoiceSession} session @param {{watch: (show: (note: Playable | null) => void) => void}} chosen */
export function wave(session, chosen) {
  const picture = h('div', { class: 'wave-holder' });
  const words = h('p', { class: 'note' });
  const element = h('section', { 'aria-label': AIR }, h('h3', {}, AIR), picture, words);
  let asked = 0;
  chosen.watch((note) => {
    asked += 1;
    element.hidden = note === null;
    const mine = asked;
    if (note === null) return;
    void session.ask.wave({ document: note.of, open: note.open, register: note.register }).then((reply) => {
      if (mine !== asked || !reply.answer) return;
      const s = session.desk.store.get();
      const said = waveWords(note.name, note.open, reply.answer, s, session.engine);
      say(words, said);
      picture.replaceChildren(...(reply.answer.hz === null ? [] : [drawing(note, reply.answer, said)]));
    });
  });
  return element;
}

/** @param {Playable} note @param {WaveAnswer} answer @param {string} said */
export function drawing(note, answer, said) {
  const last = answer.at_mm[0];
  /** @param {number} mm from the sound hole, to the right */
  const x = (mm) => round(EDGE + mm / last * (WIDTH - 2 * EDGE));
  /** @param {number[]} sizes */
  const curve = (sizes) => `M${answer.at_mm.map((mm, i) => `${x(mm)} ${round(MIDDLE - SWING * sizes[i])}`).join('L')}`;
  const holes = (note.of.finger_holes ?? []).map((hole, i) => ({ at: hole.at_mm, wide: hole.diameter_mm,
    open: note.open.includes(i + 1) }));
  const top = TUBE - BORE;
  return svg('svg', { viewBox: `0 0 ${WIDTH} ${HEIGHT}`, class: 'wave', role: 'img', focusable: 'false',
    'aria-label': pictureAria(note.name, said) },
  svg('path', { class: 'axis', d: `M${EDGE} ${MIDDLE}H${WIDTH - EDGE}` }),
  svg('path', { class: 'pressure', d: curve(answer.pressure) }),
  svg('path', { class: 'flow', d: curve(answer.flow) }),
  svg('path', { class: 'tube', d: `M${EDGE} ${top}V${TUBE + BORE}H${WIDTH - EDGE}M${EDGE + 10} ${top}H${WIDTH - EDGE}` }),
  ...holes.map(({ at, wide, open }) => svg('ellipse', { class: open ? 'open' : 'covered', cx: x(at), cy: top,
    rx: Math.max(3, round(wide / 2 / last * (WIDTH - 2 * EDGE))), ry: 3.5 })),
  ...holes.filter(({ open }) => open).map(({ at }) => svg('path', { class: 'axis', d: `M${x(at)} ${top - 5}V28` })),
  label(EDGE, HEIGHT - 4, 'start', SOUND_HOLE), label(WIDTH - EDGE, HEIGHT - 4, 'end', FOOT),
  svg('path', { class: 'pressure', d: `M${WIDTH / 2 - 130} 10h34` }), label(WIDTH / 2 - 90, 15, 'start', PRESSURE),
  svg('path', { class: 'flow', d: `M${WIDTH / 2 + 20} 10h34` }), label(WIDTH / 2 + 60, 15, 'start', FLOW));
}

/** @param {number} x @param {number} y @param {string} anchor @param {string} words */
const label = (x, y, anchor, words) => svg('text', { x, y, 'text-anchor': anchor, 'font-size': 17 }, words);
/** @param {number} px */
const round = (px) => Math.round(px * 10) / 10;

// web/voice/voice.js: the station Voice: the tube's upper half, the breath it wants, and what to do when it
// does not sound right.

/// <reference path="./types.d.ts" />
import { h } from '../widgets/dom.js';
import { above } from './above.js';
import { begin } from './begin.js';
import { breath } from './breath/breath.js';
import { asCut } from './cut/cut.js';
import { drawn } from './drawn.js';
import { faults } from './making/faults.js';
import { hear } from './hear/hear.js';
import { jumps } from './jumps.js';
import { making } from './making/making.js';
import { createSession } from './session.js';
import { stands } from './stands.js';
import { wave } from './hear/wave.js';
import { worth } from './cut/worth.js';

/** @param {Desk} desk @returns {Promise<Node[]>} */
export async function voice(desk) {
  const [workshop] = await Promise.all([desk.engine.workshop(), style()]);
  const session = createSession(desk, workshop);
  /** @type {((note: Playable | null) => void)[]} */
  const shows = [];
  const air = wave(session, { watch: (show) => { shows.push(show); } });
  const heard = hear(session, (note) => shows.forEach((show) => show(note)));
  const [section, breaths, made, wrong] = [drawn(session), breath(session), making(session), faults(session)];
  return [h('div', { class: 'voice-room' },
    h('div', { class: 'voice-sizes' }, stands(session), jumps(section, breaths, heard, made, wrong), asCut(session), worth(session), begin(session), above(session)),
    h('div', { class: 'voice-seen' }, section, breaths, heard, air),
    h('div', { class: 'voice-made' }, made, wrong))];
}

/** The room's own sheet, once. @returns {Promise<void>} */
function style() {
  return new Promise((loaded) => {
    // canewright.html has every sheet in itself already.
    if (getComputedStyle(document.documentElement).getPropertyValue('--voice') !== '') return loaded();
    document.head.append(h('link', { rel: 'stylesheet', href: 'style-voice.css',
      onload: () => loaded(), onerror: () => loaded() }));
  });
}

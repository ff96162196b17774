// web/voice/stands.js: how this voice stands: the breath it wants, and what its shape does to the pitch.

/// <reference path="./types.d.ts" />
import { h } from '../widgets/dom.js';
import { adviceWords, TAKE_CARE, breathWanted, jetOf, shapeWords, troubleWords } from './words.js';

/** @param {VoiceSession} session */
export function stands(session) {
  const { engine } = session;
  const element = h('div', { class: 'verdict', role: 'status' });
  let shown = '';
  session.watch((s, v) => [v, s.doc.show], (s, v) => {
    const lines = v.now === null ? [] : [breathWanted(v.now), shapeWords(v.now.as_cut)];
    const cares = (v.now?.advice ?? []).filter((one) => !saidAlready(one, v.now))
      .map((one) => adviceWords(one, s, engine)).filter(Boolean);
    const wrong = troubleWords(v, s, engine);
    const text = JSON.stringify([lines, cares, wrong]);
    if (text === shown) return;
    shown = text;
    element.replaceChildren(...lines.filter(Boolean).map((words, i) => h('p',
      { class: i === 0 ? 'first' : '' }, words)),
      ...cares.map((words) => h('p', { class: 'care' }, h('strong', {}, TAKE_CARE), words)),
      ...(wrong === '' ? [] : [h('p', { class: 'wrong' }, wrong)]));
  });
  return element;
}

/** The number for which there is no map stands in the first sentence. @param {Measure} one
 * @param {VoiceAnswer | null} now */
function saidAlready({ code }, now) {
  const out = now === null ? null : jetOf(now);
  const same = { reynolds_low: 'reynolds', jet_fast: 'fast_jet' }[code ?? ''];
  return same !== undefined && out?.band === 'out' && out.why?.code === same;
}

// web/voice/session.js: asks the core about the voice of the flute that is laid out, while the station is open.

/// <reference path="./types.d.ts" />
import { newestNext } from '../engine/newest.js';
import { createStore, unchanged } from '../state/store.js';

/** @param {Desk} desk @param {Workshop} workshop */
export function createSession(desk, workshop) {
  /** @type {VoiceState} */
  const begin = { now: null, of: null, problems: [], fault: '' };
  const voice = createStore(begin);
  const ask = newestNext((/** @type {Answer} */ answer) => workshop.voice(answer), (reply, of) =>
    voice.change((v) => (reply.answer ? { now: reply.answer, of, problems: [], fault: '' }
      : { ...v, problems: reply.violations ?? [], fault: reply.fault ?? '' })), () => workshop.stop('voice'));
  /** @type {Answer | null} */
  let asked = null;
  desk.store.subscribe((s) => {
    if (s.station !== 'voice' || s.answer === asked) return;
    asked = s.answer;
    void ask(s.answer);
  });

  return {
    desk, voice, engine: desk.engine, ask: workshop,

    /** Shows something anew when what it is made of has changed; not while nobody looks.
     * @param {(s: State, v: VoiceState) => unknown[]} of @param {(s: State, v: VoiceState) => void} show */
    watch(of, show) {
      /** @type {unknown[] | null} */
      let shown = null;
      const look = () => {
        const s = desk.store.get();
        if (s.station !== 'voice') return;
        const v = voice.get();
        const now = of(s, v);
        if (shown !== null && unchanged(now, shown)) return;
        shown = now;
        show(s, v);
      };
      desk.store.subscribe(look);
      voice.subscribe(look);
    },
  };
}

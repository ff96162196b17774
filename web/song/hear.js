// web/song/hear.js: the scale as laid out, to hear before a hole is drilled.

import { h, say } from '../widgets/dom.js';
import { AS_LAID_OUT, HEAR, STOP } from './words.js';

/** @param {Desk} desk */
export function hear(desk) {
  /** @type {(() => void) | null} */
  let stop = null;
  /** Begun by the touch itself: some browsers let nothing sound else. @type {AudioContext | null} */
  let audio = null;
  const button = h('button', { type: 'button', class: 'hear', onclick: () => {
    if (stop !== null) stop();
    else {
      void start().catch(() => {
        stop = null;
        say(button, HEAR);
      });
    }
  } }, HEAR);
  const now = h('span', { class: 'sounding', 'aria-hidden': 'true' });

  async function start() {
    say(button, STOP);
    audio ??= new AudioContext();
    void audio.resume();
    let ended = false;
    stop = () => { ended = true; };
    const { playScale } = await import('./tones.js');
    stop = null;
    if (ended) return say(button, HEAR);
    stop = playScale(audio, desk.store.get().answer.notes, (name) => {
      say(now, name ?? AS_LAID_OUT);
      if (name !== null) return;
      stop = null;
      say(button, HEAR);
    });
  }
  say(now, AS_LAID_OUT);
  return h('div', { class: 'hearing' }, button, now);
}

// web/ear/hearing.js: the ear on the page: its button, its level, what it says.

/// <reference path="./types.d.ts" />
import { h, s, say } from '../widgets/dom.js';
import { primary } from '../widgets/primary.js';
import { hearWords } from './tell.js';
import { COPIED, COPY_ADDRESS, COPY_YOURSELF, FILTERED, HOW_LOUD, NO_MICROPHONE, NO_SOUND_SENT, START_LISTENING,
  STOP_LISTENING } from './words.js';

const SOFTEST_DB = -70;  // the left end of the level
const LOUDEST_DB = -3;
const CALM_MS = 350;     // a sentence stays at least so long: it is read, and read aloud

/**
 * @param {Listener} listener @param {number} hz expected, 0: not known
 * @param {{take: (tone: HeldTone) => void, heard: (hearing: Hearing) => void, pressed?: () => void}} to
 */
export function hearing(listener, hz, to) {
  let said_ms = 0;
  let wanted = true;  // the large button, while there is nothing better to press
  const button = primary(START_LISTENING, () => {
    to.pressed?.();
    if (listener.get().on === 'off') void listener.start();
    else listener.stop();
  });
  const bar = s('rect', { x: 0, y: 0, width: 0, height: 6, class: 'loud' });
  const level = s('svg', { viewBox: '0 0 100 6', preserveAspectRatio: 'none', class: 'level', role: 'img',
    'aria-label': HOW_LOUD }, s('rect', { x: 0, y: 0, width: 100, height: 6, class: 'room' }), bar);
  const status = h('p', { class: 'hears', role: 'status' });
  const filtered = h('p', { class: 'note' }, FILTERED);
  const copy = h('button', { type: 'button', class: 'plain', onclick: async () => {
    await navigator.clipboard.writeText(location.href).then(() => say(copy, COPIED), () => {
      say(copy, COPY_YOURSELF);
    });
  } }, COPY_ADDRESS);
  const stays = h('p', { class: 'note stays' }, NO_SOUND_SENT);

  /** @param {Hearing} now */
  function show(now) {
    const on = now.on !== 'off';
    say(button, on ? STOP_LISTENING : START_LISTENING);
    button.className = on || !wanted ? 'second' : 'primary';
    level.toggleAttribute('hidden', now.on !== 'on');
    const db = now.frame?.level_db ?? SOFTEST_DB;
    const share = Math.max(0, Math.min(1, (db - SOFTEST_DB) / (LOUDEST_DB - SOFTEST_DB)));
    bar.setAttribute('width', String(Math.round(share * 100)));
    const words = hearWords(now);
    if (words !== status.textContent && (now.taken || !on || performance.now() - said_ms > CALM_MS)) {
      say(status, words);
      said_ms = performance.now();
    }
    filtered.hidden = !now.filtered;
    copy.hidden = !now.trouble.startsWith(NO_MICROPHONE) || navigator.clipboard === undefined;
    to.heard(now);
  }
  const withdraw = listener.serve(hz, to.take);
  const unsubscribe = listener.subscribe(show);
  return {
    element: h('div', { class: 'hearing-part' }, level, status, filtered, copy, button, stays),
    /** @param {boolean} is */
    main(is) {
      wanted = is;
      show(listener.get());
    },
    remove() {
      withdraw();
      unsubscribe();
    },
  };
}

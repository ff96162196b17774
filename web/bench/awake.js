// web/bench/awake.js: keeps the screen on while a flute is being built and the bench is in sight.

/// <reference path="./types.d.ts" />
import { h, newId, say } from '../widgets/dom.js';
import { NOT_ALLOWED_NOW, SCREEN_STAYS_ON } from './words.js';

/** @param {Session} session */
export function awake(session) {
  const { desk } = session;
  const id = newId('w');
  const box = h('input', { type: 'checkbox', id, onchange: () => {
    session.keep({ awake: box.checked });
    void follow();
  } });
  box.checked = session.aside().awake !== false;
  const note = h('span', { class: 'small', role: 'status' });
  const element = h('p', { class: 'awake' }, box, h('label', { for: id }, SCREEN_STAYS_ON), note);
  /** @type {WakeLockSentinel | null} */
  let lock = null;
  let asking = false;
  const wanted = () => session.aside().awake !== false && desk.store.get().station === 'bench'
    && !document.hidden;

  /** @param {string} words */
  const tell = (words) => {
    say(note, words);
    element.classList.toggle('told', words !== '');
  };

  /** Asks for the lock or lets it go. Phones drop it when the page is hidden. */
  async function follow() {
    if (asking) return;
    asking = true;
    try {
      if (wanted() && (lock === null || lock.released)) lock = await navigator.wakeLock.request('screen');
      else if (!wanted()) {
        await lock?.release();
        lock = null;
      }
      tell('');
    } catch {
      tell(NOT_ALLOWED_NOW);
    } finally {
      asking = false;
    }
  }
  if (!('wakeLock' in navigator)) {
    element.hidden = true;
    return element;
  }
  document.addEventListener('visibilitychange', () => void follow());
  let station = '';
  desk.store.subscribe((s) => {
    if (s.station === station) return;
    station = s.station;
    void follow();
  });
  return element;
}

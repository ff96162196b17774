// web/bench/read_panel.js: three attempts at one fingering become a reading.

/// <reference path="./types.d.ts" />
import { h, say } from '../widgets/dom.js';
import { primary } from '../widgets/primary.js';
import { bare } from '../text/sure.js';
import { pattern } from '../ear/fingering.js';
import { room } from './entry.js';
import { hearing } from '../ear/hearing.js';
import { checklist } from './checklist.js';
import { typedLine } from './typed_line.js';
import { logOf, readEntry, standing } from './log.js';
import { expectedHz, fingeringWords } from './notes.js';
import { ATTEMPT_LIST, CLEAR, LOG_IT, LOG_READING, attempt, hzWithin, logFrom, outAttempt } from './words.js';

const ATTEMPTS = 3;

/** @param {Session} session @param {number[]} open @returns {Panel} */
export function readPanel(session, open) {
  const { desk, workshop, bench } = session;
  const { doc } = desk.store.get();
  const first = !logOf(doc).some((e) => e.read);
  const cut = standing(doc).holes.size;
  const expected = expectedHz(bench.get().next, open);
  const big = h('p', { class: 'big-hz', 'aria-hidden': 'true' });
  const slots = h('ol', { class: 'slots', 'aria-label': ATTEMPT_LIST });
  const middle = h('p', { class: 'middle', role: 'status' });
  const wrong = h('p', { class: 'wrong', role: 'alert' });
  const keep = primary(LOG_IT, () => void log());
  const ear = hearing(session.listener, expected, {
    pressed: () => { session.typing = false; },
    take: (tone) => { if (tone.hz !== null) add(tone.hz); },
    heard: (now) => {
      const hz = now.on === 'on' && now.held !== null ? now.held.hz : null;
      big.hidden = now.on !== 'on';
      say(big, hz === null ? '–' : hz.toFixed(1));
    },
  });
  /** @type {{hz: number, sigma_cents: number, scatter_cents: number, scatter_blows: number} | null} */
  let heard = null;
  const typed = typedLine(session, open, expected, add);
  const temperature = room(session);

  /** @param {number} hz */
  function add(hz) {
    const { attempts } = session.progress();
    if (attempts.length >= ATTEMPTS) return;
    session.proceed({ attempts: [...attempts, hz] });
    if (attempts.length + 1 === ATTEMPTS) session.listener.stop();
    void show();
  }
  /** @param {number} index */
  function drop(index) {
    session.proceed({ attempts: session.progress().attempts.filter((_, i) => i !== index) });
    void show();
  }
  async function show() {
    const { attempts } = session.progress();
    slots.replaceChildren(...Array.from({ length: ATTEMPTS }, (_, i) => h('li', {}, attempts[i] === undefined
      ? h('span', { class: 'empty' }, attempt(i + 1))
      : h('button', { type: 'button', class: 'slot', 'aria-label': outAttempt(i + 1, attempts[i].toFixed(1)),
        onclick: () => drop(i) },
      h('span', {}, attempts[i].toFixed(1)), h('span', { class: 'cross', 'aria-hidden': 'true' }, '×')))));
    ear.main(attempts.length === 0);
    ear.element.hidden = typed.element.hidden = attempts.length === ATTEMPTS;
    keep.hidden = attempts.length === 0;
    keep.className = attempts.length < ATTEMPTS ? 'second tall' : 'primary';
    heard = null;
    if (attempts.length === 0) return say(middle, '');
    const { answer } = await workshop.attempts({ hz: attempts, ...session.scatter() });
    if (JSON.stringify(session.progress().attempts) !== JSON.stringify(attempts)) return;
    heard = answer ?? null;
    if (answer === undefined) return;
    say(middle, hzWithin(answer.hz.toFixed(1), bare(answer.sigma_cents)));
    say(keep, attempts.length < ATTEMPTS ? logFrom(attempts.length, ATTEMPTS) : LOG_READING);
  }
  async function log() {
    const c = temperature.get();
    if (c === undefined || heard === null) return;
    session.listener.stop();
    const learned = heard;
    const sentence = await session.log([readEntry(open, heard, c.value)]);
    if (sentence === '') session.learn(learned);
    say(wrong, sentence);
  }
  void show();
  const blowing = h('div', {}, h('p', { class: 'clear' }, CLEAR), big, ear.element, slots, middle, keep, wrong,
    typed.element, temperature.element);
  return {
    element: h('div', { class: 'panel' },
      h('p', { class: 'fingering' }, pattern(open, doc.song.holes, standing(doc).holes),
        fingeringWords(open, cut)),
      first ? checklist(session, blowing) : null, blowing),
    remove() { ear.remove(); },
  };
}

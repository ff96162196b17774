// web/bench/ear_panel.js: open a little, clear, blow, look: until the note sounds as it should.

/// <reference path="./types.d.ts" />
import { h, say } from '../widgets/dom.js';
import { primary } from '../widgets/primary.js';
import { bare } from '../text/sure.js';
import { centsWords, signed } from '../text/numbers.js';
import { pattern } from '../ear/fingering.js';
import { length, room } from './entry.js';
import { hearing } from '../ear/hearing.js';
import { entriesByEar, standing } from './log.js';
import { meter } from './meter.js';
import { typedLine } from './typed_line.js';
import { care } from './care.js';
import { centsFrom, fingeringWords, soundWords } from './notes.js';
import { adviceWords, strokeWords } from './tell_ear.js';
import { BLOW_FIRST, FOOT_STROKE_IS, FORGET_BLOW, JUST_STOP, LIGHT_MORE, LOG_STOP, MADE_LIGHT, NO_ONLY_BLOWN,
  ONE_MORE, OPENED_UNTOLD, STROKE_IS, YES_OPENED, blownAgainst, blownFlatter, blownSharper, blowsTold,
  madeStrokes, markFor, noAdvice, shouldBe, sinceBlow, stopsLow, takeBack, CLEAR, FOOT_NOW_AT, HOLE_NOW_WIDE,
  ONLY_IF_MEASURED, WHEN_YOU_STOP } from './words.js';

const LIGHT = 0.4;      // of a stroke, as core/bench/strokes.hpp counts it
const WORTH_SAYING_CENTS = 1;

const LEAST_GUESS_MM = 0.5;
/** One standard deviation of a place between two. @param {number} apart_mm */
const guessed = (apart_mm) => Math.max(LEAST_GUESS_MM, Math.round(5 * Math.abs(apart_mm)) / 10);

/** @param {Session} session @param {NextStep} next @returns {Panel} */
export function earPanel(session, next) {
  const { desk, workshop, listener, bench } = session;
  const { doc } = desk.store.get();
  const { step } = next;
  const until = step.until ?? { open: [], hz: 0 };
  const { open, hz: stop_hz } = until;
  const stand = standing(doc);
  const dial = meter();
  const against = h('p', { class: 'against' });
  const allowance = h('p', { class: 'note' });
  const advice = h('p', { class: 'advice', role: 'status' });
  const means = h('p', { class: 'note' }, step.do === 'foot' ? FOOT_STROKE_IS : STROKE_IS);
  const asked = h('div', { class: 'pair', hidden: true },
    h('button', { type: 'button', class: 'second', onclick: () => tell('not told') }, YES_OPENED),
    h('button', { type: 'button', class: 'second', onclick: () => tell('tapped') }, NO_ONLY_BLOWN));
  const sum = h('p', { class: 'note blown' });
  const wrong = h('p', { class: 'wrong', role: 'alert' });
  /** @type {StrokeAdvice | null} */
  let now = null;

  const ear = hearing(listener, stop_hz, {
    pressed: () => { session.typing = false; },
    take: (tone) => { if (tone.hz !== null) blow(tone.hz); },
    heard: () => look(),
  });
  const made = primary('', () => stroke(now?.what === 'light' ? LIGHT : now?.count ?? 1), 'cutting');
  const keep = primary(LOG_STOP, () => void log());
  const one = h('button', { type: 'button', class: 'second', onclick: () => stroke(1) }, ONE_MORE);
  const light = h('button', { type: 'button', class: 'second', onclick: () => stroke(LIGHT) }, LIGHT_MORE);
  const back = h('button', { type: 'button', class: 'plain', onclick: () => undo() }, '');
  const typed = typedLine(session, open, stop_hz, blow);
  const temperature = room(session, () => show());
  const warmer = h('p', { class: 'note' });
  const place = step.do !== 'foot' ? null : length(session, { label: FOOT_NOW_AT, place: true,
    note: WHEN_YOU_STOP, mm: Math.min(step.at_mm ?? stand.foot_mm, stand.foot_mm) });
  const size = step.do !== 'hole' ? null : length(session, { label: HOLE_NOW_WIDE,
    note: ONLY_IF_MEASURED, optional: true });

  /** @param {number} hz */
  function blow(hz) {
    const { blows, strokes } = session.progress();
    session.proceed({ blows: [...blows, { strokes, hz }], strokes: 0 });
    void reckon();
  }
  /** @param {number} count */
  function stroke(count) {
    const { strokes } = session.progress();
    session.proceed({ strokes: Math.round((strokes + count) * 10) / 10 });
    show();
    typed.ready();
  }
  /** @param {'tapped' | 'not told'} tapping whether it was opened without a tap */
  function tell(tapping) {
    session.proceed({ tapping });
    void reckon();
  }
  /** The last thing done goes: strokes made since the last blow, else that blow. */
  function undo() {
    const { blows, strokes } = session.progress();
    const last = blows[blows.length - 1];
    if (strokes > 0) session.proceed({ strokes: 0 });
    else session.proceed({ blows: blows.slice(0, -1), strokes: last?.strokes ?? 0 });
    void reckon();
  }
  async function reckon() {
    const { blows, tapping } = session.progress();
    const before = JSON.stringify([blows, tapping]);
    const known = until.now_hz ? { now_hz: until.now_hz, now_sigma_cents: until.now_sigma_cents ?? undefined,
      moment_cents: until.moment_cents } : {};
    const reply = blows.length === 0 ? {}
      : await workshop.strokes({ blows, stop_hz, ...known, ...(tapping === undefined ? {} : { tapping }),
        ...session.scatter() });
    if (JSON.stringify([session.progress().blows, session.progress().tapping]) !== before) return;
    now = reply.answer ?? null;
    say(wrong, reply.fault === undefined ? '' : noAdvice(reply.fault));
    show();
  }
  function look() {
    const heard = listener.get();
    const live = heard.on === 'on' && heard.held?.hz !== undefined && heard.held.hz !== null
      && heard.held.state !== 'jumped' ? heard.held.hz : null;
    // What was just heard against what it should be now, and nothing else.
    const mark_hz = now?.mark_hz ?? stop_hz;
    const last = session.progress().blows.at(-1)?.hz ?? null;
    const shown = live ?? last;
    dial.show(shown === null ? null : 1200 * Math.log2(shown / mark_hz), live !== null);
    const should = soundWords(bench.get().next, open, mark_hz);
    say(against, last === null ? shouldBe(should) : blownAgainst(centsFrom(bench.get().next, open, last), should));
  }
  function show() {
    const { blows, strokes, tapping } = session.progress();
    const begun = blows.some((b) => b.strokes > 0);
    const asking = now?.opened_untold === true && strokes === 0;
    const cutting = !asking && strokes === 0 && (now?.what === 'more' || now?.what === 'light');
    const stopping = !asking && strokes === 0 && now?.what === 'stop';
    say(advice, asking ? OPENED_UNTOLD : strokes > 0 ? CLEAR : now === null ? BLOW_FIRST
      : tapping === 'not told' && cutting ? JUST_STOP : adviceWords(now, begun));
    asked.hidden = !asking;
    means.hidden = begun || !cutting;
    advice.classList.toggle('cutting', cutting);
    say(made, now?.what === 'light' ? MADE_LIGHT : madeStrokes(now?.count ?? 0));
    made.hidden = !cutting;
    keep.hidden = blows.length === 0 || strokes > 0;
    keep.className = stopping ? 'primary' : 'second tall';
    ear.main(!cutting && !stopping);
    one.hidden = light.hidden = blows.length === 0;
    back.hidden = blows.length === 0 && strokes === 0;
    say(back, strokes > 0 ? takeBack(strokeWords(strokes, LIGHT)) : FORGET_BLOW);
    say(sum, now === null ? '' : `${strokes > 0 ? `${sinceBlow(strokeWords(strokes, LIGHT))} ` : ''}${
      blowsTold(blows.length, signed(1200 * Math.log2(now.hz / now.mark_hz)), bare(now.sigma_cents),
        bare(now.cents_per_stroke))}`);
    const moved = now === null ? 0 : 1200 * Math.log2(now.mark_hz / stop_hz);
    const low = until.allowance_cents ?? 0;
    say(allowance, [moved >= WORTH_SAYING_CENTS ? blownSharper(centsWords(moved)) : '',
      moved <= -WORTH_SAYING_CENTS ? blownFlatter(centsWords(moved)) : '',
      low >= WORTH_SAYING_CENTS ? stopsLow(centsWords(low)) : ''].filter((t) => t !== '').join(' '));
    const { at_c: at } = next;
    // The mark is for the room of the last entry; about 3 cents a degree (air alone: 1200 log2 / 2T).
    warmer.hidden = at === undefined || Math.abs(session.room() - at) < 1;
    say(warmer, markFor(at));
    look();
  }
  async function log() {
    const c = temperature.get();
    const at = place?.get() ?? { value: undefined };
    const wide = size?.get() ?? { value: undefined };
    if (c === undefined || now === null || (place !== null && at.value === undefined)) return;
    listener.stop();
    const { blows } = session.progress();
    /** @type {AsMeasured} */
    const measured = { at_mm: at.value ?? stand.holes.get(step.number ?? 0)?.at_mm, diameter_mm: wide.value };
    // A place nobody measured is a guess: it may be anywhere between the mark and where it was.
    if (place?.touched() === false) measured.error_mm = guessed(stand.foot_mm - at.value);
    const cut = blows.some((b) => b.strokes > 0) || now.opened_untold || session.progress().tapping === 'not told';
    const learned = now;
    const sentence = await session.log(entriesByEar(step, measured, now, cut, c.value));
    if (sentence === '') session.learn(learned);
    say(wrong, sentence);
  }
  void reckon();
  show();
  return {
    element: h('div', { class: 'panel' },
      h('p', { class: 'fingering' }, pattern(open, doc.song.holes, stand.holes),
        fingeringWords(open, stand.holes.size)),
      dial.element, against, allowance, advice, asked, means, made, ear.element, keep,
      h('div', { class: 'pair' }, one, light), sum, back, wrong,
      care(desk, step), place?.element ?? null, size?.element ?? null, typed.element, temperature.element, warmer),
    remove() { ear.remove(); },
  };
}

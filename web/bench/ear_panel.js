// web/bench/ear_panel.js: open a little, clear, blow, look: until the note sounds as it should.

/// <reference path="./types.d.ts" />
import { h, say } from '../widgets/dom.js';
import { bare } from '../text/sure.js';
import { pattern } from './fingering.js';
import { length, primary, room } from './entry.js';
import { hearing } from './hearing.js';
import { entriesByEar, standing } from './log.js';
import { meter } from './meter.js';
import { typedLine } from './typed_line.js';
import { care } from './care.js';
import { fingeringWords } from './notes.js';
import { adviceWords, strokeWords } from './tell_ear.js';
import { BLOW_FIRST, CLEAR, FOOT_NOW_AT, FORGET_BLOW, HOLE_NOW_WIDE, LIGHT_MORE, LOG_STOP, MADE_LIGHT, ONE_MORE,
  ONLY_IF_MEASURED, WHEN_YOU_STOP, blowsTold, madeStrokes, markFor, noAdvice, sinceBlow, takeBack } from './words.js';

const LIGHT = 0.4;      // of a stroke, as core/bench/strokes.hpp counts it
const METER_CENTS = 4;  // one blow against the next; common practice, no source

const LEAST_GUESS_MM = 0.5;
/** One standard deviation of a place between two. @param {number} apart_mm */
const guessed = (apart_mm) => Math.max(LEAST_GUESS_MM, Math.round(5 * Math.abs(apart_mm)) / 10);

/** @param {Session} session @param {NextStep} next @returns {Panel} */
export function earPanel(session, next) {
  const { desk, workshop, listener } = session;
  const { doc } = desk.store.get();
  const { step } = next;
  const { open, hz: stop_hz } = step.until ?? { open: [], hz: 0 };
  const stand = standing(doc);
  const dial = meter();
  const advice = h('p', { class: 'advice', role: 'status' });
  const sum = h('p', { class: 'note blown' });
  const wrong = h('p', { class: 'wrong', role: 'alert' });
  /** @type {StrokeAdvice | null} */
  let now = null;

  const ear = hearing(session, stop_hz, {
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
    const { blows } = session.progress();
    const before = JSON.stringify(blows);
    const reply = blows.length === 0 ? {}
      : await workshop.strokes({ blows, stop_hz, meter_cents: METER_CENTS });
    if (JSON.stringify(session.progress().blows) !== before) return;
    now = reply.answer ?? null;
    say(wrong, reply.fault === undefined ? '' : noAdvice(reply.fault));
    show();
  }
  function look() {
    const heard = listener.get();
    const live = heard.on === 'on' && heard.held?.hz !== undefined && heard.held.hz !== null
      && heard.held.state !== 'jumped' ? heard.held.hz : null;
    const shown = live ?? now?.hz ?? null;
    dial.show(shown === null ? null : 1200 * Math.log2(shown / stop_hz), live !== null);
  }
  function show() {
    const { blows, strokes } = session.progress();
    const begun = blows.some((b) => b.strokes > 0);
    const cutting = strokes === 0 && (now?.what === 'more' || now?.what === 'light');
    const stopping = strokes === 0 && now?.what === 'stop';
    say(advice, strokes > 0 ? CLEAR : now === null ? BLOW_FIRST : adviceWords(now, begun));
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
      blowsTold(blows.length, bare(now.sigma_cents), bare(now.cents_per_stroke))}`);
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
    say(wrong, await session.log(entriesByEar(step, measured, now, blows.some((b) => b.strokes > 0), c.value)));
  }
  void reckon();
  show();
  return {
    element: h('div', { class: 'panel' },
      h('p', { class: 'fingering' }, pattern(open, doc.song.holes, stand.holes),
        fingeringWords(open, stand.holes.size)),
      dial.element, advice, made, ear.element, keep,
      h('div', { class: 'pair' }, one, light), sum, back, wrong,
      care(desk, step), place?.element ?? null, size?.element ?? null, typed.element, temperature.element, warmer),
    remove() { ear.remove(); },
  };
}

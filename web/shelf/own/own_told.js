// web/shelf/own/own_told.js: what a flute's readings say of it, and what may become of it.

import { h, newId, say } from '../../widgets/dom.js';
import { goTo } from '../../widgets/reveal.js';
import { noteName, offWords } from '../../text/numbers.js';
import { inLetters } from '../../text/naming.js';
import { rescueWords } from '../../text/rescue.js';
import { sentence } from '../../text/violations.js';
import { noteQuestion } from '../../widgets/note_names.js';
import { isBlank } from '../../state/desk.js';
import { ownFresh, startFresh, withFittingHands } from '../../state/fresh.js';
import { isExample } from '../../state/keeper.js';
import { handOf, isHand, withHand, withPattern } from '../../state/taught.js';
import { add } from '../flutes.js';
import { take } from '../take.js';
import { ownWish } from './wish.js';
import { believed, heardOf, ofAnySong, ownDoc, pitches, silentDoc, songOf } from './own_doc.js';
import { TAKEN_OVER, withoutPattern } from '../pattern.js';
import { BACK_TO_TAUGHT, FULL, STAYS_IN_HAND, UNDO, nothingLearned, FOOT, holeName } from '../words.js';
import { ALL_FIT, AS_IT_IS, AT_BENCH, BY_THIS_ONE, IN_TUNE, KEEP, KEPT, LAID_OUT, LAID_OUT_TAUGHT, LAY_OUT, LOWEST,
  MEASURE_IT, MISSING, NEEDS_FOOT, NOT_HEARD, PUT_IN_TUNE, RECKONING, SCALE, SEE_MARKS, TOO_FEW,
  blowFirst, canOpen, doesNotFit, measureFirst, isSharp, lowestNote, mendLine, notANote,
  noteLine, refused, toldOfIt, untold } from './words.js';

/** @typedef {import('./own_doc.js').OwnFlute} OwnFlute */

const IN_TUNE_CENTS = 5;
const SAME_HZ = 0.01;
const WAYS_SAID = 2;  // of a note: what can be taken back stands first; the Bench has them all
const TOLD = ['sound_hole', 'holes', 'drift'];  // voice, holes, breath

/** @param {Desk} desk @param {{kept: () => void, refuse: (wrong: Violation, doc: Doc) => boolean,
 *   draft: (key: string, text?: string) => string, state: () => State,
 *   read: () => Promise<{own: OwnFlute | null, missing: string[]}>}} sheet */
export function ownTold(desk, sheet) {
  const said = h('div', { class: 'told', role: 'status' });
  const outcome = h('p', { class: 'outcome', role: 'status' });
  const scale = newId('own');
  const asIs = h('input', { type: 'radio', name: scale, id: `${scale}-is` });
  const tuned = h('input', { type: 'radio', name: scale, id: `${scale}-tune`, checked: true });
  const lowest = h('input', { type: 'text', class: 'words', id: `${scale}-low`, autocomplete: 'off', spellcheck: 'false',
    'aria-describedby': `${scale}-low-is` });
  const lowestIs = h('span', { class: 'note', id: `${scale}-low-is` });
  const question = noteQuestion(desk, () => void layOut());
  // what a whole flute plays is heard; what a half-made one shall play is asked for
  const wish = ownWish(desk, sheet.draft, () => void refresh());
  const heardSong = h('div', {},
    h('fieldset', { class: 'radios' }, h('legend', {}, SCALE), h('div', { class: 'options' },
      h('span', { class: 'option' }, tuned, h('label', { for: tuned.id }, PUT_IN_TUNE)),
      h('span', { class: 'option' }, asIs, h('label', { for: asIs.id }, AS_IT_IS)))),
    h('div', { class: 'line' }, h('div', { class: 'what' }, h('label', { for: lowest.id }, LOWEST), lowestIs), lowest), question.element);
  const deeds = h('div', { hidden: true },
    h('p', { class: 'buttons' }, button(AT_BENCH, () => void keep(true)), button(KEEP, () => void keep(false))),
    heardSong, h('p', { class: 'buttons' }, button(LAY_OUT, () => void layOut())));
  const element = h('div', {}, said, wish.element, deeds, outcome);
  /** @type {{doc: Doc, hz: number[] | null} | null} `hz`: of a whole flute */
  let now = null;
  let asked = 0;
  let waits = false;  // what was typed last is not reckoned yet

  /** @param {string} words @param {() => void} act */
  function button(words, act) {
    return h('button', { type: 'button', class: words === LAY_OUT ? 'take' : 'plain', onclick: act }, words);
  }

  /** @param {string[]} lines */
  const tell = (lines) => said.replaceChildren(...lines.map((line) => h('p', {}, line)));

  async function refresh() {
    const mine = asked += 1;
    waits = false;
    now = null;
    deeds.hidden = true;
    const { own, missing } = await sheet.read();
    if (mine !== asked) return;
    const whole = own === null || own.holes.every((row) => row.at !== undefined);
    if (whole) wish.none();
    if (own === null) return tell(missing.length > 0 ? [MISSING + missing.join('; ')] : []);
    tell([RECKONING]);
    const workshop = await desk.engine.workshop();
    const silent = whole ? pitches(own).includes(undefined) : own.foot.hz === undefined;
    const sounds = silent ? await workshop.sound(silentDoc(own)) : null;
    if (mine !== asked) return;
    const reckoned = sounds?.answer?.notes.map((note) => note.hz) ?? [];
    const foot_hz = own.foot.hz ?? reckoned[0] ?? null;
    const habits = ownFresh(desk.store.get());  // the maker's bits, hands and rooms, not the example's
    const hz = pitches(own, reckoned);
    let rising = whole && foot_hz !== null ? filled(hz) : [];
    const wanted = whole || foot_hz === null ? null : wish.song(own, foot_hz, habits.song, workshop);
    if (foot_hz !== null && !whole && wanted === null) return tell([]);
    const song = wanted?.song ?? (foot_hz === null ? habits.song : songOf(rising, 'in tune', undefined, habits.song.a4_hz));
    let doc = ownDoc(own, song, habits);
    /** @type {Reply<NextStep>} */
    let next = foot_hz === null ? { violations: sounds?.violations, fault: sounds?.fault } : await workshop.next(doc);
    // A reading that does not fit decides no scale: what the others say of its note does.
    const sure = whole && next.answer ? believed(hz, next.answer, own) : hz;
    if (sure !== hz && mine === asked) {
      rising = filled(sure);
      doc = ownDoc(own, songOf(rising, 'in tune', undefined, habits.song.a4_hz), habits);
      next = await workshop.next(doc);
    }
    if (mine !== asked) return;
    if (!next.answer) {
      const first = next.violations?.[0] ?? sounds?.violations?.[0];
      if (first !== undefined && sheet.refuse(first, doc)) return tell([]);
      if (sounds?.answer && foot_hz === null) return tell([NEEDS_FOOT]);
      return tell([refused(first === undefined ? String(next.fault) : sentence(first, sheet.state(), desk.engine))]);
    }
    const name = next.answer.notes[0]?.name ?? '';
    const { lowest: low } = doc.song;
    const same = typeof low === 'object' && workshop.reading({ text: name, a4_hz: doc.song.a4_hz }).answer?.hz;
    if (same && Math.abs(same - low.hz) < SAME_HZ) doc.song.lowest = name;  // what the maker reads on Song
    now = { doc, hz: whole ? rising : null };
    deeds.hidden = false;
    heardSong.hidden = !whole;
    if (!whole) wish.tell(own, wanted?.proposed ? name : '');
    say(lowestIs, lowestNote(noteName(name)));
    tell(wordsOf(next.answer, own, (option) => rescueWords(option, sheet.state(), desk.engine),
      rising.map((one, n) => one !== hz[n])));
  }

  /** @param {boolean} bench */
  async function keep(bench) {
    if (waits) await refresh();
    if (now === null) return;
    let id = '';
    try {
      const { doc } = now;
      id = add({ doc, good: doc, typed: {}, aside: { begun: now.hz === null ? 'empty' : 'sheet' } }, null);
    } catch {
      return say(outcome, FULL);
    }
    if (bench && await take(desk, id) !== '') return say(outcome, STAYS_IN_HAND);
    sheet.kept();
    say(outcome, KEPT);
    if (bench) goTo(desk, 'bench');
  }

  async function layOut() {
    if (waits) await refresh();
    if (now === null) return;
    const workshop = await desk.engine.workshop();
    const { doc, hz } = now;
    const text = hz === null ? '' : lowest.value.trim();
    const spelt = inLetters(text);
    question.show(spelt.asks);
    if (spelt.asks !== null) return;
    const low = text === '' ? null : workshop.reading({ text: spelt.text, a4_hz: desk.store.get().doc.song.a4_hz });
    if (low !== null && low.answer === undefined) return say(outcome, notANote(text));
    const pattern = await workshop.pattern(doc);
    if (!pattern.answer) return say(outcome, nothingLearned(pattern.violations?.[0]?.code ?? pattern.fault));
    // Nothing is laid out on the example: it is not the maker's tube.
    if (isExample(desk.store.get()) && !startFresh(desk)) return say(outcome, STAYS_IN_HAND);
    const song = hz === null ? doc.song : songOf(hz, asIs.checked ? 'as it is' : 'in tune', low?.answer?.hz, doc.song.a4_hz);
    // The tube in hand becomes this maker's: several flutes of theirs say more of it than this one, whosever it is.
    const before = desk.store.get();
    desk.edit((s) => {
      const so = { doc: withFittingHands({ ...s.doc, song: { ...ofAnySong(s.doc.song), ...song } }), aside: s.aside };
      return handOf(s) === undefined ? withPattern(so, pattern.answer) : withHand(so);
    }, ['song', 'shop.hands']);
    sayLaidOut(pattern.answer, before);
  }

  /** By what it is laid out; where there is a choice, the other one a tap away; and the way back.
   * @param {unknown} pattern @param {State} before */
  function sayLaidOut(pattern, before) {
    const s = desk.store.get();
    const several = isHand(s.doc.pattern);
    const words = (several ? LAID_OUT_TAUGHT : LAID_OUT) + (isBlank(s) ? MEASURE_IT : SEE_MARKS);
    const other = handOf(s) === undefined ? [] : [' ', h('button', { type: 'button', class: 'inline',
      onclick: () => {
        desk.edit((s) => (several ? withPattern(s, pattern) : withHand(s)));
        sayLaidOut(pattern, before);
      } }, several ? BY_THIS_ONE : BACK_TO_TAUGHT)];
    return outcome.replaceChildren(words, ...other, ' ', h('button', { type: 'button', class: 'inline', onclick: () => {
      desk.edit((s) => withoutPattern(s, before), TAKEN_OVER);
      say(outcome, '');
    } }, UNDO));
  }

  return { element, refresh, wait() { waits = true; } };
}

/** A scale rises; what nobody heard lies a tone above the note below. @param {(number | undefined)[]} hz */
function filled(hz) {
  /** @type {number[]} */
  const rising = [];
  for (const one of hz) {
    const below = rising[rising.length - 1];
    rising.push(one !== undefined && (below === undefined || one > below) ? one : (below ?? 0) * 2 ** (2 / 12));
  }
  return rising;
}

/** @param {NextStep} next @param {OwnFlute} own @param {(option: RescueOption) => {name: string, cost: string}} wayOf
 * @param {boolean[]} [madeUp] what the notes should be that nobody heard, from all covered up: of those nothing is said
 * @returns {string[]} */
export function wordsOf(next, own, wayOf, madeUp = []) {
  const { holes, foot } = own;
  /** @param {number[]} open */
  const rowOf = (open) => (open.length === 0 ? foot : holes[open[0] - 1]);
  /** @param {number[]} open */
  const placeOf = (open) => (open.length === 0 ? FOOT : holeName(open[0]));
  const notes = next.notes.filter((note) => note.now_cents !== null && !madeUp[note.open.length]);
  /** @param {StepNote} note */
  const name = (note) => noteName(note.name) || placeOf(note.open);
  const heard = heardOf(own);
  const unfit = next.readings.flatMap((reading, i) => (reading.trusted || heard[i] === undefined ? []
    : [{ n: heard[i], off: Math.round(reading.off_cents ?? 0) }]));
  const odd = unfit.map(({ n, off }) => doesNotFit(n === 0 ? FOOT : holeName(holes.length - n + 1), off));
  // Nothing is cut for a note whose measurements are doubted.
  /** @param {{open: number[]}} note */
  const sure = ({ open }) => !madeUp[open.length] && heard.includes(open.length) && !unfit.some(({ n }) => n === open.length);
  // Nor where a size was not measured, which says more than any cut.
  /** @param {{open: number[]}} note */
  const sized = ({ open }) => open.length === 0 || rowOf(open).wide !== undefined;
  const off = next.ways.filter((way) => way.options.length > 0 && sure(way));
  const unheard = next.ways.filter((way) => way.options.length > 0 && !madeUp[way.open.length] && !heard.includes(way.open.length));
  /** @param {(cents: number) => boolean} which */
  const those = (which) => notes.filter((note) => sure(note) && which(note.now_cents ?? 0)).map(name);
  const known = next.unknowns.filter((u) => TOLD.includes(u.name));
  const flat = those((cents) => cents < -IN_TUNE_CENTS);
  const sharp = those((cents) => cents > IN_TUNE_CENTS);
  return [
    ...known.filter((u) => u.told).map((u) => toldOfIt(u.name, u.mean, u.sigma)),
    ...(heard.length > 0 && known.some((u) => !u.told) ? [untold(known.filter((u) => !u.told).map((u) => u.name))] : []),
    ...(odd.length > 0 ? odd : [heard.length > 1 ? ALL_FIT : TOO_FEW]),
    ...notes.map((note) => noteLine(name(note), offWords(note.now_cents ?? 0))
      + (rowOf(note.open)?.hz === undefined ? NOT_HEARD : '')),
    ...(flat.length > 0 ? [canOpen(flat)] : []), ...(sharp.length > 0 ? [isSharp(sharp)] : []),
    ...(flat.length + sharp.length + unfit.length === 0 && notes.length > 0 && notes.every(sure) ? [IN_TUNE] : []),
    ...(off.every(sized) ? [] : [measureFirst(off.filter((way) => !sized(way)).map(({ open }) => placeOf(open)))]),
    ...(unheard.length > 0 ? [blowFirst(unheard.map(({ open }) => placeOf(open)))] : []),
    ...off.filter(sized).map(({ open, cents, sigma_cents: band, options }) => mendLine(
      placeOf(open), Math.round(cents ?? 0), Math.max(1, Math.round(band ?? 0)),
      options.filter((option) => option.what !== 'accept').slice(0, WAYS_SAID).map(wayOf))),
  ];
}

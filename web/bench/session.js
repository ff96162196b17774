// web/bench/session.js: what the parts of the bench share: the step in hand, the log, the ear.

/// <reference path="./types.d.ts" />
import { newestNext } from '../engine/newest.js';
import { createStore } from '../state/store.js';
import { bandOf } from '../state/sure.js';
import { createListener } from '../ear/listen.js';
import { logOf, withLog, without } from './log.js';
import { logSentence } from './tell_log.js';

const USUAL_C = 20;

/** @type {Progress} */
const NOTHING_YET = { of: '', attempts: [], blows: [], strokes: 0 };

/** @param {Desk} desk @param {Workshop} workshop */
export function createSession(desk, workshop) {
  const { store, engine } = desk;
  /** @type {BenchState} */
  const begin = { next: null, of: null, problems: [], fault: '', working: false, stopped: false,
    reading: null };
  const bench = createStore(begin);
  const listener = createListener(workshop);
  let logging = false;

  // One question for one document, whoever asks: the card, and the entry that was just logged.
  /** @type {{text: string, reply: Promise<Reply<NextStep>>} | null} */
  let last = null;
  /** @param {Doc} doc @returns {Promise<Reply<NextStep>>} */
  function reckon(doc) {
    const text = JSON.stringify(doc);
    if (last?.text === text) return last.reply;
    const mine = last = { text, reply: workshop.next(doc) };
    void mine.reply.then(({ fault, stopped }) => { if ((fault || stopped) && last === mine) last = null; });
    return mine.reply;
  }
  const ask = newestNext(reckon, (reply, of, newest) => bench.change((b) => {
    const working = !newest;
    const stopped = reply.stopped === true;
    if (reply.answer) return { ...b, next: banded(reply.answer, of), of, problems: [], fault: '', working, stopped };
    // What was wrong with an entry that has changed since is no news.
    return newest ? { ...b, problems: reply.violations ?? [], fault: reply.fault ?? '', working, stopped } : b;
  }), () => workshop.stop('next'));
  /** Before anything is heard a note's band is the one that Marks shows: one figure, one reckoning.
   * @param {NextStep} next @param {Doc} of @returns {NextStep} */
  function banded(next, of) {
    const s = store.get();
    if (logOf(of).some((entry) => entry.read) || !s.sure || s.sureOf !== s.answer) return next;
    return { ...next, notes: next.notes.map((note) => ({ ...note, sigma_cents: bandOf(s, note.open) ?? note.sigma_cents,
      before_cents: bandOf(s, note.open) ?? note.before_cents })) };
  }
  let sure = store.get().sure;
  store.subscribe((s) => {
    if (s.sure === sure) return;
    sure = s.sure;
    bench.change((b) => (b.next === null || b.of === null ? b : { ...b, next: banded(b.next, b.of) }));
  });
  /** What the maker wanted to read is over. */
  const logged = () => bench.change((b) => (b.reading === null ? b : { ...b, reading: null }));
  /** @type {Doc | null} */
  let asked = null;
  let log = store.get().doc.log;
  store.subscribe((s) => {
    if (s.doc.log !== log) {
      log = s.doc.log;
      if (!logging) logged();
    }
    if (s.station !== 'bench' || s.doc === asked) return;
    asked = s.doc;
    bench.change((b) => ({ ...b, working: true }));
    void ask(s.doc);
  });

  /** @param {State} s @param {Partial<BenchAside>} news @returns {Aside} */
  const beside = (s, news) => ({ ...s.aside, bench: { ...s.aside.bench, ...news } });
  /** @returns {BenchAside} */
  const aside = () => store.get().aside.bench ?? {};

  /** Names the step in hand: with another log, or another step, what was heard for it is over. */
  function stepKey() {
    const { next, reading } = bench.get();
    const { do: what, number, open, until } = next?.step ?? {};
    return JSON.stringify([logOf(store.get().doc).length, reading ?? [what, number, open ?? until?.open]]);
  }

  return {
    desk, workshop, bench, listener, engine, aside,

    /** @param {Partial<BenchAside>} news */
    keep: (news) => desk.edit((s) => ({ aside: beside(s, news) })),

    /** @returns {Progress} */
    progress() {
      const kept = aside().progress;
      return kept?.of === stepKey() ? kept : { ...NOTHING_YET, of: stepKey() };
    },
    /** @param {Partial<Progress>} news */
    proceed(news) {
      const progress = { ...this.progress(), ...news };
      desk.edit((s) => ({ aside: beside(s, { progress }) }));
    },

    // Whether pitches are typed: then the line is ready for the next one.
    typing: false,
    /** A pitch that was typed when a question came up; the line that comes after has it again. */
    half: '',

    /** The room's temperature as last noted. @returns {number} */
    room() {
      const { doc } = store.get();
      const noted = logOf(doc).map((entry) => entry.room_c).filter((c) => c !== undefined);
      return aside().room_c ?? noted[noted.length - 1] ?? doc.air?.room_c ?? USUAL_C;
    },

    /** Puts entries behind the log: kept first, reckoned second, so that whatever becomes of the
     * reckoning the entry stays. Those that cannot be true are taken out again.
     * @param {LogEntry[]} entries @param {(doc: Doc) => Doc} [more] what else changes
     * @returns {Promise<string>} what is wrong with them, else empty */
    async log(entries, more = (doc) => doc) {
      if (logging) return '';
      logging = true;
      try {
        const at = Math.round(Date.now() / 1000);
        /** @type {LogEntry[]} */
        const stamped = entries.map((entry) => ({ ...entry, at }));
        const { doc } = store.get();
        const { progress, removed } = aside();
        const count = logOf(doc).length;
        const grown = more(withLog(doc, [...logOf(doc), ...stamped]));
        desk.edit((s) => ({ doc: grown, aside: beside(s, { progress: undefined, removed: undefined }) }));
        const { violations = [] } = await reckon(grown);
        const mine = violations.filter((v) => Number(/^log\[(\d+)\]/.exec(v.path)?.[1] ?? -1) >= count);
        if (mine.length === 0) {
          logged();
          return '';
        }
        const now = store.get();
        const words = mine.map((v) => logSentence(v, grown, now, engine)).join(' ');
        desk.edit((s) => ({ aside: beside(s, { progress, removed }), doc: s.doc === grown ? doc
          : withLog(s.doc, logOf(s.doc).filter((entry) => !stamped.includes(entry))) }));
        return words;
      } finally {
        logging = false;
      }
    },

    /** What is known of how far this maker's blows lie apart. @returns {Scatter} */
    scatter: () => aside().scatter ?? {},
    /** @param {{scatter_cents: number, scatter_blows: number}} heard of what goes into the log */
    learn({ scatter_cents, scatter_blows }) {
      desk.edit((s) => ({ aside: beside(s, { scatter: { scatter_cents, scatter_blows } }) }));
    },

    logging: () => logging,

    /** Ends the reckoning that is under way. */
    stop: () => workshop.stop('next'),

    /** @param {number[]} gone entries taken out of the log */
    undo(gone) {
      desk.edit((s) => {
        const log = logOf(s.doc);
        const left = without(log, gone);
        return { doc: withLog(s.doc, left), aside: beside(s, { progress: undefined,
          removed: { log, left: JSON.stringify(left) } }) };
      });
    },

    /** The log as it was before the last undo, while nothing has happened since; else null.
     * @param {State} s @returns {LogEntry[] | null} */
    removed(s) {
      const removed = s.aside.bench?.removed;
      return removed !== undefined && removed.left === JSON.stringify(logOf(s.doc)) ? removed.log : null;
    },

    putBack() {
      const log = this.removed(store.get());
      if (log === null) return;
      desk.edit((s) => ({ doc: withLog(s.doc, log), aside: beside(s, { removed: undefined }) }));
    },

    /** A hint the maker has taken note of stays away, for this tube. @param {string} hint */
    hush: (hint) => desk.edit((s) => ({ aside: beside(s, { hushed: [...(s.aside.bench?.hushed ?? []), hint] }) })),
    hushed: () => aside().hushed ?? [],

    /** @param {number[] | null} open */
    read(open) {
      bench.change((b) => ({ ...b, reading: open }));
    },
  };
}

// web/state/desk.js: everything the views may do to the state, and what they may ask of it.

import { valueAt, withValue, steps } from './path.js';

/**
 * @param {Store} store
 * @param {Engine} engine
 * @param {Choices} choices
 * @param {() => Promise<void>} [print] shows paper: main.js alone knows where that is
 */
export function createDesk(store, engine, choices, print = async () => {}) {
  /** Where on the page a path can be entered. @type {Set<Place>} */
  const places = new Set();

  /** @param {State} state @param {string} path */
  const value = (state, path) => valueAt(state.doc, path) ?? valueAt(choices.defaults, path);

  /** The visible place that a violation's path belongs to: itself, else the nearest above.
   * @param {string} path @returns {Place | null} */
  function placeOf(path) {
    /** @type {Place | null} */
    let best = null;
    for (const place of places) {
      const above = place.path === path || path.startsWith(`${place.path}.`)
        || path.startsWith(`${place.path}[`);
      if (above && place.shown() && (best === null || place.path.length > best.path.length)) {
        best = place;
      }
    }
    return best;
  }

  return {
    store, engine, choices, value, placeOf, print,

    /** @param {Place} place @returns {() => void} takes it off again */
    offer(place) {
      places.add(place);
      return () => places.delete(place);
    },

    /** What was typed goes in as it is; the document changes where it could be read.
     * @param {string} path @param {string} text @param {Reader} read */
    type(path, text, read) {
      store.change((s) => {
        const unit = unitOf(s);
        const got = read(text, unit);
        const problem = 'problem' in got ? { ...got.problem, path } : null;
        const entry = { text, unit, value: 'value' in got ? got.value ?? null : null, problem };
        const typed = { ...s.typed, [path]: entry };
        return { ...s, typed, doc: 'value' in got ? withValue(s.doc, path, got.value) : s.doc };
      });
    },

    /** A choice made by other means than typing. @param {string} path @param {unknown} to */
    set(path, to) {
      store.change((s) => ({
        ...s, doc: withValue(s.doc, path, to), typed: without(s.typed, (p) => p === path),
      }));
    },

    /** Several keys at once. Texts typed for a path in `drop` (and below it) are let go.
     * @param {(s: State) => Partial<State>} update @param {string[]} [drop] */
    edit(update, drop = []) {
      store.change((s) => ({
        ...s, typed: without(s.typed, (p) => drop.some((d) => p.startsWith(d))), ...update(s),
      }));
    },

    /** The text a field shows: as typed while it stands for the document's value in this unit
     * or cannot be read; else the value written out.
     * @param {State} state @param {string} path @param {(v: any, s: State) => string} write */
    text(state, path, write) {
      const typed = state.typed[path];
      const now = value(state, path);
      if (typed !== undefined && (typed.problem !== null || (typed.unit === unitOf(state)
        && JSON.stringify(typed.value ?? null) === JSON.stringify(now ?? null)))) {
        return typed.text;
      }
      return now === undefined || now === null ? '' : write(now, state);
    },

    /** All that is wrong, each with the place it belongs to (null: nowhere on the page).
     * @param {State} state @returns {{violation: Violation, place: Place | null}[]} */
    troubles(state) {
      if (state.problems.length === 0 && Object.values(state.typed).every(({ problem }) => problem === null)) return [];
      const texts = Object.entries(state.typed)
        .flatMap(([path, t]) => (t.problem === null ? [] : [{ ...t.problem, path }]));
      const typedPaths = new Set(texts.map((v) => v.path));
      return [...texts, ...state.problems.filter((v) => !typedPaths.has(v.path))]
        .map((violation) => ({ violation, place: placeOf(violation.path) }));
    },

    /** @param {number} index a bore station; those after it move up */
    removeStation(index) {
      store.change((s) => {
        const typed = Object.fromEntries(Object.entries(s.typed).flatMap(([path, t]) => {
          const [, list, at] = steps(path);
          if (list !== 'bore' || typeof at !== 'number' || at < index) return [[path, t]];
          return at === index ? [] : [[path.replace(`[${at}]`, `[${at - 1}]`), t]];
        }));
        return { ...s, typed, doc: withValue(s.doc, `tube.bore[${index}]`, undefined) };
      });
    },

    restart() {
      store.change((s) => {
        const { doc, good, typed, aside, station, plan } = s;
        return {
          ...s, doc: JSON.parse(s.example), typed: {}, aside: {}, plan: null,
          before: { doc, good, typed, aside, station, plan },
        };
      });
    },

    restore() {
      store.change((s) => (s.before === null ? s : { ...s, ...s.before, station: s.station,
        before: null }));
    },
  };
}

export const INCH_MM = 25.4;  // exactly, since 1959 (common practice, no source)
/** @param {State} s */
export const unitOf = (s) => s.doc.show?.unit ?? 'mm';
/** @param {State} s */
export const fractionOf = (s) => s.doc.show?.fraction ?? 32;

/** Whether the tube in hand is not measured yet: what is answered is the example's, and not shown.
 * @param {Pick<State, 'good'>} s */
export const isBlank = ({ good: { tube, sound_hole: hole } }) => !(tube.bore[0].diameter_mm && tube.end_mm
  && (tube.wall_mm || tube.outer_mm) && hole.length_mm && hole.width_mm);

/** @type {{of: Doc | null, same: boolean}} */
const compared = { of: null, same: false };
/** Whether the example is in hand, as it came. @param {Pick<State, 'doc' | 'example' | 'typed'>} s */
export function isUntouched({ doc, example, typed }) {
  if (Object.keys(typed).length > 0) return false;
  if (doc !== compared.of) Object.assign(compared, { of: doc, same: JSON.stringify(doc) === example });
  return compared.same;
}

// Farther off, a note is nearer to another: no marks are given that nobody should cut.
export const ANOTHER_NOTE_CENTS = 50;
/** Whether the song cannot be had of this tube. A flute under way has the Bench to say so.
 * @param {Pick<State, 'answer'>} s */
export const isUnmet = ({ answer: { worst_cents: worst, log } }) => !log?.length
  && (worst === null || worst > ANOTHER_NOTE_CENTS);

/** How far a note is off as the flute stands, by the Bench; undefined before anything is made, null where its
 * hole is not cut. @param {State} s @param {number} index */
export const standsAt = (s, index) => (s.answer.log?.length ? builtOf(s)?.next.notes[index]?.now_cents : undefined);

/** What the Bench says of the answer that is shown, where it has been asked. @param {State} s */
export const builtOf = (s) => (s.built?.of === s.answer ? s.built : null);

/** What has to be added to a position to show it from the chosen datum [mm].
 * @param {Pick<Doc, 'show' | 'sound_hole'>} doc */
export function datumShift(doc) {
  const length = doc.sound_hole.length_mm;
  const datum = doc.show?.datum ?? 'centre';
  return datum === 'centre' ? -length / 2 : datum === 'splitting edge' ? -length : 0;
}

/** @param {State['typed']} typed @param {(path: string) => boolean} gone */
function without(typed, gone) {
  return Object.fromEntries(Object.entries(typed).filter(([path]) => !gone(path)));
}

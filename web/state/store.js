// web/state/store.js: the one mutable value of the page. Imports nothing.
// Flow: view -> change(fn) -> store -> subscribers -> view. Views never call views.

/** Whether all parts are what they were: the very same. @param {unknown[]} now @param {unknown[]} before */
export const unchanged = (now, before) => now.every((part, i) => part === before[i]);

/** A listener that acts at first, and when one of these parts has changed since: of all that a view shows a key
 * changes little. @template S @param {(s: S) => unknown[]} parts @param {(s: S) => void} act @returns {(s: S) => void} */
export function onChange(parts, act) {
  /** @type {unknown[] | null} */
  let shown = null;
  return (s) => {
    const now = parts(s);
    if (shown !== null && unchanged(now, shown)) return;
    shown = now;
    act(s);
  };
}

/**
 * @template T
 * @param {T} initial
 */
export function createStore(initial) {
  let state = Object.freeze(initial);
  /** @type {Set<(s: T) => void>} */
  const listeners = new Set();
  return {
    get: () => state,
    /** @param {(s: T) => T} update pure; the same object back means "no change" */
    change(update) {
      const next = update(state);
      if (next === state) return;
      state = Object.freeze(next);
      for (const listener of listeners) listener(state);
    },
    /**
     * Calls at once with the present state, then on each change. Returns the unsubscriber.
     * @param {(s: T) => void} listener
     */
    subscribe(listener) {
      listeners.add(listener);
      listener(state);
      return () => listeners.delete(listener);
    },
  };
}

// web/state/store.js: the one mutable value of the page. Imports nothing.
// Flow: view -> change(fn) -> store -> subscribers -> view. Views never call views.

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

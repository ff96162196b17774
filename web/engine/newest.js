// web/engine/newest.js: one question at a time, and after it the newest one; those in between are
// never asked.

const OVERTAKE_MS = 1000;  // a newer question does not wait longer for the one before

/**
 * Answers come in the order of the questions, so what is shown never goes back; each is delivered
 * although a newer one may be on its way, so that the marks follow a held button.
 * @template A, R
 * @param {(argument: A) => Promise<R>} run
 * @param {(result: R, argument: A, newest: boolean) => void} deliver
 * @param {() => void} [stop] ends a run that takes long while a newer question waits: its result, which
 *   says no more than that, is not delivered
 * @returns {(argument: A) => Promise<void>}
 */
export function newestNext(run, deliver, stop) {
  /** @type {{argument: A} | null} */
  let next = null;
  let busy = false;
  let begun = 0;
  let stopped = false;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let timer;
  return async (argument) => {
    next = { argument };
    if (busy) {
      if (stop === undefined || timer !== undefined) return;
      timer = setTimeout(() => {
        stopped = true;
        stop();
      }, Math.max(0, begun + OVERTAKE_MS - performance.now()));
      return;
    }
    busy = true;
    while (next !== null) {
      const { argument: now } = next;
      next = null;
      begun = performance.now();
      stopped = false;
      const result = await run(now);
      clearTimeout(timer);
      timer = undefined;
      if (!stopped || next === null) deliver(result, now, next === null);
    }
    busy = false;
  };
}

// web/engine/newest.js: one question at a time, and after it the newest one; those in between are
// never asked.

/**
 * Answers come in the order of the questions, so what is shown never goes back; each is delivered
 * although a newer one may be on its way, so that the marks follow a held button.
 * @template A, R
 * @param {(argument: A) => Promise<R>} run
 * @param {(result: R, argument: A, newest: boolean) => void} deliver
 * @returns {(argument: A) => Promise<void>}
 */
export function newestNext(run, deliver) {
  /** @type {{argument: A} | null} */
  let next = null;
  let busy = false;
  return async (argument) => {
    next = { argument };
    if (busy) return;
    busy = true;
    while (next !== null) {
      const { argument: now } = next;
      next = null;
      const result = await run(now);
      deliver(result, now, next === null);
    }
    busy = false;
  };
}

// web/engine/latest.js: delivers only the newest call's result, and skips work that a newer call
// has overtaken.

/**
 * @template A, R
 * @param {(argument: A) => R} run
 * @param {(result: R, argument: A) => void} deliver
 * @returns {(argument: A) => Promise<void>}
 */
export function latestOnly(run, deliver) {
  let newest = 0;
  return async (argument) => {
    const mine = ++newest;
    await new Promise((later) => { setTimeout(later); });  // one run for a burst of keystrokes
    if (mine !== newest) return;
    deliver(run(argument), argument);
  };
}

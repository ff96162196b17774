// web/state/trial.js: flutes built by chance from the present layout, in pieces. Loaded when asked for.

export const BUILDS = 10000;
const SEED = 1;             // the same flutes each time, so that a result can be had again
const FIRST_PIECE = 50;
const PIECE_MS = 150;       // between two reports; a new layout waits no longer than this
const LARGEST_PIECE = 2000;

/** Builds flutes of the present layout until there are enough, it changes, or someone stops it.
 * @param {Store} store @param {Engine} engine */
export async function startTrial(store, engine) {
  const of = store.get().answer;
  /** @type {Trial} */
  let mine = { of, wanted: BUILDS, running: true, result: null, fault: '' };
  /** @param {Partial<Trial>} news */
  const report = (news) => {
    mine = { ...mine, ...news };
    store.change((s) => ({ ...s, trial: mine }));
  };
  report({});
  /** @type {unknown} */
  let sums;
  let size = FIRST_PIECE;
  for (let from = 0; from < BUILDS;) {
    const to = Math.min(BUILDS, from + size);
    const begun = performance.now();
    const { answer, fault, violations } = await engine.builds(of, from, to, SEED, sums);
    if (store.get().trial !== mine) return;
    if (store.get().answer !== of) return void store.change((s) => ({ ...s, trial: null }));
    if (!answer) return report({ running: false, fault: fault ?? violations?.[0]?.code ?? 'nothing' });
    sums = answer.sums;
    report({ result: answer.monte_carlo, running: to < BUILDS });
    const pace = PIECE_MS / Math.max(1, performance.now() - begun);
    size = Math.round(Math.max(FIRST_PIECE, Math.min(LARGEST_PIECE, (to - from) * pace)));
    from = to;
  }
}

/** What was built until now stays. @param {Store} store */
export const stopTrial = (store) => store.change((s) => (s.trial?.running
  ? { ...s, trial: { ...s.trial, running: false } } : s));

// web/suits/asking.js: what suits a tube is reckoned part by part: how far it is can be said, and a newer wish waits
// for one part at most. One question for whoever asks the same.

/// <reference path="./types.d.ts" />
const FIRST = 10;  // wishes, the likeliest: soon there is one to show
const PART = 24;   // a tenth of a second of a phone's (tools/bench.mjs)

/** @typedef {{done: number, of: number, best: SuitsChoice | null}} SoFar */
/** @typedef {{key: string, soFar: SoFar | null, listeners: Set<(soFar: SoFar) => void>,
 *   whole: Promise<Reply<SuitsAnswer> | null>}} Asking */
/** @type {Asking | null} */
let asking = null;

/** Part after part, then the whole; null where another tube is asked for meanwhile.
 * @param {Workshop} workshop @param {Doc} document @param {() => Asking | null} mine */
async function reckon(workshop, document, mine) {
  /** @type {unknown[]} */
  const tried = [];
  /** @type {SuitsChoice | null} */
  let best = null;
  for (let of = Infinity; tried.length < of;) {
    const from = tried.length;
    const { answer, ...refused } = await workshop.suitsPart({ document, from, to: from + (from === 0 ? FIRST : PART) });
    const me = mine();
    if (me === null) return null;
    if (!answer) return refused;
    of = answer.of;
    tried.push(...answer.tried);
    if (answer.best !== null && (best === null || answer.best.score > best.score)) best = answer.best;
    me.soFar = { done: tried.length, of, best };
    for (const listener of me.listeners) listener(me.soFar);
  }
  return workshop.suitsOf({ document, tried });
}

/** The answer; null where another tube has been asked for meanwhile.
 * @param {Workshop} workshop @param {string} key what the answer hangs on @param {Doc} doc
 * @param {(soFar: SoFar) => void} [listener] told how far it is */
export async function askOnce(workshop, key, doc, listener) {
  if (asking?.key !== key) {
    const before = asking;
    /** @type {Asking} */
    const mine = { key, soFar: null, listeners: new Set(), whole: Promise.resolve(null) };
    asking = mine;
    // The worker is asked for the newest alone: the one before ends with its part.
    mine.whole = Promise.resolve(before?.whole).catch(() => null)
      .then(() => reckon(workshop, doc, () => (asking === mine ? mine : null)));
    mine.whole.then((reply) => {
      if (!reply?.answer && asking === mine) asking = null;  // asked again when it is wished for again
    }).catch(() => { if (asking === mine) asking = null; });
  }
  const { whole, soFar, listeners } = /** @type {Asking} */ (asking);
  if (listener) {
    listeners.add(listener);
    if (soFar !== null) listener(soFar);
  }
  try {
    return await whole;
  } finally {
    if (listener) listeners.delete(listener);
  }
}

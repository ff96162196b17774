// web/engine/engine.js: what the page may ask of the acoustics core: lengths at once, what takes
// longer by a worker, so that typing never waits for it.

import { ask, compileCore, runCore, startCore, wellFormed } from './start_core.js';
import { newWorker } from './where.js';

/** Loads ./core/ beside the page; rejects where the browser cannot run it. */
export async function loadEngine() {
  const folder = new URL('core/', document.baseURI).href;
  const module = await compileCore(folder);
  const core = await startCore(folder, module);
  const askThere = startWorker(folder, module);
  /** @type {Promise<Workshop> | null} */
  let workshop = null;
  /** @param {Question} question */
  const reckon = async (question) => (await askThere(question)) ?? ask(core, question);
  /** Readings and patterns are heeded by the workshop alone. @param {Doc} doc @returns {Promise<Solved>} */
  const heeding = async (doc) => {
    try {
      return await (await engine.workshop()).solve(doc);
    } catch (error) {
      return { layout: { fault: String(error) }, fingerings: {} };
    }
  };

  const engine = {
    /** @returns {Reply<Doc>} */
    example: () => runCore(core, 'example', ''),
    /** @returns {Reply<Choices>} */
    choices: () => runCore(core, 'choices', ''),

    /** Marks and the usual fingerings for a document. @param {Doc} doc @returns {Promise<Solved>} */
    solve: (doc) => (doc.log?.length || doc.pattern ? heeding(doc)
      : reckon({ verb: 'solve', text: JSON.stringify(doc) })),

    /** How sure the notes of a layout are. @param {Answer} answer @returns {Promise<Reply<Spread>>} */
    spread: (answer) => reckon({ verb: 'spread', text: JSON.stringify(answer) }),

    /**
     * Flutes number `from` up to but without `to` of a series, added to those before.
     * @param {Answer} answer @param {number} from @param {number} to
     * @param {number} seed of the series @param {unknown} [sums] of the piece before
     * @returns {Promise<Reply<Builds>>}
     */
    builds: async (answer, from, to, seed, sums) => {
      const before = sums === undefined ? '' : JSON.stringify(sums);
      try {
        return await (await engine.workshop()).builds(answer, { from, to, seed, before });
      } catch (error) {
        return { fault: String(error) };
      }
    },

    /** What the bench, the shelf and links need, loaded when first asked for.
     * @returns {Promise<Workshop>} */
    workshop() {
      workshop ??= import('./workshop.js').then((m) => m.loadWorkshop());
      workshop.catch(() => { workshop = null; });  // a lost connection may come back
      return workshop;
    },

    /** A bore from what was weighed or wound. @param {Measurement} what
     * @returns {Reply<Measured>} */
    bore: (what) => runCore(core, 'bore', JSON.stringify(what)),

    /** A pitch typed off any other meter.
     * @param {{text: string, note_hz?: number, name?: string, expected_hz?: number, a4_hz?: number}} typed
     * @returns {Reply<{hz: number}>} */
    reading: (typed) => runCore(core, 'reading', JSON.stringify(typed)),

    /**
     * @param {string} text @param {string} unit assumed where the text names none
     * @returns {{mm: number} | {violations: Violation[]}}
     */
    readLength(text, unit) {
      try {
        return JSON.parse(core.readLength(wellFormed(text), unit));
      } catch (error) {
        return { violations: [{ code: 'fault', path: '', value: String(error) }] };
      }
    },

    /** @param {number} mm @param {string} unit @param {number} fraction @returns {string} */
    writeLength(mm, unit, fraction) {
      return Number.isFinite(mm) ? core.writeLength(mm, unit, fraction) : '';
    },
  };
  return engine;
}

/**
 * @param {string} folder @param {WebAssembly.Module} module @param {string} [name]
 * @returns {(question: Question) => Promise<any>} null where there is no worker: ask here
 */
export function startWorker(folder, module, name = 'canewright') {
  /** @type {Map<number, (result: any) => void>} */
  const waiting = new Map();
  /** @type {Worker | null} */
  let worker = null;
  let count = 0;
  const giveUp = () => {
    worker = null;
    for (const answer of waiting.values()) answer(null);
    waiting.clear();
  };
  try {
    worker = newWorker();
    worker.onerror = giveUp;
    worker.onmessage = ({ data: { number, result } }) => {
      waiting.get(number)?.(result);
      waiting.delete(number);
    };
    worker.postMessage({ folder, module, name });
  } catch {
    giveUp();
  }
  return (question) => new Promise((answer) => {
    if (worker === null) return answer(null);
    waiting.set(count, answer);
    worker.postMessage({ number: count, question });
    count += 1;
  });
}

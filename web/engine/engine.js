// web/engine/engine.js: what the page may ask of the acoustics core: lengths at once, solutions by
// a worker, so that typing never waits for a long search.

import { compileCore, runCore, startCore, wellFormed } from './start_core.js';

/** Loads ./core/ beside the page; rejects where the browser cannot run it. */
export async function loadEngine() {
  const folder = new URL('../core/', import.meta.url).href;
  const module = await compileCore(folder);
  const core = await startCore(folder, module);
  /** @param {string} text */
  const solveHere = (text) => ({
    layout: runCore(core, 'layout', text), fingerings: runCore(core, 'fingerings', text),
  });
  const solveThere = startWorker(folder, module);

  return {
    /** @returns {Reply<Doc>} */
    example: () => runCore(core, 'example', ''),
    /** @returns {Reply<Choices>} */
    choices: () => runCore(core, 'choices', ''),

    /** Marks and the usual fingerings for a document. @param {Doc} doc @returns {Promise<Solved>} */
    async solve(doc) {
      const text = JSON.stringify(doc);
      return (await solveThere(text)) ?? solveHere(text);
    },

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
}

/**
 * @param {string} folder @param {WebAssembly.Module} module
 * @returns {(text: string) => Promise<Solved | null>} null where there is no worker: solve here
 */
function startWorker(folder, module) {
  /** @type {Map<number, (result: Solved | null) => void>} */
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
    worker = new Worker(new URL('worker.js', import.meta.url), { type: 'module' });
    worker.onerror = giveUp;
    worker.onmessage = ({ data: { number, result } }) => {
      waiting.get(number)?.(result);
      waiting.delete(number);
    };
    worker.postMessage({ folder, module });
  } catch {
    giveUp();
  }
  return (text) => new Promise((answer) => {
    if (worker === null) return answer(null);
    waiting.set(count, answer);
    worker.postMessage({ number: count, text });
    count += 1;
  });
}

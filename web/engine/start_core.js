// web/engine/start_core.js: starts an instance of the acoustics module; shared by page and worker.

import { withMarks } from './marks_exist.js';
import { compiled, loader } from './where.js';

/** The module's code is fetched and compiled once for all instances.
 * @param {string} folder address of ./core/ @param {string} [name] of the module
 * @returns {Promise<WebAssembly.Module>} */
export const compileCore = (folder, name = 'canewright') => compiled(folder, name);

const RETRY_MS = 500;  // until it is tried once more: a browser that is short of memory may have some then

/** Rejects where it cannot be had. @param {string} folder @param {WebAssembly.Module} module
 * @param {string} [name] @returns {Promise<any>} */
export async function startCore(folder, module, name = 'canewright') {
  const create = await loader(folder, name);
  return new Promise((done, fail) => {
    create({
      /** @param {WebAssembly.Imports} imports @param {(i: WebAssembly.Instance) => void} ready */
      instantiateWasm(imports, ready) {
        const instance = () => WebAssembly.instantiate(module, imports);
        instance().catch(() => new Promise((later) => { setTimeout(later, RETRY_MS); }).then(instance))
          .then(ready).catch(fail);
        return {};  // "not ready yet", as the module's loader wants it
      },
    }).then(done, fail);
  });
}

/** Text in, object out, whatever happens.
 * @param {any} core @param {string} verb @param {string} text @returns {Reply<any>} */
export function runCore(core, verb, text) {
  try {
    return withMarks(verb, JSON.parse(core.run(verb, wellFormed(text))));
  } catch (error) {
    return { fault: String(error) };
  }
}

/** A question that may take long, wherever it is asked.
 * @param {any} core @param {Question} question @returns {any} */
export function ask(core, { verb, text, builds, samples, rate, expected }) {
  if (verb === 'pitchFrame' || verb === 'heldTone') {
    try {
      return JSON.parse(samples ? core.pitchFrame(samples, rate) : core.heldTone(text, expected));
    } catch (error) {
      return { fault: String(error) };
    }
  }
  if (verb === 'solve' || verb === 'marks') {
    return { layout: runCore(core, verb === 'solve' ? 'layout' : 'marks', text),
      fingerings: runCore(core, 'fingerings', text) };
  }
  if (builds === undefined) return runCore(core, verb, text);
  try {
    const { from, to, seed, before } = builds;
    return JSON.parse(core.spreadBuilds(wellFormed(text), from, to, seed, before));
  } catch (error) {
    return { fault: String(error) };
  }
}

/** A lone surrogate would become another character at the boundary. @param {string} text */
export function wellFormed(text) {
  if (!/[\uD800-\uDFFF]/.test(text)) return text;
  return [...text].map((c) => (/^[\uD800-\uDFFF]$/.test(c) ? '\uFFFD' : c)).join('');
}

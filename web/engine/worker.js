// web/engine/worker.js: reckons beside the page, one question after the other.

import { ask, startCore } from './start_core.js';

/** @type {Promise<any> | null} */
let core = null;

self.onmessage = async ({ data }) => {
  if ('module' in data) {
    core = startCore(data.folder, data.module, data.name);
    return;
  }
  self.postMessage({ number: data.number, result: ask(await core, data.question) });
};

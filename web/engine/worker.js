// web/engine/worker.js: solves documents beside the page, one after the other.

import { runCore, startCore } from './start_core.js';

/** @type {Promise<any> | null} */
let core = null;

self.onmessage = async ({ data }) => {
  if ('module' in data) {
    core = startCore(data.folder, data.module);
    return;
  }
  const ready = await core;
  self.postMessage({ number: data.number, result: {
    layout: runCore(ready, 'layout', data.text),
    fingerings: runCore(ready, 'fingerings', data.text),
  } });
};

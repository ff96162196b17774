// web/engine/worker.js: reckons beside the page, one question after the other.

import { ask, startCore } from './start_core.js';

/** @type {Promise<any> | null} */
let core = null;

self.onmessage = async ({ data }) => {
  if ('module' in data) {
    core = startCore(data.folder, data.module, data.name);
    core.catch(() => {});  // said when it is asked
    hold(data.lock);
    return;
  }
  try {
    self.postMessage({ result: ask(await core, data.question) });
  } catch (error) {
    self.postMessage({ failed: String(error) });
  }
};

/** The browser takes a lock from whoever has ended, in whatever way, and from nobody who is only busy:
 * the page waits for this one. @param {string} lock */
function hold(lock) {
  navigator.locks?.request(lock, () => {
    self.postMessage({ lock });
    return new Promise(() => {});
  }).catch(() => {});  // an origin without storage has none
}

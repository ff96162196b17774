// web/offline/offline.js: registers the service worker, offers a new version, shows this one's.

import { h } from '../widgets/dom.js';
import { COMMIT, DATE, SHA256, VERSION } from '../text/version.js';
import { FILE_WORKS, HASH, LATER, NEW_VERSION, NOT_BUILT, PAGE_WORKS, USE_IT, builtWords, undatedWords }
  from './words.js';

const LOOK_AGAIN_MS = 3600000;  // a page left open asks for a new version at most once an hour

/** Called once, when the page has answered. */
export function offline() {
  const ready = h('span', {});
  about(ready);
  if (location.protocol === 'file:') {
    ready.textContent = FILE_WORKS;
    return;
  }
  const { serviceWorker: workers } = navigator;
  if (!workers) return;  // an old browser, or a page served without https
  keepUp(workers).then(() => {
    ready.textContent = PAGE_WORKS;
  }, () => {});  // the page works without it; the next visit tries again
}

/** @param {ServiceWorkerContainer} workers @returns {Promise<unknown>} when this page is kept */
async function keepUp(workers) {
  let accepted = false;
  let controlled = workers.controller !== null;
  workers.addEventListener('controllerchange', () => {
    // A first worker takes over silently. A later one was accepted here, or in another tab:
    // then this page is of the version before and may reload when it suits.
    if (accepted) location.reload();
    else if (controlled) offer(() => location.reload());
    controlled = true;
  });

  const registration = await workers.register('sw.js', { updateViaCache: 'none' });
  const look = () => {
    const { waiting } = registration;
    if (waiting === null || workers.controller === null) return;
    offer(() => {
      accepted = true;
      if (registration.waiting === null) location.reload();  // meanwhile accepted elsewhere
      else registration.waiting.postMessage('accept');
    });
  };
  registration.addEventListener('updatefound', () => {
    registration.installing?.addEventListener('statechange', look);
  });
  registration.installing?.addEventListener('statechange', look);
  look();

  let looked = Date.now();
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState !== 'visible' || Date.now() - looked < LOOK_AGAIN_MS) return;
    looked = Date.now();
    registration.update().catch(() => {});
  });
  return workers.ready;
}

/** Says once that there is a new version; nothing happens until it is accepted.
 * @param {() => void} accept */
function offer(accept) {
  document.getElementById('newer')?.remove();
  const of = document.documentElement.classList;
  of.add('offered');
  const line = h('p', { id: 'newer', class: 'newer' }, h('span', {}, NEW_VERSION),
    h('button', { type: 'button', class: 'plain', onclick: accept }, USE_IT),
    h('button', { type: 'button', class: 'plain', onclick: () => {
      line.remove();
      of.remove('offered');
    } }, LATER));
  line.setAttribute('role', 'status');
  document.body.append(line);
}

/** Version, date and hash at the foot of the page. @param {Node} ready */
function about(ready) {
  const foot = document.getElementById('about');
  if (foot === null) return;
  foot.replaceChildren(h('p', {}, version(), ready),
    ...(SHA256 === '' ? [] : [h('p', {}, HASH, h('code', {}, SHA256))]));
  foot.hidden = false;
}

const version = () => (VERSION === 'unversioned' ? NOT_BUILT
  : DATE === 'unversioned' ? undatedWords(VERSION) : builtWords(VERSION, DATE, COMMIT));

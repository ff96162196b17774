// web/sw-stop.js: the way back if a service worker ever keeps a broken page: put this file on the host
// @ts-nocheck: its globals are a worker’s; tests/e2e/offline.test.mjs uses every line.
// in place of sw.js (under that name, never delete sw.js). Every browser that comes by gives up what
// it kept, and from its next load on has the page from the network. Nothing is reloaded by force.
const MINE = `canewright ${self.registration.scope} `;

self.addEventListener('install', () => self.skipWaiting());

self.addEventListener('activate', (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) if (name.startsWith(MINE)) await caches.delete(name);
    await self.registration.unregister();
  })());
});

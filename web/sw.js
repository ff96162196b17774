// web/sw.js: keeps one version of the page, whole, so that it works without a network.
// @ts-nocheck: its globals are a worker’s; tests/e2e/offline.test.mjs uses every line.
//
// The build writes both constants. What a first visit has loaded is fetched once more, with the rest
// (the bench, the shelf, paper and its PDF library, the larger module): after the first answer, when
// the page is idle. All or nothing; nothing is added later; no version mixes with another.
const BUILD = 'development';
const FILES = [];

// One host can serve several copies in several folders: each has its own store.
const MINE = `canewright ${self.registration.scope} `;
const STORE = MINE + BUILD;

self.addEventListener('install', (event) => {
  // 'reload': past the browser's own cache, which would hand out the old page for as long as the
  // host allows (ten minutes where it says max-age=600), and that would then be kept for good.
  const fresh = FILES.map((path) => new Request(path, { cache: 'reload' }));
  event.waitUntil(caches.open(STORE).then((store) => store.addAll(fresh)));
});

// A new version waits until it is accepted.
self.addEventListener('message', (event) => {
  if (event.data === 'accept') self.skipWaiting();
});

self.addEventListener('activate', (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) {
      if (name.startsWith(MINE) && name !== STORE) await caches.delete(name);
    }
    await self.clients.claim();
  })());
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  const scope = new URL(self.registration.scope);
  if (request.method !== 'GET' || origin !== scope.origin) return;
  const page = pathname === scope.pathname || pathname === `${scope.pathname}index.html`;
  const wanted = page ? self.registration.scope : request;
  // Whatever a link carries behind '?' is for nobody, and a host may vary what it sends.
  const kept = caches.match(wanted, { cacheName: STORE, ignoreSearch: true, ignoreVary: true });
  event.respondWith(kept.then((found) => found ?? fetch(request)));
});

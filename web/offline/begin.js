// web/offline/begin.js: what can wait until the page has answered: working offline, the version.
// A script of its own beside main.js: a version that fails to start must still find the next one.

const LATEST_MS = 10000;  // where there is no answer by then, there may be a newer version

const begun = performance.now();
const stations = document.getElementById('stations');

function look() {
  if (!stations?.querySelector('.plan') && performance.now() - begun < LATEST_MS) {
    setTimeout(look, 50);
    return;
  }
  const begin = () => import('./offline.js').then(({ offline }) => offline(), () => {});
  if ('requestIdleCallback' in globalThis) requestIdleCallback(begin, { timeout: 2000 });
  else setTimeout(begin, 200);
}

look();

export {};  // a module, like all others

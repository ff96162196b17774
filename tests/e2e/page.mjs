// tests/e2e/page.mjs -- opens the built page in Chromium for the end-to-end tests.
//
// CANEWRIGHT_URL   a page that is served already; else the folder CANEWRIGHT_DIST is served
// CANEWRIGHT_DIST  default build/site
// CANEWRIGHT_SHOTS a folder to put screenshots into; none without it
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { serve } from '../../tools/serve.mjs';

export const PHONE = { width: 360, height: 740 };
export const DESK = { width: 1280, height: 800 };

export const QUIET = ['--no-sandbox', '--disable-quic', '--disable-background-networking',
  '--disable-component-update', '--disable-sync', '--no-first-run',
  '--disable-features=PreloadTopChromeWebUI,WebUIReloadButton,InitialWebUI,WebUIToolbar,TabStripWebUI'];

/**
 * Every scheme once and every size once: colours do not hang on the size. All four with
 * CANEWRIGHT_LONG set.
 * @type {[string, {width: number, height: number}, string][]}
 */
export const LOOKS = [['phone', PHONE, 'light'], ['desk', DESK, 'dark'],
  ...(process.env.CANEWRIGHT_LONG === undefined ? [] : [['phone', PHONE, 'dark'], ['desk', DESK, 'light']])];

/** A browser and the page's address; `close` ends both. */
export async function site() {
  const given = process.env.CANEWRIGHT_URL;
  const folder = process.env.CANEWRIGHT_DIST
    ?? fileURLToPath(new URL('../../build/site', import.meta.url));
  const server = given ? null : await serve(folder, 0);
  const browser = await chromium.launch({
    executablePath: process.env.CANEWRIGHT_CHROMIUM ?? '/usr/bin/chromium', args: QUIET,
  });
  return {
    address: given ?? server.address,
    browser,
    idle: new Map(), // profiles to be used again, by kind
    async close() {
      await browser.close();
      await server?.close();
    },
  };
}

/** What a test may do to a page or its context that the next one must not find. */
const LASTING = {
  page: ['addInitScript', 'route', 'emulateMedia', 'exposeFunction', 'exposeBinding', 'setContent',
    'setExtraHTTPHeaders', 'setViewportSize', 'addScriptTag', 'addStyleTag', 'pdf'],
  context: ['addInitScript', 'route', 'setOffline', 'grantPermissions', 'newPage', 'newCDPSession',
    'exposeFunction', 'exposeBinding', 'clearPermissions', 'setGeolocation'],
};

/**
 * A page of its own storage, ready to use. `faults` collects what must never happen: console
 * errors and warnings, exceptions, failed requests; `late` the requests after the page was loaded.
 * A fresh browser profile costs five times what the page itself does; so one that a test has closed
 * and done nothing lasting to is emptied and used again.
 */
export async function open(where, { viewport = PHONE, scheme = 'light', ...more } = {}) {
  const kind = JSON.stringify([viewport, scheme]);
  const plain = Object.keys(more).length === 0 && where.idle !== undefined;
  const { context, page } = (plain && where.idle.get(kind)?.pop()) || await profile(where,
    { viewport, colorScheme: scheme, ...more }, plain && ((free) => {
      if (!where.idle.has(kind)) where.idle.set(kind, []);
      where.idle.get(kind).push(free);
    }));
  const faults = [];
  const late = [];
  page.on('console', (message) => {
    // what `serviceWorkers: 'block'` below says of itself
    if (message.text() === 'Service Worker registration blocked by Playwright') return;
    if (['error', 'warning'].includes(message.type())) faults.push(message.text());
  });
  page.on('pageerror', (error) => faults.push(error.message));
  page.on('requestfailed', (request) => {
    // A part that was on its way when the test left the page is nobody's fault.
    if (request.failure()?.errorText !== 'net::ERR_ABORTED') faults.push(`failed: ${request.url()}`);
  });
  page.on('response', (r) => { if (r.status() >= 400) faults.push(`${r.status()} ${r.url()}`); });
  await page.goto(where.address);
  await ready(page);
  await page.waitForLoadState('networkidle');
  page.on('request', (request) => late.push(request.url()));
  return { page, context, faults, late };
}

/** A new profile with one page; `free` gets both back when it is closed as it was found. */
async function profile(where, options, free) {
  const context = await where.browser.newContext({
    // The service worker would fetch the whole page once more in every test; offline.test.mjs has it.
    reducedMotion: 'reduce', serviceWorkers: 'block', ...options,
  });
  const page = await context.newPage();
  if (!free) return { context, page };
  const session = await context.newCDPSession(page);
  let touched = false;
  for (const [what, names] of [[page, LASTING.page], [context, LASTING.context]]) {
    for (const name of names) {
      const does = what[name].bind(what);
      what[name] = (...given) => { touched = true; return does(...given); };
    }
  }
  const close = context.close.bind(context);
  context.close = async () => {
    if (touched || page.isClosed()) return close();
    page.removeAllListeners();
    await page.goto('about:blank'); // no page of ours is left to write anything
    await session.send('Storage.clearDataForOrigin', { origin: new URL(where.address).origin,
      storageTypes: 'all' });
    free({ context, page });
  };
  return { context, page };
}

/** The requests among `all` that are not for parts of this very page, loaded when first opened. */
export const foreign = (all, page) => all.filter((url) => !url.startsWith(new URL('.', page.url())));

export const ready = (page) => page.waitForSelector('.plan svg', { state: 'attached' });

/** Shows a station; on a desktop all are shown. */
export async function station(page, key) {
  const tab = page.locator(`#tab-${key}`);
  if (await tab.isVisible()) await tab.click();
}

/** The figures of the marks as printed: sound hole, finger holes, foot. */
export const figures = (page) => page.locator('.rows .row .at').allTextContents();

/** The same in mm, for a page that shows mm. */
export const marksMm = async (page) => (await figures(page)).map((text) => {
  if (!/^−?\d+(\.\d)?$/.test(text)) throw new Error(`not a figure in mm: ${text}`);
  return Number(text.replace('−', '-'));
});

/** Does something and waits until the marks are others than before. */
export async function afterChange(page, act) {
  const before = JSON.stringify(await figures(page));
  await act();
  await page.waitForFunction((old) => JSON.stringify([...document.querySelectorAll('.rows .row .at')]
    .map((e) => e.textContent)) !== old, before);
}

/**
 * Time enough for a recalculation and for keeping, where nothing is expected to change. By the page's own
 * clock, which a slow machine holds up together with what is waited for; and what is loaded after the
 * first marks is there.
 */
export async function settle(page) {
  await page.waitForLoadState('networkidle');
  await page.evaluate(() => new Promise((done) => {
    const still = () => (document.querySelector('.working:not([hidden]), [aria-busy=true]') === null
      ? done(null) : setTimeout(still, 50));
    setTimeout(still, 400);
  }));
}

/** A text field by its label, wherever it is. */
export const entry = (page, label) => page.getByRole('textbox', { name: label, exact: true });

export async function shot(page, name) {
  const folder = process.env.CANEWRIGHT_SHOTS;
  if (!folder) return;
  mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: join(folder, `${name}.png`) });
}

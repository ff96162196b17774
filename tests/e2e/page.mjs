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
  '--disable-component-update', '--disable-sync', '--no-first-run'];

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
    async close() {
      await browser.close();
      await server?.close();
    },
  };
}

/**
 * A page of its own storage, ready to use. `faults` collects what must never happen: console
 * errors and warnings, exceptions, failed requests; `late` the requests after the page was loaded.
 */
export async function open(where, { viewport = PHONE, scheme = 'light', ...more } = {}) {
  const context = await where.browser.newContext({
    viewport, colorScheme: scheme, reducedMotion: 'reduce', ...more,
  });
  const page = await context.newPage();
  const faults = [];
  const late = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) faults.push(message.text());
  });
  page.on('pageerror', (error) => faults.push(error.message));
  page.on('requestfailed', (request) => faults.push(`failed: ${request.url()}`));
  page.on('response', (r) => { if (r.status() >= 400) faults.push(`${r.status()} ${r.url()}`); });
  await page.goto(where.address);
  await ready(page);
  await page.waitForLoadState('networkidle');
  page.on('request', (request) => late.push(request.url()));
  return { page, context, faults, late };
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

/** Time enough for a recalculation, where nothing is expected to change. */
export const settle = (page) => page.waitForTimeout(400);

/** A text field by its label, wherever it is. */
export const entry = (page, label) => page.getByRole('textbox', { name: label, exact: true });

export async function shot(page, name) {
  const folder = process.env.CANEWRIGHT_SHOTS;
  if (!folder) return;
  mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: join(folder, `${name}.png`) });
}

// tests/e2e/engines.mjs -- three browser engines behind one small set of verbs, for engines.test.mjs.
//
// Chromium by its own protocol, Firefox ESR by WebDriver BiDi (both through puppeteer-core), WebKit
// (WebKitGTK, the nearest thing to Safari on Linux) by plain WebDriver over HTTP.
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import puppeteer from 'puppeteer-core';
import { packFile } from '../../tools/pack/file.mjs';
import { serve } from '../../tools/serve.mjs';

/** Collects, in the page, what must never happen; runs before the page's own scripts if it can. */
function watch() {
  if (globalThis.faults) return;
  globalThis.faults = [];
  addEventListener('error', (e) => globalThis.faults.push(`error: ${e.message}`));
  addEventListener('unhandledrejection', (e) => globalThis.faults.push(`rejected: ${e.reason}`));
  document.addEventListener('securitypolicyviolation', (e) => globalThis.faults.push(
    `policy: ${e.effectiveDirective} ${e.blockedURI}`));
  for (const kind of ['error', 'warn']) {
    const plain = console[kind];
    console[kind] = (...words) => {
      globalThis.faults.push(`console: ${words.join(' ')}`);
      plain.apply(console, words);
    };
  }
}

/** Print rules for the screen, screen's for print; a second time: back again. No engine but Chromium
 * lets a test choose the medium. */
function asPrinted() {
  const turn = (rules) => [...rules].forEach((rule) => {
    if (!rule.media) return;
    const { media } = rule;
    if (/\bprint\b/.test(media.mediaText)) media.mediaText = media.mediaText.replace('print', 'screen');
    else if (/\bscreen\b/.test(media.mediaText)) media.mediaText = media.mediaText.replace('screen', 'print');
    turn(rule.cssRules);
  });
  for (const sheet of document.styleSheets) turn(sheet.cssRules);
}

export const pause = (ms) => new Promise((done) => { setTimeout(done, ms); });

/** Waits until `page.run(test, argument)` gives something true, and returns that. */
export async function until(page, test, argument, what = String(test)) {
  for (let i = 0; i < 200; i += 1) {
    const result = await page.run(test, argument).catch(() => null); // between two pages
    if (result) return result;
    await pause(100);
  }
  throw new Error(`not within 20 s: ${what}`);
}

/** Chromium or Firefox. */
async function byPuppeteer(options) {
  const browser = await puppeteer.launch({ headless: true, ...options });
  const version = await browser.version();
  return {
    version,
    async open(address) {
      const page = await browser.newPage();
      const faults = [];
      const requests = [];
      page.on('console', (m) => {
        if (['error', 'warn'].includes(m.type())) faults.push(`console: ${m.text()}`);
      });
      page.on('pageerror', (error) => faults.push(`error: ${error.message}`));
      let flying = 0; // requests: a part that is on its way when the test leaves the page is nobody's fault
      page.on('requestfinished', () => { flying -= 1; });
      page.on('requestfailed', (r) => {
        flying -= 1;
        if (!/ABORTED/.test(r.failure()?.errorText ?? '')) faults.push(`failed: ${r.url()} ${r.failure()?.errorText}`);
      });
      page.on('request', (r) => {
        flying += 1;
        requests.push(r.url());
      });
      await page.evaluateOnNewDocument(watch);
      await page.goto(address);
      return {
        run: (code, argument) => page.evaluate(code, argument),
        async reload() {
          for (let i = 0; i < 100 && flying > 0; i += 1) await pause(50);
          await page.reload();
        },
        press: (key) => page.keyboard.press(key),
        type: (text) => page.keyboard.type(text),
        /** What `code` gives where the page is as it would be printed. */
        async printed(code) {
          const pdf = Buffer.from(await page.pdf({ format: 'A4' }));
          if (pdf.length < 5000) throw new Error(`a PDF of ${pdf.length} bytes`);
          await page.evaluate(asPrinted);
          const result = await page.evaluate(code);
          await page.evaluate(asPrinted);
          return result;
        },
        faults: async () => [...faults, ...await page.evaluate(() => globalThis.faults)],
        requests: async () => requests,
        close: () => page.close(),
      };
    },
    close: () => browser.close(),
  };
}

export const chromium = () => byPuppeteer({
  browser: 'chrome', executablePath: process.env.CANEWRIGHT_CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-quic', '--disable-background-networking', '--no-first-run'],
});

export const firefox = () => byPuppeteer({
  browser: 'firefox', executablePath: process.env.CANEWRIGHT_FIREFOX ?? '/usr/bin/firefox-esr',
  // Automation turns the first off; users have it on. The rest keeps Firefox from calling home.
  extraPrefsFirefox: { 'security.fileuri.strict_origin_policy': true,
    'app.update.enabled': false, 'network.captive-portal-service.enabled': false,
    'network.connectivity-service.enabled': false },
});

const freePort = () => new Promise((done) => {
  const server = createServer();
  server.listen(0, '127.0.0.1', () => {
    const { port } = server.address();
    server.close(() => done(port));
  });
});

/** The small browser that WebKitGTK ships for tests. */
function miniBrowser() {
  const libraries = readdirSync('/usr/lib').map((name) => join('/usr/lib', name));
  const found = libraries.flatMap((folder) => ['4.1', '4.0', '6.0']
    .map((v) => join(folder, `webkit2gtk-${v}`, 'MiniBrowser'))).find((file) => existsSync(file));
  if (!found) throw new Error('no MiniBrowser of webkit2gtk: run tools/setup');
  return found;
}

export async function webkit() {
  const home = mkdtempSync(join(tmpdir(), 'canewright-webkit-'));
  const env = { ...process.env, HOME: home, XDG_DATA_HOME: home, XDG_CACHE_HOME: home,
    WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS: '1' }; // bubblewrap wants rights a container lacks
  // Both in a group of their own, so that exactly they can be ended.
  const start = (command, words, stdio) => spawn(command, words, { env, detached: true, stdio });
  const screen = start('Xvfb', ['-displayfd', '3', '-screen', '0', '1300x900x24', '-nolisten', 'tcp'],
    ['ignore', 'ignore', 'ignore', 'pipe']);
  const display = await new Promise((done, fail) => {
    screen.stdio[3].once('data', (text) => done(String(text).trim()));
    screen.once('exit', () => fail(new Error('Xvfb does not start')));
  });
  env.DISPLAY = `:${display}`;
  const port = await freePort();
  const driver = start('WebKitWebDriver', [`--port=${port}`], 'ignore');
  const ask = async (method, path, body) => {
    const response = await fetch(`http://127.0.0.1:${port}${path}`, { method,
      headers: { 'content-type': 'application/json' },
      body: body === undefined ? undefined : JSON.stringify(body) });
    const { value } = await response.json();
    if (!response.ok) throw new Error(`${value.error}: ${value.message}`);
    return value;
  };
  for (let i = 0; ; i += 1) {
    try { await ask('GET', '/status'); break; } catch (error) { if (i > 100) throw error; }
    await pause(100);
  }
  const { sessionId, capabilities } = await ask('POST', '/session', { capabilities: { alwaysMatch: {
    'webkitgtk:browserOptions': { binary: miniBrowser(), args: ['--automation'] } } } });
  const at = `/session/${sessionId}`;
  const run = (code, argument) => ask('POST', `${at}/execute/sync`, {
    script: `return (${code})(arguments[0])`, args: [argument ?? null] });
  const KEYS = { Tab: '\uE004', Enter: '\uE007', Home: '\uE011', End: '\uE010', Delete: '\uE017' };
  const keys = (text) => ask('POST', `${at}/actions`, { actions: [{ type: 'key', id: 'keys',
    actions: [...text].flatMap((value) => [{ type: 'keyDown', value }, { type: 'keyUp', value }]) }] });
  return {
    version: `WebKitGTK ${capabilities.browserVersion}`,
    async open(address) {
      const go = async (move) => {
        await move();
        await run(watch); // WebDriver has nothing that runs before the page does
      };
      await go(() => ask('POST', `${at}/url`, { url: address }));
      return {
        run,
        reload: () => go(() => ask('POST', `${at}/refresh`, {})),
        press: (key) => keys(KEYS[key]),
        type: keys,
        /** WebKitGTK's driver cannot print. */
        async printed(code) {
          await run(asPrinted);
          const result = await run(code);
          await run(asPrinted);
          return result;
        },
        faults: () => run(() => globalThis.faults),
        requests: () => run(() => performance.getEntriesByType('resource').map((e) => e.name)),
        close: async () => {},
      };
    },
    async close() {
      await ask('DELETE', at).catch(() => {});
      for (const { pid } of [driver, screen]) {
        try { process.kill(-pid); } catch { /* has ended */ }
      }
      await pause(300);
      rmSync(home, { recursive: true, force: true, maxRetries: 5 });
    },
  };
}

/**
 * The page at its two homes: `served` from http://localhost, which browsers trust like https, and
 * `onDisk` as the single file. CANEWRIGHT_DIST and CANEWRIGHT_FILE name others than those built here.
 */
export async function homes() {
  const site = process.env.CANEWRIGHT_DIST ?? fileURLToPath(new URL('../../build/site', import.meta.url));
  const folder = mkdtempSync(join(tmpdir(), 'canewright file '));
  const file = process.env.CANEWRIGHT_FILE ?? join(folder, 'canewright.html');
  if (!process.env.CANEWRIGHT_FILE) await packFile({ out: file });
  const server = await serve(site, 0);
  return {
    served: server.address,
    onDisk: pathToFileURL(file).href,
    async close() {
      await server.close();
      rmSync(folder, { recursive: true });
    },
  };
}

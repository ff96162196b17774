// tests/e2e/storage_tabs.test.mjs -- keeping where something else is at work: a second tab, a killed browser.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, describe, it } from 'node:test';
import { chromium } from 'playwright-core';
import { DESK, entry, open, ready, settle, site } from './page.mjs';
import { again, notice, type } from './shelf_page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

/** All slots of all flutes: key and text. */
const slots = (page) => page.evaluate(() => Object.entries(localStorage)
  .filter(([key]) => key.startsWith('canewright/flute/')).sort());
const names = async (page) => (await slots(page)).map(([, text]) =>
  JSON.parse(text.slice(text.indexOf('{'))).doc.name);

/** A second tab of the same browser. */
async function secondTab(context) {
  const page = await context.newPage();
  await page.goto(where.address);
  await ready(page);
  await page.waitForLoadState('networkidle');
  return page;
}

describe('two tabs', () => {
  it('an idle one is told, and can take theirs or keep its own', async () => {
    const { page: one, context, faults } = await open(where, { viewport: DESK });
    await type(one, 'by one');
    const two = await secondTab(context);
    assert.equal(await entry(two, 'Name').inputValue(), 'by one');
    await entry(two, 'Name').fill('by two');
    const banner = notice(one, 'Changed in another tab');
    await banner.waitFor();
    await banner.getByRole('button', { name: 'Show theirs' }).click();
    await one.waitForFunction(() => document.querySelectorAll('.notice').length === 0);
    assert.equal(await entry(one, 'Name').inputValue(), 'by two');
    await entry(two, 'Name').fill('by two again');
    await banner.waitFor();
    await banner.getByRole('button', { name: 'Keep mine as a copy' }).click();
    await settle(one);
    assert.equal(await entry(one, 'Name').inputValue(), 'by two (copy)');
    const all = new Set(await names(one));
    assert.ok(all.has('by two again') && all.has('by two (copy)'), [...all].join());
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('that race lose no state of either', async () => {
    const { page: one, context, faults } = await open(where, { viewport: DESK });
    await type(one, 'start');
    const two = await secondTab(context);
    const last = {};
    for (let round = 0; round < 6; round += 1) {
      await Promise.all([one, two].map((page, i) => {
        last[i] = `tab ${i}, round ${round}`;
        return entry(page, 'Name').fill(last[i]);
      }));
      await one.waitForTimeout(60 * round);
    }
    await settle(one);
    const all = await names(two);
    assert.ok(all.includes(last[0]) && all.includes(last[1]), all.join('; '));
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('each reloads with its own flute', async () => {
    const { page: one, context } = await open(where, { viewport: DESK });
    await type(one, 'the first');
    const two = await secondTab(context);
    await two.getByRole('button', { name: 'Back to the example' }).click();
    await settle(two);
    await type(two, 'the second');
    await again(one);
    await again(two);
    assert.equal(await entry(one, 'Name').inputValue(), 'the first');
    assert.equal(await entry(two, 'Name').inputValue(), 'the second');
    await context.close();
  });
});

describe('a browser killed in mid-save', { skip: process.platform === 'win32' }, () => {
  /** The processes of a browser with this profile, the parent first. */
  const processes = (profile) => execFileSync('ps', ['-eo', 'pid,args'], { encoding: 'utf8' }).split('\n')
    .filter((line) => line.includes(profile)).map((line) => Number(line.trim().split(' ')[0]));

  /** Counts the states that the browser has said are on the disk, by the number in the flute's name. */
  const count = () => {
    globalThis.onDisk = -1;
    const put = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function counted(value, ...more) {
      const burst = Number(/"name":"burst (\d+)"/.exec(value.json)?.[1] ?? -1);
      this.transaction.addEventListener('complete', () => { globalThis.onDisk = burst; });
      return put.call(this, value, ...more);
    };
  };

  it('comes back with all that the browser has said is kept, however slow its disk', async () => {
    const profile = mkdtempSync(join(tmpdir(), 'canewright-kill-'));
    let context = null;
    const launch = async () => {
      context = await chromium.launchPersistentContext(profile, { viewport: DESK,
        executablePath: process.env.CANEWRIGHT_CHROMIUM ?? '/usr/bin/chromium',
        args: ['--no-sandbox', '--disable-background-networking', '--no-first-run'] });
      await context.addInitScript(count);
      const page = context.pages()[0] ?? await context.newPage();
      await page.goto(where.address);
      await ready(page);
      return page;
    };
    try {
      let page = await launch();
      let onDisk = -1;
      let burst = 0;
      // At least so many, and until some of them are on the disk: then in the middle of more.
      for (let more = 60; (more > 0 || onDisk < 1) && burst < 2000; more -= 1, burst += 1) {
        await entry(page, 'Name').fill(`burst ${burst}`);
        await page.waitForTimeout(15);
        onDisk = await page.evaluate(() => globalThis.onDisk);
      }
      assert.ok(onDisk >= 1, 'nothing was written');
      for (const pid of processes(profile)) {
        try {
          process.kill(pid, 'SIGKILL');
        } catch { /* gone with its parent */ }
      }
      await Promise.race([context.close(), new Promise((later) => { setTimeout(later, 2000); })]).catch(() => {});
      page = await launch();
      // The second copy is looked at once the page has answered: on a loaded machine not at once.
      await page.waitForFunction((least) => [...document.querySelectorAll('input')]
        .some(({ value }) => Number(/^burst (\d+)$/.exec(value)?.[1]) >= least), onDisk, { timeout: 20000 })
        .catch(() => {});  // judged below
      const back = await entry(page, 'Name').inputValue();
      if (process.env.CANEWRIGHT_SHOTS) console.log(`typed ${burst}, on disk ${onDisk}, after the kill: ${back}`);
      assert.ok(Number(/^burst (\d+)$/.exec(back)?.[1]) >= onDisk, `${back}; ${onDisk} was on the disk`);
      assert.deepEqual(await page.locator('.notice').allInnerTexts(), [], 'and no damage');
    } finally {
      await context?.close(); // a browser left open would keep this process for ever
      rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
    }
  });
});

describe('a reload before the keeper has come', () => {
  it('loses nothing that was typed', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    let held = true;
    await page.route('**/parts/listen*', async (route) => {
      while (held) await new Promise((later) => { setTimeout(later, 50); });
      await route.continue().catch(() => {}); // its page is gone
    });
    await page.goto(where.address);
    await ready(page);
    await entry(page, 'Name').fill('typed early');
    assert.deepEqual(await slots(page), [], 'the keeper has come too soon to prove anything');
    await page.reload();
    await ready(page);
    assert.equal(await entry(page, 'Name').inputValue(), 'typed early');
    held = false;
    await page.waitForFunction(() => Object.values(localStorage).some((text) => text.includes('typed early')));
    await context.close();
  });
});

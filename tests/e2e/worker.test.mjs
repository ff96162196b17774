// tests/e2e/worker.test.mjs -- what reckons beside the page: it ends without a word, takes long, is
// stopped, is overtaken, cannot start. Nothing entered is lost, and what happened is said.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { card, logged, press } from './bench_maker.mjs';
import { DESK, PHONE, afterChange, entry, figures, open, shot, site, station } from './page.mjs';
import { notice } from './shelf_page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

/** All workers end as they do where a browser is short of memory: without any event. */
const end = (page) => Promise.all(page.workers().map((worker) => worker.evaluate(() => self.close()).catch(() => {})));
/** They reckon for so long, and hear nothing meanwhile. */
const busy = (page, ms) => void Promise.all(page.workers().map((worker) => worker.evaluate((most) => {
  for (const until = Date.now() + most; Date.now() < until;);
}, ms).catch(() => {})));

async function toBench(page) {
  await station(page, 'bench');
  await page.locator('.card .primary:not([disabled])').waitFor();
}

describe('a worker that ends in the middle', () => {
  it('is started again: the entry is kept at once, the next step comes, and it is said', async () => {
    const { page, context, faults } = await open(where, { viewport: PHONE });
    await toBench(page);
    const first = await card(page);
    assert.match(first.text, /^Saw the foot/);
    busy(page, 700);
    await press(page, 'Sawn: log it');
    assert.equal(await logged(page), 1, 'kept first');
    await end(page);
    await page.waitForFunction((old) => document.querySelector('.card .do').textContent.replace(/\s+/g, ' ')
      .trim() !== old, first.text);
    const said = notice(page, 'was started again');
    await said.waitFor();
    await shot(page, 'phone-worker-restarted-light');
    await said.getByRole('button', { name: 'All right' }).click();
    await said.waitFor({ state: 'detached' });
    await station(page, 'marks');
    await end(page);
    await station(page, 'cane');
    await afterChange(page, () => entry(page, 'Wall').fill('3.4'));
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('is not taken for one while it only reckons long', async () => {
    const { page, context, faults } = await open(where, { viewport: PHONE });
    await toBench(page);
    busy(page, 9000);
    await press(page, 'Sawn: log it');
    assert.equal(await logged(page), 1);
    assert.equal(await page.locator('.card').getAttribute('aria-busy'), 'true', 'done is done');
    const wait = page.locator('.bench .working:visible');
    await wait.getByText('2 s').waitFor();
    await page.waitForFunction(() => !/^Saw/.test(document.querySelector('.card .do').textContent.trim()));
    assert.equal(await page.locator('.notice').count(), 0);
    assert.deepEqual(faults, []);
    await context.close();
  });
});

describe('a layout that takes long', () => {
  it('says so, and can be stopped and asked for again', async () => {
    const { page, context, faults } = await open(where, { viewport: DESK, scheme: 'dark' });
    // The first other figure makes the tube the maker's own, which asks once more.
    await afterChange(page, () => entry(page, 'Wall').fill('3.1'));
    await page.waitForTimeout(1000);
    const before = await figures(page);
    busy(page, 120000);
    await entry(page, 'Wall').fill('3.6');
    const line = page.locator('.working:visible');
    await line.getByText('Reckoning …').waitFor();
    await line.getByText('1 s').waitFor();
    await shot(page, 'desk-reckoning-dark');
    await line.getByRole('button', { name: 'Stop' }).click();
    const told = page.locator('.trouble').filter({ hasText: 'You stopped the reckoning' });
    await told.waitFor();
    assert.deepEqual(await figures(page), before);
    await shot(page, 'desk-stopped-dark');
    await afterChange(page, () => told.getByRole('button', { name: 'Reckon it again' }).click());
    assert.equal(await page.locator('.trouble:visible').count(), 0);
    assert.equal(await page.locator('.notice').count(), 0, 'what was asked for is no news');
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('gives way to what is wished for since', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    busy(page, 120000);
    await entry(page, 'Wall').fill('3.6');
    await page.waitForTimeout(100);
    const begun = Date.now();
    await afterChange(page, () => entry(page, 'Wall').fill('3.7'));
    assert.ok(Date.now() - begun < 20000);
    await context.close();
  });
});

describe('a core that cannot start', () => {
  it('is tried once more, then said, with what was kept untouched and a way to try again', async () => {
    const context = await where.browser.newContext({ serviceWorkers: 'block', viewport: PHONE });
    await context.addInitScript(() => {
      if (localStorage.getItem('roomy') !== null) return;
      localStorage.setItem('canewright/1', 'as it was');
      globalThis.tried = 0;
      WebAssembly.instantiate = () => {
        globalThis.tried += 1;
        return Promise.reject(new RangeError('out of memory'));
      };
    });
    const page = await context.newPage();
    await page.goto(where.address);
    const again = page.getByRole('button', { name: 'Try again' });
    await again.waitFor();
    assert.match(await page.locator('#stations').textContent(), /could not start its calculation.*out of memory/s);
    assert.equal(await page.evaluate(() => globalThis.tried), 2);
    assert.equal(await page.evaluate(() => localStorage.getItem('canewright/1')), 'as it was');
    await shot(page, 'phone-no-core-light');
    await page.evaluate(() => {
      localStorage.clear();
      localStorage.setItem('roomy', 'yes');
    });
    await again.click();
    await page.waitForSelector('.plan svg', { state: 'attached' });
    await context.close();
  });
});

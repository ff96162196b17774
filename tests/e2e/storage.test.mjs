// tests/e2e/storage.test.mjs -- keeping in a real browser: no room, damage, what older versions kept.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after, before, describe, it } from 'node:test';
import { DESK, entry, open, ready, settle, site, station } from './page.mjs';
import { again, notice, type } from './shelf_page.mjs';
import { checksum } from '../../web/state/slots.js';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

/** All slots of all flutes: key and text; below, their names, the newest first (a text's second word counts). */
const slots = (page) => page.evaluate(() => Object.entries(localStorage)
  .filter(([key]) => key.startsWith('canewright/flute/')).sort());
const names = async (page) => (await slots(page)).sort(([, a], [, b]) => b.split(' ')[1] - a.split(' ')[1])
  .map(([, text]) => JSON.parse(text.slice(text.indexOf('{'))).doc.name);

describe('keeping', () => {
  it('an untouched page keeps no flute; a touched one is there again, text and all', async () => {
    const { page, context, faults } = await open(where, { viewport: DESK });
    await settle(page);
    assert.deepEqual(await slots(page), []);
    await entry(page, 'Name').fill('Otter bank');
    await entry(page, 'Above the line').fill('about a hand');
    await settle(page);
    assert.ok((await names(page)).includes('Otter bank'));
    await again(page);
    assert.equal(await entry(page, 'Above the line').inputValue(), 'about a hand');
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('a page that is left at once loses nothing', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    await settle(page);
    await entry(page, 'Name').fill('typed a moment ago');
    await again(page);
    assert.equal(await entry(page, 'Name').inputValue(), 'typed a moment ago');
    await context.close();
  });

  it('what version 0.9 kept is taken over, and its text goes only after it was read back', async () => {
    const context = await where.browser.newContext({ serviceWorkers: 'block', viewport: DESK });
    await context.addInitScript(() => {
      if (localStorage.length > 0) return;
      const doc = { format: 'canewright/1', name: 'Kept by 0.9', tube: { bore: [{ at_mm: 0, diameter_mm: 18 }],
        wall_mm: 3, end_mm: 420 }, sound_hole: { length_mm: 5, width_mm: 9 },
      song: { lowest: 'G4', scale: 'minor pentatonic', holes: 5 } };
      localStorage.setItem('canewright/1', JSON.stringify({ doc, good: doc, typed: {}, aside: {}, station: 'cane' }));
    });
    const page = await context.newPage();
    await page.goto(where.address);
    await ready(page);
    await page.waitForFunction(() => localStorage.getItem('canewright/moved') !== null);
    await settle(page);
    assert.equal(await entry(page, 'Name').inputValue(), 'Kept by 0.9');
    assert.notEqual(await page.evaluate(() => localStorage.getItem('canewright/1')), null);
    await again(page);
    await page.waitForFunction(() => localStorage.getItem('canewright/1') === null);
    assert.equal(await entry(page, 'Name').inputValue(), 'Kept by 0.9');
    await context.close();
  });
});

describe('no room', () => {
  it('is said on every station until it is kept; the file is complete', async () => {
    const { page, context, faults } = await open(where, { viewport: DESK });
    await page.evaluate(() => {
      window.setItem = Storage.prototype.setItem;
      Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };
    });
    await entry(page, 'Name').fill('nowhere to go');
    await entry(page, 'Above the line').fill('a thumb');
    const banner = notice(page, 'NOT SAVED');
    await banner.waitFor();
    await station(page, 'bench');
    assert.ok(await banner.isVisible());
    const [file] = await Promise.all([page.waitForEvent('download'),
      banner.getByRole('button', { name: 'Download file' }).click()]);
    const saved = JSON.parse(readFileSync(await file.path(), 'utf8'));
    assert.equal(saved.name, 'nowhere to go');
    assert.equal(saved.x.typed['tube.above_mm'].text, 'a thumb');
    await banner.getByRole('button', { name: 'Try again' }).click();
    await settle(page);
    assert.ok(await banner.isVisible(), 'still no room');
    await page.evaluate(() => { Storage.prototype.setItem = window.setItem; });
    await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
    await banner.waitFor({ state: 'detached' });
    assert.ok((await names(page)).includes('nowhere to go'));
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('really: the browser’s own quota, with the last state that fitted kept', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    await type(page, 'fitted');
    await page.evaluate(() => {
      // Chromium takes 5 Mi characters of one byte; the last few bytes one by one.
      for (let size = 4194304; size >= 1; size = Math.floor(size / 2)) {
        for (let n = 0; ; n += 1) {
          try {
            localStorage.setItem(`filler ${size} ${n}`, 'x'.repeat(size));
          } catch {
            break;
          }
        }
      }
    });
    await entry(page, 'Name').fill('this one is a good deal longer than what there is room for');
    await notice(page, 'NOT SAVED').waitFor();
    assert.ok((await names(page)).includes('fitted'));
    await page.evaluate(() => Object.keys(localStorage).filter((k) => k.startsWith('filler'))
      .forEach((k) => localStorage.removeItem(k)));
    await entry(page, 'Name').fill('fits again');
    await notice(page, 'NOT SAVED').waitFor({ state: 'detached' });
    // The notice goes when the first copy fits; the rest follows.
    for (let n = 0; n < 50 && !(await names(page)).includes('fits again'); n += 1) await page.waitForTimeout(100);
    assert.ok((await names(page)).includes('fits again'));
    await context.close();
  });

  it('of the first copy: after a reload the second is shown, and that it is', async () => {
    const context = await where.browser.newContext({ serviceWorkers: 'block', viewport: DESK });
    await context.addInitScript(() => {
      const { setItem } = Storage.prototype;
      globalThis.makeRoom = () => { Storage.prototype.setItem = setItem; };
      Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };
    });
    const page = await context.newPage();
    await page.goto(where.address);
    await ready(page);
    await entry(page, 'Name').fill('in the second copy');
    await notice(page, 'NOT SAVED').waitFor();
    await settle(page);
    await again(page);
    const said = notice(page, 'Only the second copy is left');
    await said.waitFor();
    assert.match(await said.textContent(), /in the second copy comes from/);
    assert.equal(await entry(page, 'Name').inputValue(), 'in the second copy');
    const [file] = await Promise.all([page.waitForEvent('download'),
      said.getByRole('button', { name: 'Download file' }).click()]);
    assert.equal(JSON.parse(readFileSync(await file.path(), 'utf8')).name, 'in the second copy');
    await page.evaluate(() => globalThis.makeRoom());
    await entry(page, 'Name').fill('has room');
    await notice(page, 'NOT SAVED').waitFor({ state: 'detached' });
    await settle(page);
    // One slot or two of them: what had no room may have been kept before its new name, and after it.
    assert.equal(new Set((await slots(page)).map(([key]) => key.replace(/\/\d$/, ''))).size, 1, 'one flute');
    assert.equal((await names(page))[0], 'has room', 'the newer under its new name');
    await again(page);
    assert.equal(await entry(page, 'Name').inputValue(), 'has room');
    await context.close();
  });

  it('no storage at all: an untouched page says nothing, a touched one does', async () => {
    const context = await where.browser.newContext({ serviceWorkers: 'block', viewport: DESK });
    await context.addInitScript(() => {
      for (const name of ['localStorage', 'sessionStorage']) {
        Object.defineProperty(window, name, { get() { throw new DOMException('denied', 'SecurityError'); } });
      }
    });
    const page = await context.newPage();
    await page.goto(where.address);
    await ready(page);
    await settle(page);
    assert.equal(await page.locator('.notice').count(), 0);
    await page.locator('#tab-shelf').click();
    await page.locator('.shelf li').first().waitFor();
    await page.locator('#tab-marks').click();
    await entry(page, 'Name').fill('unkept');
    await notice(page, 'NOT SAVED').waitFor();
    await context.close();
  });

  it('storage that was cleared meanwhile is written again when the page is left', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    await type(page, 'evicted');
    await page.evaluate(() => localStorage.clear());
    await again(page);
    assert.equal(await entry(page, 'Name').inputValue(), 'evicted');
    await context.close();
  });
});

describe('damage', () => {
  /** Waits until the second copy, too, has a name: the database is asked to be on the disk, which takes a while. */
  const copied = (page, name) => page.evaluate(async (wanted) => {
    const done = (request) => new Promise((on, fail) => {
      request.onsuccess = () => on(request.result);
      request.onerror = () => fail(request.error);
    });
    const base = await done(indexedDB.open('canewright', 1));
    for (let n = 0; n < 300; n += 1) {
      const all = await done(base.transaction('flutes').objectStore('flutes').getAll());
      if (all.some(({ json }) => JSON.parse(json).doc.name === wanted)) break;
      await new Promise((later) => { setTimeout(later, 100); });
    }
    base.close(); // an open one would keep a test from deleting it
  }, name);
  /** Types two states, leaves the page and damages what it kept: the newer slot or both. */
  async function hurt({ page, faults }, which, { second }) {
    await type(page, 'Otter one');
    await type(page, 'Otter two');
    await copied(page, 'Otter two');
    await page.goto(`${where.address}style.css`);
    const slots = (await page.evaluate(() => Object.entries(localStorage)))
      .filter(([key]) => key.startsWith('canewright/flute/'))
      .sort(([, a], [, b]) => a.split(' ')[1] - b.split(' ')[1]);
    // Where an answer is slow a state is kept twice, before and after it: then both slots have the newer.
    const [key, older] = slots[0];
    const one = older.slice(older.indexOf(' ') + 1).replaceAll('Otter two', 'Otter one');
    await page.evaluate(async ([mine, keepsSecond, keys, first]) => {
      localStorage.setItem(keys[0], first);
      for (const key of mine === 'newer' ? keys.slice(-1) : keys) {
        localStorage.setItem(key, localStorage.getItem(key).replace('Otter', 'Ötter'));
      }
      if (keepsSecond) return;
      await new Promise((done, fail) => {
        const request = indexedDB.deleteDatabase('canewright');
        request.onsuccess = done;
        request.onerror = fail;
      });
    }, [which, second, [key, ...slots.slice(1).map(([name]) => name)], `${checksum(one)} ${one}`]);
    await page.goto(where.address);
    await ready(page);
    await notice(page, 'Not all could be read back').waitFor();
    faults.length = 0; // those of the style sheet shown as a page: it has no icon
  }
  const aside = (page) => page.evaluate(() => Object.entries(localStorage)
    .filter(([key]) => key.startsWith('canewright/aside/')).map(([, text]) => text).join());

  it('in one slot: the other is shown, the maker is told, the text is set aside', async () => {
    const opened = await open(where, { viewport: DESK });
    const { page, context, faults } = opened;
    await hurt(opened, 'newer', { second: false });
    assert.equal(await entry(page, 'Name').inputValue(), 'Otter one');
    const [file] = await Promise.all([page.waitForEvent('download'),
      page.getByRole('button', { name: 'Download it' }).click()]);
    assert.match(readFileSync(await file.path(), 'utf8'), /Ötter two/);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('in both: nothing is deleted, and the next flute does not go over it', async () => {
    const opened = await open(where, { viewport: DESK });
    const { page, context, faults } = opened;
    await hurt(opened, 'both', { second: false });
    await type(page, 'a new one');
    await again(page);
    assert.equal(await entry(page, 'Name').inputValue(), 'a new one');
    assert.match(await aside(page), /Ötter one/);
    assert.match(await aside(page), /Ötter two/);
    await page.locator('#tab-shelf').click();
    await page.getByText('Set aside (2)').waitFor();
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('a copy that is ahead is not gone over by what is reckoned of the one behind', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    await page.route('**/parts/recover*', async (route) => {
      await new Promise((later) => { setTimeout(later, 1000); }); // the keeper keeps after 150 ms
      await route.continue();
    });
    await type(page, 'Otter one');
    await type(page, 'Otter two');
    await copied(page, 'Otter two');
    await page.goto(`${where.address}style.css`);
    const [[key, text]] = (await page.evaluate(() => Object.entries(localStorage)))
      .filter(([name]) => name.startsWith('canewright/flute/')).map(([name, slot]) => [name, slot.slice(slot.indexOf('{'))]);
    const { doc, ...kept } = JSON.parse(text);
    // As it is kept before its answer is there: the last good one is another.
    const json = JSON.stringify({ ...kept, doc: { ...doc, name: 'Otter one' }, good: { ...doc, name: 'Otter' } });
    const slot = `1 1 ${json}`;
    await page.evaluate(([mine, behind]) => {
      for (const name of Object.keys(localStorage)) if (name.startsWith('canewright/flute/')) localStorage.removeItem(name);
      localStorage.setItem(mine, behind);
    }, [key, `${checksum(slot)} ${slot}`]);
    await page.goto(where.address);
    await ready(page);
    await page.waitForFunction(() => document.querySelector('#title-marks').textContent.endsWith('Otter two'));
    await context.close();
  });

  for (const which of ['newer', 'both']) {
    it(`(${which}) is made good from the second copy where there is one`, async () => {
      const opened = await open(where, { viewport: DESK });
      const { page, context, faults } = opened;
      await hurt(opened, which, { second: true });
      await page.waitForFunction(() => document.querySelector('#title-marks').textContent
        .endsWith('Otter two'));
      assert.match(await aside(page), /Ötter two/);
      await again(page);
      assert.equal(await entry(page, 'Name').inputValue(), 'Otter two');
      assert.deepEqual(faults, []);
      await context.close();
    });
  }
});

// tests/e2e/link.test.mjs -- a flute passed on: link, QR code, share sheet, log, from a file too.
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, describe, it } from 'node:test';
import { pathToFileURL } from 'node:url';
import { packFile } from '../../tools/pack/file.mjs';
import { DESK, PHONE, open, ready, settle, shot, site } from './page.mjs';
import { DOC, again, bringAll, deed, downloaded, linkIn, passOn, scan, toShelf, type } from './shelf_page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

const strip = (page) => page.locator('.notice[data-kind=link]');

/** A flute from a file, taken in hand. */
async function bring(page, doc) {
  await bringAll(page, doc);
  await deed(page, doc.name, 'Take in hand');
  const held = page.locator('.shelf .held').filter({ hasText: doc.name });
  await held.waitFor();
  return held;
}
const readings = (count) => Array.from({ length: count }, (_, i) => ({ read: { open: [], hz: 380 + i / 10 } }));

describe('a link', () => {
  it('is made on the shelf, drawn, and read back by another library at 260 px, light and dark', async () => {
    for (const scheme of ['light', 'dark']) {
      const { page, context, faults } = await open(where, { viewport: PHONE, scheme });
      const link = await passOn(page);
      assert.ok(link.startsWith(`${where.address}#1.`) && link.endsWith('Z'), link);
      assert.match(link.slice(link.indexOf('#') + 1), /^1\.[\w-]+Z$/);
      await page.locator('.qr').waitFor();
      await shot(page, `phone-shelf-link-${scheme}`);
      assert.equal(await scan(page, '.qr', 260), link);
      assert.deepEqual(faults, []);
      await context.close();
    }
  });

  it('of the example is at most 200 characters, its code at most version 10', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    const link = await passOn(page);
    // An address of 36 characters, as web.md counts; this one is shorter or longer by its own.
    assert.ok(link.slice(link.indexOf('#')).length + 36 <= 200, `${link.length}`);
    await page.locator('.qr').waitFor();
    // ISO/IEC 18004: version v has 17 + 4 v modules a side.
    assert.ok(Number(await page.locator('.qr').getAttribute('data-modules')) <= 17 + 4 * 10);
    await context.close();
  });

  it('follows what is changed, can be copied, and goes to the share sheet as an address only', async () => {
    const context = await where.browser.newContext({ serviceWorkers: 'block', viewport: DESK, permissions: ['clipboard-read', 'clipboard-write'] });
    await context.addInitScript(() => {
      navigator.share = async (what) => {
        window.shared = what;
        if (window.thinksBetter) throw new DOMException('', 'AbortError');
      };
    });
    const page = await context.newPage();
    await page.goto(where.address);
    await ready(page);
    await type(page, 'one');
    const first = await passOn(page);
    await page.locator('.held').getByRole('button', { name: 'Rename' }).click();
    await page.getByLabel('New name').first().fill('another name');
    await page.getByLabel('New name').first().press('Enter');
    await page.waitForFunction((old) => document.querySelector('.link-box').value !== old, first);
    const link = await linkIn(page);
    await page.getByRole('button', { name: 'Copy link' }).first().click();
    await page.getByText('Copied.').waitFor();
    assert.equal(await page.evaluate(() => navigator.clipboard.readText()), link);
    await page.getByRole('button', { name: 'Share …' }).first().click();
    assert.deepEqual(await page.evaluate(() => window.shared), { url: link });
    await page.evaluate(() => { window.thinksBetter = true; });
    await page.getByRole('button', { name: 'Share …' }).first().click();
    await settle(page);
    assert.equal(await page.getByText('did not share').count(), 0);
    await context.close();
  });

  it('takes the log along only if asked; too much for a code is said', async () => {
    const { page, context, faults } = await open(where, { viewport: DESK });
    const held = await bring(page, { ...DOC, log: readings(24) });
    await held.getByRole('button', { name: 'Pass it on' }).click();
    const without = await linkIn(page);
    await page.getByLabel('With its log: 24 entries').first().check();
    await page.waitForFunction((old) => ![...document.querySelectorAll('.link-box')]
      .some((box) => box.value === old), without);
    const link = await held.locator('.link-box').inputValue();
    assert.ok(link.length > without.length + 24);
    for (const [address, entries] of [[without, undefined], [link, 24]]) {
      const guest = await open({ ...where, address });
      await strip(guest.page).filter({ hasText: 'Opened from a link' }).waitFor();
      await toShelf(guest.page);
      const { text } = await downloaded(guest.page, () => deed(guest.page, DOC.name, 'Download file'));
      const doc = JSON.parse(text);
      assert.equal(doc.name, DOC.name);
      assert.equal(doc.log?.length, entries);
      await guest.context.close();
    }
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('that is too long for a code is offered without one', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    const noted = readings(60).map((entry, i) => ({ ...entry, note: `blown warm, number ${i}` }));
    const held = await bring(page, { ...DOC, log: noted });
    await held.getByRole('button', { name: 'Pass it on' }).click();
    await linkIn(page);
    await held.getByLabel('With its log: 60 entries').check();
    await held.getByText('too long for a QR code').waitFor();
    assert.equal(await held.locator('.qr').count(), 0);
    assert.ok((await held.locator('.link-box').inputValue()).length > 412); // bytes in 15-M: ISO/IEC 18004
    await context.close();
  });
});

describe('the page opened as a file', { skip: process.env.CANEWRIGHT_URL !== undefined }, () => {
  it('says that a link needs an address, and takes the one that is typed', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'canewright-file-'));
    const file = process.env.CANEWRIGHT_FILE ?? join(folder, 'canewright.html');
    if (!process.env.CANEWRIGHT_FILE) await packFile({ out: file });
    const { page, context, faults } = await open({ ...where, address: pathToFileURL(file).href });
    await toShelf(page);
    await page.locator('.shelf summary').first().click();
    await page.getByRole('button', { name: 'Pass it on' }).first().click();
    const box = page.locator('.link-box').first();
    await page.waitForFunction(() => /^#1\./.test(document.querySelector('.link-box').value));
    assert.ok(await page.getByText('A link needs the page on the web').isVisible());
    assert.equal(await page.locator('.qr').count(), 0, 'a code nobody can open');
    await page.getByLabel('Address of the page').fill('https://flute.example/page/#x');
    await page.locator('.qr').waitFor();
    const link = await box.inputValue();
    assert.match(link, /^https:\/\/flute\.example\/page\/#1\.[\w-]+Z$/);
    assert.equal(await scan(page, '.qr', 260), link);
    // The same file takes the link in as well.
    await page.evaluate((fragment) => { location.hash = fragment; }, link.split('#')[1]);
    await strip(page).waitFor();
    await again(page);
    assert.match(await passOn(page), /^https:\/\/flute\.example\/page\//, 'the address is kept');
    assert.deepEqual(faults, []);
    await context.close();
    rmSync(folder, { recursive: true });
  });
});

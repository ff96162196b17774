// tests/e2e/link_open.test.mjs -- a link that comes in: beside the maker's own work, never in its place.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESK, entry, figures, open, settle, shot, site } from './page.mjs';
import { again, passOn, toShelf, type } from './shelf_page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

const strip = (page) => page.locator('.notice[data-kind=link]');

describe('a link that is opened', () => {
  let link;
  let marks;
  before(async () => {
    const { page, context } = await open(where, { viewport: DESK });
    await type(page, 'From the other bench');
    await entry(page, 'Sound hole width').fill('8.5');
    await settle(page);
    marks = await figures(page);
    link = await passOn(page);
    await context.close();
  });
  /** A maker with work of their own. */
  async function maker(address = where.address) {
    const opened = await open(where, { viewport: DESK });
    await type(opened.page, 'My own tube');
    await entry(opened.page, 'Below the line').fill('405');
    await settle(opened.page);
    opened.own = await figures(opened.page);
    if (address !== where.address) {
      await opened.page.evaluate((to) => { location.href = to; }, address);
      await strip(opened.page).waitFor();
    }
    return opened;
  }

  it('shows its marks beside the maker’s own work, which comes back', async () => {
    const { page, context, faults, own } = await maker(link);
    await strip(page).filter({ hasText: 'Opened from a link' }).waitFor();
    await page.waitForFunction(() => document.querySelector('#title-marks').textContent.includes('other bench'));
    assert.deepEqual(await figures(page), marks);
    assert.equal(page.url(), link, 'the address stays the sender’s');
    await shot(page, 'desk-link-opened');
    await page.getByRole('button', { name: 'Back to mine' }).click();
    await page.waitForFunction(() => document.querySelector('#title-marks').textContent.includes('My own'));
    assert.deepEqual(await figures(page), own);
    assert.equal(page.url(), where.address);
    await toShelf(page);
    assert.equal(await page.locator('.shelf li').count(), 1, 'nothing was kept of it');
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('is kept as a flute of its own once it is changed, and the address is the maker’s again', async () => {
    const { page, context } = await maker(link);
    await page.waitForFunction(() => document.querySelector('#title-marks').textContent.includes('other bench'));
    await type(page, 'From the other bench, changed');
    assert.equal(page.url(), where.address);
    await again(page);
    assert.equal(await entry(page, 'Name').inputValue(), 'From the other bench, changed');
    await toShelf(page);
    assert.deepEqual((await page.locator('.shelf .title').allTextContents()).sort(),
      ['From the other bench, changed', 'My own tube']);
    await context.close();
  });

  it('is there again after a reload, and so is the maker’s own', async () => {
    const { page, context } = await maker(link);
    await again(page);
    await page.waitForFunction(() => document.querySelector('#title-marks').textContent.includes('other bench'));
    await page.getByRole('button', { name: 'Back to mine' }).click();
    await page.waitForFunction(() => document.querySelector('#title-marks').textContent.includes('My own'));
    await context.close();
  });

  it('on a fresh page leads back to the example, and may be percent-encoded', async () => {
    const encoded = link.replace('#1.', '#%31%2E').replace(/Z$/, '%5A');
    const { page, context, faults } = await open({ ...where, address: encoded });
    await page.waitForFunction(() => document.querySelector('#title-marks').textContent.includes('other bench'));
    await page.getByRole('button', { name: 'Back to the example' }).first().click();
    await page.waitForFunction(() => document.querySelector('#title-marks').textContent.includes('Willow'));
    await settle(page);
    assert.deepEqual(await page.evaluate(() => Object.keys(localStorage)
      .filter((key) => key.startsWith('canewright/flute/'))), []);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('damaged in any way gets a sentence; the own work and the text stay', async () => {
    const body = link.slice(link.indexOf('#') + 1);
    const other = body[20] === 'A' ? 'B' : 'A';
    const bad = {
      'has cut it': [body.slice(0, -9), body.slice(0, -1)],
      'has changed on the way': [body.slice(0, 20) + other + body.slice(21)],
      'newer version': [body.replace(/^1/, '2')],
      'not a link to a flute': ['nonsense', '<img src=x onerror=alert(1)>'],
      'longer than any': [`1.${'A'.repeat(13000)}Z`],
    };
    const { page, context, faults, own } = await maker();
    for (const [words, texts] of Object.entries(bad)) {
      for (const text of texts) {
        await page.evaluate((to) => { location.hash = to; }, text);
        await strip(page).filter({ hasText: words }).waitFor();
        const address = page.url();
        assert.equal(await strip(page).getByRole('textbox').inputValue(),
          address.slice(address.indexOf('#') + 1));
        assert.deepEqual(await figures(page), own);
        await strip(page).getByRole('button', { name: 'Close' }).click();
      }
    }
    await again(page);
    assert.equal(await entry(page, 'Name').inputValue(), 'My own tube');
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('can be mended in its box, and pasted on the shelf', async () => {
    const { page, context } = await maker(`${link.slice(0, -9)}`);
    await strip(page).filter({ hasText: 'has cut it' }).waitFor();
    await strip(page).getByRole('textbox').fill(link.slice(link.indexOf('#') + 1));
    await strip(page).getByRole('button', { name: 'Try this text' }).click();
    await strip(page).filter({ hasText: 'Opened from a link' }).waitFor();
    await page.getByRole('button', { name: 'Back to mine' }).click();
    await toShelf(page);
    await page.getByLabel('Open a link that was sent to you').fill(` ${link} `);
    await page.getByRole('button', { name: 'Open', exact: true }).click();
    await strip(page).filter({ hasText: 'From the other bench' }).waitFor();
    await context.close();
  });

  it('waits while the maker’s own work cannot be kept', async () => {
    const { page, context, own } = await maker();
    await page.evaluate(() => { Storage.prototype.setItem = () => { throw new Error('full'); }; });
    await entry(page, 'Name').fill('not kept');
    await page.evaluate((to) => { location.href = to; }, link);
    await strip(page).filter({ hasText: 'not opened yet' }).waitFor();
    assert.equal(await entry(page, 'Name').inputValue(), 'not kept');
    assert.deepEqual(await figures(page), own);
    await context.close();
  });
});

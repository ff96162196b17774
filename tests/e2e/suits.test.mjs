// tests/e2e/suits.test.mjs -- what a tube can be: asked for with one tap, taken with another; and what would put a
// layout right, said where it is wrong.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { PHONE, entry, figures, foreign, open, site, station } from './page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

const lowest = (page) => entry(page, 'Note').inputValue();

describe('what this tube can be', () => {
  it('a tube is typed, a suggestion is tapped, its marks are there: three taps', async () => {
    const { page, context, faults, late } = await open(where, { viewport: PHONE });
    await station(page, 'cane');
    await entry(page, 'Bore 1').fill('14.6'); // one of the at most eight fields that a tube has
    const panel = page.locator('#station-cane details.suits');
    await panel.waitFor();
    assert.equal(await panel.locator('.suit').count(), 0, 'nothing is reckoned before it is asked for');
    await panel.locator('summary').click(); // 1
    const second = panel.locator('.suit').nth(1);
    await second.waitFor();
    assert.match(await panel.locator('.suit').first().textContent(), /from sound hole to foot/);
    const name = await second.locator('h4').textContent();
    const before = await figures(page);
    await second.getByRole('button').click(); // 2
    await page.waitForFunction(() => /^Taken/.test(document.querySelector('#station-cane .suits .note[role=status]').textContent));
    await station(page, 'marks'); // 3
    await page.waitForFunction((old) => JSON.stringify([...document.querySelectorAll('.rows .row .at')]
      .map((e) => e.textContent)) !== old, JSON.stringify(before));
    await station(page, 'song');
    assert.equal(await lowest(page), name.split(',')[0]);
    assert.deepEqual([faults, foreign(late, page)], [[], []]);
    await context.close();
  });

  it('a song that cannot be had names the nearest, and one tap takes it', async () => {
    const { page, context, faults } = await open(where, { viewport: PHONE });
    await station(page, 'song');
    await entry(page, 'Note').fill('C4');
    const mends = page.locator('#station-song .mends');
    const take = mends.getByRole('button').first();
    await take.waitFor();
    await take.click();
    await page.waitForFunction(() => document.querySelector('#station-song .cannot').hidden);
    await page.waitForFunction(() => document.querySelector('#station-song .mends').hidden);
    assert.notEqual(await lowest(page), 'C4');
    assert.deepEqual(faults, []);
    await context.close();
  });
});

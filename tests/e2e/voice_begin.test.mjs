// tests/e2e/voice_begin.test.mjs -- a sound hole to begin with: proposed for a breath, taken with one tap.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { PHONE, entry, foreign, open, site, station } from './page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

describe('a sound hole to begin with', () => {
  it('is asked for when it is opened, says the breath it wants, and is taken with one tap', async () => {
    const { page, context, faults, late } = await open(where, { viewport: PHONE });
    await station(page, 'voice');
    const panel = page.locator('details.begin');
    await panel.waitFor();
    assert.equal(await panel.locator('.part').count(), 0, 'nothing is reckoned before it is asked for');
    await panel.locator('summary').click();
    await panel.locator('.part').nth(1).waitFor();
    const texts = await panel.locator('.part p').allTextContents();
    assert.match(texts[0], /along the tube, .* across.*It wants \d+ Pa \([\d.]+ mm of water\)/);
    const wanted = Number(/^(\d+([.,]\d+)?)/.exec(texts[0])[1].replace(',', '.'));
    await panel.locator('.part').first().getByRole('button').click();
    await page.waitForFunction(() => /^Taken/.test(document.querySelector('.begin [role=status]').textContent));
    await station(page, 'cane');
    const length = await entry(page, 'Sound hole length').inputValue();
    assert.equal(Number(length.replace(',', '.')), wanted);
    assert.deepEqual([faults, foreign(late, page)], [[], []]);
    await context.close();
  });
});

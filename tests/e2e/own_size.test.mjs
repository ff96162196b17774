// tests/e2e/own_size.test.mjs -- the filled sheet of a flute and what flutes teach, on narrow phones, in letters up to
// twice the usual (WCAG 2.2, 1.4.4 and 1.4.10): nothing overprints, is cut off or scrolls sideways.
import assert from 'node:assert/strict';
import { after, before, it } from 'node:test';
import { open, site } from './page.mjs';
import { faultsOf, letters } from './looks.mjs';
import { DOC, bringIn, outcome, toShelf } from './shelf_page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

it('sheet and hand hold letters of any size', async () => {
  const { page, context, faults } = await open(where, { viewport: { width: 360, height: 740 } });
  const session = await context.newCDPSession(page);
  await toShelf(page);
  const log = [{ foot: { at_mm: 390 } }, { read: { open: [], hz: 383, sigma_cents: 2 } }];
  await bringIn(page, JSON.stringify({ ...DOC, log }));
  await outcome(page, 'put on the shelf');
  await page.getByText('What your flutes teach').click();
  await page.locator('.hand').getByLabel(DOC.name).check();
  await page.getByRole('button', { name: 'Start from these' }).click();
  await page.locator('.hand .told p').first().waitFor();
  await page.getByText('A flute you have').click();
  const line = (name) => page.locator('.own').getByLabel(name, { exact: true });
  await page.locator('.own').getByRole('button', { name: 'inches' }).click();
  for (const [name, text] of [['Name', 'By the river'], ['Bore', '23/32'], ['Wall', '1/8'], ['Sound hole, along', '3/16'],
    ['Sound hole, across', '3/8'], ['Hole 5: place', '11 13/64'], ['Hole 5: width', '19/64'], ['Hole 5: sounds', 'B♭4 -12'],
    ['Foot: place', '15 5/64'], ['Foot: sounds', 'G4 -9']]) await line(name).fill(text);
  await page.locator('.own .wish').filter({ hasText: 'Proposed' }).waitFor();
  await line('Hole 5: place').click();  // the keys for fractions are under it
  await page.locator('.own').getByRole('button', { name: 'space' }).waitFor();
  const found = [];
  for (const width of [320, 360]) {
    for (const px of [16, 21, 26, 32]) {
      await page.setViewportSize({ width, height: 740 });
      await letters(session, px);
      await page.evaluate(() => new Promise((on) => { requestAnimationFrame(() => requestAnimationFrame(on)); }));
      found.push(...(await faultsOf(page)).map((one) => `${width} px, letters of ${px}: ${one}`));
    }
  }
  assert.deepEqual(found, []);
  assert.deepEqual(faults, []);
  await context.close();
});

// tests/e2e/doubt.test.mjs -- what a plan cannot give is said on the Bench before anything is cut for it; a document that
// names its holes without counting them has its count everywhere.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after, before, it } from 'node:test';
import { loadModule } from '../wasm/engines.mjs';
import { PHONE, open, shot, site, station } from './page.mjs';

let where, workshop;
before(async () => { [where, workshop] = await Promise.all([site(), loadModule('workshop')]); });
after(async () => { await where.close(); });

const stored = (path) => JSON.parse(readFileSync(new URL(`../data/${path}.json`, import.meta.url), 'utf8'));

/** A flute that a link brings. */
async function linked(doc) {
  const opened = await open(where, { viewport: PHONE });
  const { answer } = JSON.parse(workshop.run('link', JSON.stringify({ name: 'Linked', ...doc })));
  await opened.page.evaluate((link) => { location.hash = link; }, answer.link);
  await opened.page.locator('.notice[data-kind=link]').waitFor();
  return opened;
}

it('a note that the plan leaves off is named on the card, and counts in what the build comes to', async () => {
  const { page, context, faults } = await linked(stored('repro/one_bit'));
  await station(page, 'bench');
  const card = page.locator('section.card');
  await card.locator('.doubt').waitFor();
  assert.match(await card.locator('.doubt').innerText(), /^By this plan G5 comes out 27 cents flat\.\s+What is cut cannot be put back/);
  assert.match(await card.locator('.stands').innerText(), /every note within 31 cents, probably/);
  await shot(page, 'phone-bench-doubt');
  await card.getByRole('button', { name: 'See Marks' }).click();
  await page.locator('#station-marks').waitFor();
  assert.match(await page.locator('#station-marks').innerText(), /These notes cannot be had of this tube.*nearest of your bits: costs/s);
  assert.deepEqual(faults, []);
  await context.close();
});

it('where all can be had the card says nothing of the kind', async () => {
  const { page, context } = await linked(stored('documents/six_holes'));
  await station(page, 'bench');
  await page.locator('section.card .stands').waitFor();
  assert.equal(await page.locator('.doubt').count(), 0);
  await context.close();
});

it('holes that nobody counted are counted', async () => {
  const { song: { holes, ...song }, ...rest } = stored('repro/floating_plan_wanders');
  assert.equal(holes, undefined, 'it says how many it has: this tests nothing');
  const { page, context, faults } = await linked({ ...rest, song, log: undefined });
  assert.match(await page.locator('#station-marks').innerText(), /minor pentatonic, five holes/);
  await station(page, 'song');
  assert.doesNotMatch(await page.locator('#station-song').innerText(), /undefined/);
  assert.deepEqual(faults, []);
  await context.close();
});

// tests/e2e/octaves.test.mjs -- octaves as a goal: chosen on Voice, seen on Marks, taken back.
import assert from 'node:assert/strict';
import { after, before, it } from 'node:test';
import { PHONE, open, settle, site, station } from './page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

const worst = async (page) => Number((await page.locator('.octaves p').first().textContent()).match(/: (\d+) cents/)[1]);
const marksOf = (page) => page.locator('.rows .at').allTextContents();
const offOf = (page) => page.locator('.rows .off-by').allTextContents();
/** Chooses how much octaves count and waits until the notes' octaves are others. */
async function choose(page, name) {
  const old = await page.locator('.breaths').textContent();
  await page.getByRole('radio', { name, exact: true }).check();
  await page.waitForFunction((before) => document.querySelector('.breaths').textContent !== before, old);
}

it('octaves that count become truer, the notes stay in tune, and it can be taken back', async () => {
  const { page, context, faults } = await open(where, { viewport: PHONE });
  const before = await marksOf(page);
  await station(page, 'voice');
  await page.waitForFunction(() => /cents/.test(document.querySelector('.octaves p')?.textContent ?? ''));
  assert.ok(await page.getByRole('radio', { name: 'not at all', exact: true }).isChecked());
  const asTheyCome = await worst(page);
  await choose(page, 'a little');
  const aLittle = await worst(page);
  await choose(page, 'most');
  const most = await worst(page);
  assert.ok(most <= aLittle && aLittle < 0.7 * asTheyCome, `${asTheyCome}, ${aLittle}, ${most}`);
  await station(page, 'marks');
  await settle(page);
  assert.notDeepEqual(await marksOf(page), before);
  assert.ok((await offOf(page)).every((words) => words === 'in tune'));

  // It travels with the flute: the page opens with it again.
  await page.reload();
  await page.waitForSelector('.rows .at');
  await station(page, 'voice');
  await page.waitForFunction((cents) => document.querySelector('.octaves p')?.textContent.includes(`: ${cents} cents`), most);
  assert.ok(await page.getByRole('radio', { name: 'most', exact: true }).isChecked());
  await choose(page, 'not at all');
  assert.equal(await worst(page), asTheyCome);
  await station(page, 'marks');
  await settle(page);
  assert.deepEqual(await marksOf(page), before);
  assert.deepEqual(faults, []);
  await context.close();
});

// tests/e2e/plan.test.mjs -- a build under way that another version of the page would lay out otherwise.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { LOOKS, marksMm, open, settle, shot, site, station } from './page.mjs';
import { again, downloaded, linkIn, notice, passOn } from './shelf_page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

/** The flute in hand as another version had kept it: one hole elsewhere. */
const byAnother = (page, number, moved_mm) => page.evaluate(async ([which, mm]) => {
  const { 0: [key, text] } = Object.entries(localStorage).filter(([k]) => k.startsWith('canewright/flute/'))
    .sort(([, a], [, b]) => b.split(' ')[1] - a.split(' ')[1]);
  const [, revision, at, json] = /^\w+ (\d+) (\d+) (\{.*)$/s.exec(text);
  const kept = JSON.parse(json);
  kept.marks.by = 'another version';
  kept.marks.finger_holes[which - 1].at_mm += mm;
  const rest = `${Number(revision) + 1} ${at} ${JSON.stringify(kept)}`;
  let sum = 0x811c9dc5;
  for (let i = 0; i < rest.length; i += 1) sum = Math.imul(sum ^ rest.charCodeAt(i), 0x1000193);
  localStorage.setItem(key, `${(sum >>> 0).toString(16)} ${rest}`);
}, [number, moved_mm]);

/** A build under way, kept. */
async function begin(page) {
  await station(page, 'bench');
  const button = page.getByRole('button', { name: 'Sawn: log it' });
  await button.and(page.locator(':not([disabled])')).waitFor();
  await button.click();
  await page.waitForFunction(() => document.querySelector('.log').getAttribute('data-entries') === '1');
  await settle(page);
  await station(page, 'marks');
  return marksMm(page);
}

/** Opens the page again with what another version had kept. */
async function comeBack(page, number, mm) {
  await page.goto(`${where.address}style.css`);  // so that nothing more is written
  await byAnother(page, number, mm);
  await page.goto(where.address);
  await page.waitForSelector('.plan svg', { state: 'attached' });
}

describe('a build under way', () => {
  for (const [name, viewport, scheme] of LOOKS) {
    it(`keeps its marks until the maker takes the new ones (${name}, ${scheme})`, async () => {
      const { page, context } = await open(where, { viewport, scheme });
      const now = await begin(page);
      await comeBack(page, 2, -0.8);
      const said = notice(page, 'The marks stand as they were');
      await said.waitFor();
      const words = await said.locator('li').allTextContents();
      assert.equal(words.length, 1);
      assert.match(words[0], new RegExp(`^hole 2: [\\d.]+ → ${now[2].toFixed(1)} mm$`));
      await page.waitForFunction((old) => document.querySelectorAll('.rows .row .at')[2].textContent !== old,
        now[2].toFixed(1));
      const shown = await marksMm(page);
      assert.ok(Math.abs(shown[2] - (now[2] - 0.8)) < 0.11, `${shown[2]} ${now[2]}`);
      await shot(page, `${name}-plan-moved-${scheme}`);
      await station(page, 'bench');
      assert.ok(await said.isVisible());
      await shot(page, `${name}-plan-moved-bench-${scheme}`);
      await station(page, 'marks');
      await said.getByRole('button', { name: 'Take the new' }).click();
      await said.waitFor({ state: 'detached' });
      await page.waitForFunction((want) => document.querySelectorAll('.rows .row .at')[2].textContent === want,
        now[2].toFixed(1));
      await settle(page);
      await again(page);
      await settle(page);
      assert.equal(await page.locator('.notice').count(), 0);
      assert.deepEqual(await marksMm(page), now);
      await context.close();
    });
  }

  it('whose old marks were chosen has them after a reload, in its file and in its link', async () => {
    const { page, context } = await open(where);
    const now = await begin(page);
    await comeBack(page, 2, 0.8);
    const said = notice(page, 'The marks stand as they were');
    await said.getByRole('button', { name: 'Keep the old marks' }).click();
    await said.waitFor({ state: 'detached' });
    await page.waitForFunction((old) => document.querySelectorAll('.rows .row .at')[2].textContent !== old,
      now[2].toFixed(1));
    await settle(page);
    const old = await marksMm(page);
    assert.ok(Math.abs(old[2] - now[2] - 0.8) < 0.11, `${old[2]} ${now[2]}`);
    const same = () => page.waitForFunction((want) => document.querySelectorAll('.rows .row .at')[2]
      ?.textContent === want, old[2].toFixed(1));
    await again(page);
    await same();
    const bare = await passOn(page);
    const held = page.locator('.shelf .held');
    const { text } = await downloaded(page, () => held.getByRole('button', { name: 'Download file' }).click());
    const { plan } = JSON.parse(text).x;
    assert.deepEqual([plan.by, plan.kept], ['another version', true]);
    await held.getByLabel(/With its log/).check();
    await page.waitForFunction((short) => document.querySelector('.link-box').value.length > short.length, bare);
    const link = await linkIn(page);
    await context.close();
    const other = await open({ ...where, address: link });
    await notice(other.page, 'Opened from a link').waitFor();
    await settle(other.page);
    assert.deepEqual(await marksMm(other.page), old);
    assert.equal(await notice(other.page, 'The marks stand').count(), 0, 'it was chosen');
    await other.context.close();
  });
});

// tests/e2e/access.test.mjs -- every station, both sizes, light and dark, looked over by axe-core
// (rules of WCAG 2.0 to 2.2, A and AA, and its best practices), and touch targets measured.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { after, before, describe, it } from 'node:test';
import { LOOKS, DESK, PHONE, afterChange, entry, open, settle, shot, site, station } from './page.mjs';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

/** The page's own policy would refuse the checker, so it is switched off here and only here. */
async function openWithAxe(options) {
  const opened = await open(where, { ...options, bypassCSP: true });
  await opened.page.addScriptTag({ content: axeSource });
  return opened;
}

const violations = (page) => page.evaluate(async (tags) => {
  const { violations: found } = await window.axe.run(document, { runOnly: tags });
  return found.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(' | ')}`);
}, TAGS);

describe('access', () => {
  for (const [name, viewport, scheme] of LOOKS) {
    it(`axe finds nothing: ${name}, ${scheme}`, async () => {
      const { page, context } = await openWithAxe({ viewport, scheme });
      for (const key of ['marks', 'cane', 'song']) {
        await station(page, key);
        await settle(page);
        assert.deepEqual(await violations(page), [], `${key} as it opens`);
        await shot(page, `${name}-${key}-${scheme}`);
      }
      await page.evaluate(() => document.querySelectorAll('details')
        .forEach((d) => { d.open = true; }));
      await station(page, 'cane');
      await entry(page, 'Sound hole width').fill('wide');
      for (const key of ['cane', 'song', 'marks']) {
        await station(page, key);
        await settle(page);
        assert.deepEqual(await violations(page), [], `${key} with a wrong entry, all open`);
      }
      await page.getByRole('button', { name: /^Try it on/ }).click();
      assert.deepEqual(await violations(page), [], 'while flutes are built');
      await page.waitForFunction(() => document.querySelector('.trial progress').value > 0
        || document.querySelector('.trial table'));
      await page.getByRole('button', { name: /^(Stop|Try again)$/ }).click();
      await page.locator('.trial table').waitFor();
      assert.deepEqual(await violations(page), [], 'with their figures');
      await context.close();
    });
  }

  it('axe would find a planted fault', async () => {
    const { page, context } = await openWithAxe({});
    await station(page, 'cane');
    await page.evaluate(() => {
      const label = document.querySelector('#station-cane label');
      label.nextSibling?.remove();
      label.remove();
    });
    assert.ok((await violations(page)).some((v) => v.startsWith('label')));
    await context.close();
  });

  // 44 px: WCAG 2.2, SC 2.5.5; 24 px: SC 2.5.8 (for words inside a sentence, which are exempt).
  it('touch targets on a phone are 44 px, only the chart’s holes are narrower: 38 px', async () => {
    const { page, context } = await open(where);
    for (const key of ['cane', 'song', 'marks']) {
      await station(page, key);
      const small = await page.evaluate(() => [...document.querySelectorAll(
        'button, select, input, summary')].filter((e) => e.offsetParent !== null
        && !e.classList.contains('inline')).map((e) => ({
        what: e.getAttribute('aria-label') ?? e.labels?.[0]?.textContent ?? e.textContent,
        least: e.classList.contains('hole') ? 38 : 44, ...e.getBoundingClientRect().toJSON() }))
        .filter((box) => box.height < 44 || box.width < box.least)
        .map((box) => `${box.what} ${box.width} × ${box.height}`));
      assert.deepEqual(small, [], key);
    }
    await context.close();
  });

  it('figures are typed at 16 px or more, so that no phone zooms in', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    const sizes = await page.evaluate(() => [...document.querySelectorAll('input, select')]
      .map((e) => parseFloat(getComputedStyle(e).fontSize)));
    assert.ok(sizes.length > 15);
    assert.ok(Math.min(...sizes) >= 16, String(Math.min(...sizes)));
    await context.close();
  });

  it('marks are text in order, the drawing is out of the way, changes are announced', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    assert.equal(await page.locator('.plan svg').getAttribute('aria-hidden'), 'true');
    const rows = page.getByRole('list', { name: 'Marks, from the sound hole to the foot' })
      .getByRole('listitem');
    assert.ok(await rows.count() >= 6);
    const live = page.locator('#station-marks > [aria-live=polite].unseen');
    assert.equal(await live.textContent(), '');
    await afterChange(page, () => entry(page, 'Sound hole width').fill('8,1'));
    await page.waitForFunction(() => document.querySelector(
      '#station-marks > [aria-live=polite].unseen').textContent !== '');
    assert.match(await live.textContent(), /^Marks changed: hole 1 at [\d.]+,.*foot at [\d.]+ mm/);
    await context.close();
  });

  it('rows beside the drawing never overlap, in any unit', async () => {
    for (const unit of ['mm', 'inch/64']) {
      const { page, context } = await open(where);
      await page.locator('select[aria-label=Unit]').selectOption(unit);
      await settle(page);
      await page.waitForFunction(() => [...document.querySelectorAll('.row .band')]
        .every((band) => band.textContent !== ''));
      const boxes = await page.locator('.rows .row').evaluateAll((rows) => rows.map((row) => ({
        row: row.getBoundingClientRect().toJSON(),
        parts: [...row.children].map((part) => {
          const range = document.createRange();
          range.selectNodeContents(part);
          return { text: part.textContent, ...range.getBoundingClientRect().toJSON() };
        }),
      })));
      boxes.slice(1).forEach(({ row }, i) => assert.ok(row.top >= boxes[i].row.bottom - 0.5));
      for (const { parts } of boxes) {
        for (const [i, a] of parts.entries()) {
          assert.ok(a.right <= PHONE.width, a.text);
          for (const b of parts.slice(i + 1)) {
            const apart = a.right <= b.left + 0.5 || b.right <= a.left + 0.5
              || a.bottom <= b.top + 3 || b.bottom <= a.top + 3;
            assert.ok(apart, `“${a.text}” and “${b.text}”`);
          }
        }
      }
      await context.close();
    }
  });
});

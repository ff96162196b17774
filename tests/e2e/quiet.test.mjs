// tests/e2e/quiet.test.mjs -- no errors, no requests after the load, any folder, keyboard alone.
import assert from 'node:assert/strict';
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, describe, it } from 'node:test';
import { fileURLToPath } from 'node:url';
import { serve } from '../../tools/serve.mjs';
import { DESK, PHONE, afterChange, entry, figures, foreign, open, ready, settle, shot, site, station }
  from './page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

describe('page', () => {
  for (const [name, viewport] of [['phone', PHONE], ['desk', DESK]]) {
    it(`loads and works without an error or a later request: ${name}`, async () => {
      const { page, context, faults, late } = await open(where, { viewport });
      for (const key of ['cane', 'song', 'marks']) {
        await station(page, key);
        await settle(page);
        await shot(page, `${name}-${key}-light`);
      }
      await station(page, 'cane');
      await afterChange(page, () => entry(page, 'Sound hole width').fill('8,2'));
      await entry(page, 'Sound hole width').fill('x');
      await station(page, 'marks');
      await page.getByRole('combobox', { name: 'Unit', exact: true }).selectOption('inch/64');
      await settle(page);
      assert.deepEqual(faults, []);
      assert.deepEqual(foreign(late, page), []); // the page's own parts come when they are needed
      await context.close();
    });
  }

  it('does not scroll sideways, not even at 320 px', async () => {
    for (const width of [320, 360, 768, 1079, 1080, 1280]) {
      const { page, context } = await open(where, { viewport: { width, height: 740 } });
      for (const key of ['cane', 'song', 'marks']) {
        await station(page, key);
        for (const unit of ['mm', 'inch/64']) {
          await page.locator('select[aria-label=Unit]').selectOption(unit, { force: true });
          const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
          assert.ok(over <= 0, `${width} px, ${key}, ${unit}: ${over} px too wide`);
        }
      }
      await context.close();
    }
  });

  it('works from any sub-folder', { skip: process.env.CANEWRIGHT_URL !== undefined }, async () => {
    const folder = mkdtempSync(join(tmpdir(), 'canewright-'));
    cpSync(process.env.CANEWRIGHT_DIST ?? fileURLToPath(new URL('../../build/site', import.meta.url)),
      join(folder, 'a b', 'flute'), { recursive: true, dereference: true });
    const server = await serve(folder, 0);
    const there = { ...where, address: `${server.address}a%20b/flute/` };
    const { page, context, faults } = await open(there);
    assert.ok((await figures(page)).length >= 6);
    assert.deepEqual(faults, []);
    await context.close();
    await server.close();
    rmSync(folder, { recursive: true });
  });

  it('obeys its own security policy: no script or style in the page itself', async () => {
    const { page, context } = await open(where);
    const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]')
      .getAttribute('content');
    for (const part of ["default-src 'none'", "script-src 'self' 'wasm-unsafe-eval'",
      "style-src 'self'", "base-uri 'none'", "form-action 'none'"]) {
      assert.ok(policy.includes(part), part);
    }
    const blocked = await page.evaluate(() => new Promise((done) => {
      document.addEventListener('securitypolicyviolation', (e) => done(e.effectiveDirective));
      const script = document.createElement('script');
      script.textContent = 'document.title = "run"';
      document.head.append(script);
      setTimeout(() => done('nothing'), 2000);
    }));
    assert.match(blocked, /script-src/);
    await context.close();
  });

  it('can be worked by keyboard alone, from the example to new marks', async () => {
    const { page, context } = await open(where);
    const focused = () => page.evaluate(() => {
      const { activeElement: e } = document;
      return e.getAttribute('aria-label') ?? e.labels?.[0]?.textContent ?? e.textContent;
    });
    const tabTo = async (wanted, key = 'Tab') => {
      for (let i = 0; i < 80; i += 1) {
        await page.keyboard.press(key);
        if (await focused() === wanted) return;
      }
      assert.fail(`no way to ${wanted} by ${key}`);
    };
    const before = await figures(page);
    await tabTo('Measure your tube');
    await page.keyboard.press('Enter');
    await page.waitForSelector('dialog.guide[open]');
    await page.keyboard.press('ArrowUp');  // the browser is in inches
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Enter');
    await page.waitForFunction(() => document.querySelector('#guide-title').textContent === 'Bore');
    await page.keyboard.press('Escape');  // to the whole form
    await page.waitForFunction(() => document.querySelector('html.blank') !== null
      && document.activeElement.labels?.[0]?.textContent === 'Bore');
    await page.keyboard.type('17,2');
    for (const [label, figure] of [['Wall', '2.5'], ['Below the line', '400'], ['Sound hole length', '5'],
      ['Sound hole width', '8']]) {
      do await tabTo(label); while (!await page.evaluate(() => document.activeElement.type === 'text'));
      await page.keyboard.type(figure);
    }
    await page.waitForSelector('html:not(.blank)');
    await tabTo('Cane');
    const ring = await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle);
    assert.equal(ring, 'solid', 'the focus can be seen');
    await page.keyboard.press('ArrowLeft'); // round from the first station to the last
    assert.equal(await focused(), 'Shelf');
    for (let i = 0; i < 3; i += 1) await page.keyboard.press('ArrowLeft');
    assert.equal(await focused(), 'Marks');
    assert.equal(await page.locator('#tab-marks').getAttribute('aria-selected'), 'true');
    await ready(page);
    const after = await figures(page);
    assert.notDeepEqual(after, before);
    await page.keyboard.press('ArrowLeft');
    assert.equal(await focused(), 'Song');
    assert.equal(await page.locator('#station-song').isVisible(), true);
    assert.equal(await page.locator('#station-marks').isVisible(), false);
    await context.close();
  });
});

// tests/e2e/bench_access.test.mjs -- the bench looked over by axe-core, its touch targets measured,
// its numbers large, and the screen kept on.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { after, before, describe, it } from 'node:test';
import { press, untilLogged, voiceIsFinished } from './bench_maker.mjs';
import { LOOKS, DESK, PHONE, open, shot, site, station } from './page.mjs';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

const violations = (page) => page.evaluate(async (tags) => {
  const { violations: found } = await window.axe.run(document, { runOnly: tags });
  return found.map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(' | ')}`);
}, TAGS);
const entry = (page, label) => page.getByRole('textbox', { name: label, exact: true });
async function take(page, text) {
  await entry(page, 'Or type it').fill(text);
  await entry(page, 'Or type it').press('Enter');
}

/** The first steps of a build, up to a hole that is opened by ear; `look` is called at each.
 * @param {(what: string) => Promise<void>} look */
async function walk(page, look) {
  await station(page, 'bench');
  await page.locator('.card .do').waitFor();
  await look('sawing');
  await press(page, 'Sawn: log it');
  await untilLogged(page, 'just', 1);
  await page.getByRole('button', { name: 'All of this is so' }).waitFor();
  await look('the voice’s checklist');
  await voiceIsFinished(page);
  await take(page, 'nonsense');
  await look('a pitch that is none');
  for (const text of ['380', '380,2', '380.1 Hz']) await take(page, text);
  await page.locator('.middle:not(:empty)').waitFor();
  await look('three attempts');
  await press(page, 'Log this reading');
  await untilLogged(page, 'just', 2);
  await press(page, 'Sawn: log it');
  await untilLogged(page, 'just', 3);
  for (const text of ['390', '390,2', '390.1 Hz']) await take(page, text);
  await press(page, 'Log this reading');
  await untilLogged(page, 'just', 4);
  await page.locator('.card .do', { hasText: 'Drill hole' }).waitFor();
  await look('drilling');
  await press(page, 'Drilled: log it');
  await untilLogged(page, 'just', 5);
  if (await page.locator('.card .do', { hasText: 'Blow' }).isVisible()) {
    for (const text of ['461', '461,2', '461.1 Hz']) await take(page, text);
    await press(page, 'Log this reading');
  }
  await page.locator('.card .do', { hasText: 'until it sounds' }).waitFor();
  await take(page, '455 Hz');
  await page.locator('.card .primary.cutting:visible:not([disabled])').waitFor();
  await look('opening by ear');
  await page.locator('.card .primary.cutting').click();
  await look('after the strokes');
}

describe('the bench, looked over', () => {
  for (const [name, viewport, scheme] of LOOKS) {
    it(`axe finds nothing: ${name}, ${scheme}`, async () => {
      const { page, context } = await open(where, { viewport, scheme, bypassCSP: true });
      await page.addScriptTag({ content: axeSource });
      let looks = 0;
      await walk(page, async (what) => {
        await page.waitForTimeout(500);  // buttons that have just come cannot be pressed yet
        assert.deepEqual(await violations(page), [], what);
        await shot(page, `bench-${name}-${scheme}-${looks += 1}`);
      });
      const [left, right] = await Promise.all(['.bench-now', '.bench-side'].map((part) => page.locator(part)
        .boundingBox()));
      assert.equal(right.x >= left.x + left.width, name === 'desk', 'side by side where there is room');
      await page.evaluate(() => document.querySelectorAll('#station-bench details').forEach((d) => { d.open = true; }));
      await page.locator('.other').getByLabel('What').selectOption('hole');
      await page.locator('.log .undo').last().click();
      await page.waitForTimeout(500);
      assert.deepEqual(await violations(page), [], 'all open');
      await context.close();
    });
  }

  it('on a phone controls are 48 px high, the card’s one button 56 and in the first screen', async () => {
    const { page, context } = await open(where);
    await walk(page, async (what) => {
      const found = await page.evaluate(() => ({
        small: [...document.querySelectorAll('#station-bench :is(button, select, summary, label, input[type=text])')]
          .filter((e) => e.offsetParent !== null && !e.classList.contains('inline')
            && !(e.localName === 'label' && e.closest('.line')))
          .map((e) => ({ what: e.textContent, least: e.matches('.primary') ? 56 : e.localName === 'label' ? 44 : 48,
            ...e.getBoundingClientRect().toJSON() }))
          .filter((box) => box.height < box.least).map((box) => `${box.what} ${box.width} × ${box.height}`),
        wide: document.documentElement.scrollWidth,
        primaries: [...document.querySelectorAll('.card .primary')].filter((e) => e.offsetParent !== null)
          .map((e) => e.textContent),
      }));
      assert.deepEqual(found.small, [], what);
      assert.ok(found.wide <= PHONE.width, `${what}: ${found.wide}`);
      assert.equal(found.primaries.length, 1, `${what}: ${found.primaries}`);
      if (what === 'a pitch that is none') return;  // there the eyes are on the sentence below
      await page.evaluate(() => window.scrollTo(0, 0));
      const bar = await page.locator('#bar').boundingBox();
      const button = await page.locator('.card .primary:visible').first().boundingBox();
      assert.ok(button.y + button.height <= bar.y + 1, `${what}: ${button.y + button.height} of ${bar.y}`);
    });
    const size = await page.locator('.go-size').evaluate((e) => parseFloat(getComputedStyle(e).fontSize));
    assert.ok(size >= 56, `${size} px`);
    await context.close();
  });

  it('the step is told to a screen reader, and the keyboard stays at the card', async () => {
    const { page, context } = await open(where);
    await station(page, 'bench');
    await page.locator('.card .primary:not([disabled])').waitFor();
    await page.locator('.card .primary').focus();
    await page.keyboard.press('Enter');
    await untilLogged(page, 'just', 1);
    await page.waitForFunction(() => document.activeElement?.matches('.card .do'));
    assert.match(await page.locator('.bench-now [role=status].unseen').textContent(), /^Make the voice/);
    await context.close();
  });

  it('keeps the screen on while the bench is in sight, and no longer', async () => {
    const fresh = await where.browser.newContext({ viewport: PHONE, serviceWorkers: 'block' });
    await fresh.addInitScript(() => {
      window.locks = [];
      Object.defineProperty(navigator, 'wakeLock', { value: { request: async () => {
        if (window.refuse) throw new DOMException('', 'NotAllowedError');
        const lock = { released: false, release: async () => { lock.released = true; } };
        window.locks.push(lock);
        return lock;
      } } });
    });
    const other = await fresh.newPage();
    await other.goto(where.address);
    await other.waitForSelector('.plan svg', { state: 'attached' });
    const held = () => other.evaluate(() => window.locks.filter((l) => !l.released).length);
    assert.equal(await held(), 0);
    await station(other, 'bench');
    await other.locator('.card .do').waitFor();
    await other.waitForFunction(() => window.locks.length === 1);
    await station(other, 'song');
    await other.waitForFunction(() => window.locks.every((l) => l.released));
    await station(other, 'bench');
    await other.waitForFunction(() => window.locks.length === 2);
    // the system lets it go when the page is hidden; back again, it is asked for again
    await other.evaluate(() => {
      window.locks[1].released = true;
      document.dispatchEvent(new Event('visibilitychange'));
    });
    await other.waitForFunction(() => window.locks.length === 3);
    await other.getByLabel('screen stays on').uncheck();
    await other.waitForFunction(() => window.locks.every((l) => l.released));
    await other.evaluate(() => { window.refuse = true; });
    await other.getByLabel('screen stays on').check();
    await other.getByText('not allowed just now').waitFor();
    await fresh.close();
  });
});

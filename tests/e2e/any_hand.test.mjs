// tests/e2e/any_hand.test.mjs -- by keyboard, in forced colours, with a lock that is refused: what has the focus is
// seen (WCAG 2.2, SC 2.4.11), what is chosen is told, nothing lies over anything.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { faultsOf, letters } from './looks.mjs';
import { PHONE, open, site, station } from './page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

describe('any hand', () => {
  it('by Tab and back, what has the focus never lies under the bar', async () => {
    const { page, context } = await open(where, { viewport: { width: 320, height: 568 } });
    const session = await context.newCDPSession(page);
    for (const [key, px] of [['cane', 16], ['song', 32], ['marks', 21]]) {
      await letters(session, px);
      await station(page, key);
      await page.evaluate(() => {
        document.querySelectorAll('details').forEach((d) => { d.open = true; });
        document.querySelector('.top button, h1').scrollIntoView();
      });
      for (const way of ['Tab', 'Shift+Tab']) {
        const hidden = [];
        let met = 0;
        for (let i = 0; i < 40; i += 1) {
          await page.keyboard.press(way);
          const under = await page.evaluate(() => {
            const at = document.activeElement;
            const bar = document.getElementById('bar').getBoundingClientRect();
            if (!at.matches('main *')) return null;
            const box = at.getBoundingClientRect();
            // What is higher than the room above the bar can be seen in part alone.
            const seen = box.height > bar.top ? box.top < bar.top - 44 : box.bottom <= bar.top + 0.5;
            return { what: at.getAttribute('aria-label') ?? at.labels?.[0]?.textContent ?? at.textContent, seen };
          });
          if (under === null) continue;
          met += 1;
          if (!under.seen) hidden.push(under.what);
        }
        assert.ok(met > 5, `${key}: ${met} places`);
        assert.deepEqual(hidden, [], `${key}, ${way}, letters of ${px} px`);
      }
    }
    await context.close();
  });

  it('in forced colours the chosen one of several looks otherwise', async () => {
    const { page, context } = await open(where, { viewport: PHONE, forcedColors: 'active' });
    for (const key of ['song', 'voice']) {
      await station(page, key);
      await page.waitForFunction((k) => document.querySelector(`#station-${k} .radios input:checked`) !== null, key);
      const alike = await page.evaluate((k) => [...document.querySelectorAll(`#station-${k} .radios`)].flatMap((set) => {
        const look = (input) => {
          const { backgroundColor, color } = getComputedStyle(input.nextElementSibling);
          return `${backgroundColor} ${color}`;
        };
        const chosen = set.querySelector('input:checked');
        if (chosen === null || set.offsetParent === null) return [];
        return [...set.querySelectorAll('input:not(:checked)')].filter((other) => look(other) === look(chosen))
          .map((other) => `${set.textContent}: ${other.value}`);
      }), key);
      assert.deepEqual(alike, [], key);
    }
    await context.close();
  });

  it('that it is reckoning is told whole, with the way to stop it, on any phone', async () => {
    const { page, context } = await open(where, { viewport: { width: 320, height: 568 } });
    const session = await context.newCDPSession(page);
    await station(page, 'bench');
    await page.locator('.card .do').waitFor();
    for (const key of ['marks', 'bench']) {
      await station(page, key);
      for (const px of [16, 32]) {
        await letters(session, px);
        const { box, text, bar } = await page.evaluate((k) => {
          const line = document.querySelector(`#station-${k} .working`);
          line.hidden = false;
          line.firstChild.textContent = 'Reckoning … 100 s';
          const range = document.createRange();
          range.selectNodeContents(line);
          window.scrollTo(0, 0);
          return { box: line.getBoundingClientRect().toJSON(), text: range.getBoundingClientRect().toJSON(),
            bar: document.getElementById('bar').getBoundingClientRect().top };
        }, key);
        assert.ok(text.left >= 0 && text.right <= 320 && text.top >= box.top && text.bottom <= bar + 0.5,
          `${key}, ${px}: ${JSON.stringify(text)}`);
        assert.deepEqual(await faultsOf(page), [], `${key}, letters of ${px}`);
      }
    }
    await context.close();
  });

  it('a refused lock of the screen covers nothing', async () => {
    const { page, context } = await open(where, { viewport: { width: 320, height: 568 } });
    const session = await context.newCDPSession(page);
    await page.evaluate(() => Object.defineProperty(navigator, 'wakeLock', { value: { request: async () => {
      throw new DOMException('', 'NotAllowedError');
    } } }));
    await station(page, 'bench');
    await page.getByText('not allowed just now').waitFor();
    await page.locator('.card .do').waitFor();
    for (const px of [16, 21, 32]) {
      await letters(session, px);
      assert.deepEqual(await faultsOf(page), [], `letters of ${px}`);
      const { words, card, heading } = await page.evaluate(() => ({
        words: [...document.querySelectorAll('.awake, .awake .small')].map((e) => e.getBoundingClientRect().toJSON()),
        card: document.querySelector('.card .do').getBoundingClientRect().toJSON(),
        heading: document.querySelector('#title-bench').getBoundingClientRect().toJSON(),
      }));
      for (const box of words) assert.ok(box.bottom <= card.top + 0.5, `letters of ${px}: ${box.bottom} over ${card.top}`);
      assert.ok(heading.bottom <= card.top);
    }
    await context.close();
  });
});

// tests/e2e/any_size.test.mjs -- many flutes, every station, on narrow phones, in letters up to twice the usual: WCAG
// 2.2, SC 1.4.4 (text at 200 %) and 1.4.10 (reflow at 320 px); 44 px for a thumb is SC 2.5.5.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { loadModule } from '../wasm/engines.mjs';
import { documents } from './any_documents.mjs';
import { faultsOf, letters } from './looks.mjs';
import { open, ready, site } from './page.mjs';

const STATIONS = ['marks', 'cane', 'song', 'voice', 'bench', 'shelf'];
const LOOKS = [[360, 740], [320, 568]].flatMap(([width, height]) => [16, 21, 32].map((px) => ({ width, height, px })));
const LONG = process.env.CANEWRIGHT_LONG !== undefined;
const FLUTES = LONG ? 40 : 9;
const EACH = LONG ? LOOKS.length : 2;  // looks a flute and station: all of them on the first, then by turns

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

/** Until a station has what takes it longest. */
const SETTLED = {
  marks: () => [...document.querySelectorAll('.row .band')].every((band) => band.textContent !== ''
    || band.closest('.row').querySelector('.note-name').textContent === ''),
  cane: () => document.querySelector('#station-cane .verdict').textContent !== '',
  song: () => document.querySelector('#station-song .chart tbody tr') !== null,
  voice: () => (document.querySelector('.voice-room .verdict')?.textContent ?? '') !== '',
  bench: () => document.querySelector('.card .do') !== null,
  shelf: () => document.querySelector('.shelf') !== null,
};

describe('any size of text', () => {
  it('nothing overprints, scrolls sideways or leaves the screen: many flutes, every station', async () => {
    const { page, context, faults } = await open(where, { viewport: { width: 360, height: 740 } });
    const session = await context.newCDPSession(page);
    const workshop = await loadModule('workshop');
    // The longest names that notes can have here: Sol♯5.
    await page.evaluate(() => localStorage.setItem('canewright/notes', '{"way":"la4","la":"la4"}'));
    await page.reload();
    await ready(page);
    let turn = 0;
    const found = [];
    for (const [i, doc] of documents(20, FLUTES).entries()) {
      const { answer, violations } = JSON.parse(workshop.run('link', JSON.stringify(doc)));
      assert.ok(answer, `${doc.name}: ${JSON.stringify(violations)}`);
      await page.evaluate((link) => { location.hash = link; }, answer.link);
      await page.waitForFunction((name) => document.querySelector('#title-marks').textContent.includes(name), doc.name);
      for (const key of STATIONS) {
        await page.locator(`#tab-${key}`).click();
        await page.waitForFunction(SETTLED[key]);
        await page.evaluate(() => document.querySelectorAll('details').forEach((d) => { d.open = true; }));
        const looks = i === 0 ? LOOKS : Array.from({ length: EACH }, () => LOOKS[(turn += 5) % LOOKS.length]);
        for (const { width, height, px } of looks) {
          await page.setViewportSize({ width, height });
          await letters(session, px);
          await page.evaluate(() => new Promise((on) => { requestAnimationFrame(() => requestAnimationFrame(on)); }));
          found.push(...(await faultsOf(page)).map((one) => `${doc.name}, ${key}, ${width} px, letters of ${px}: ${one}`));
        }
      }
    }
    assert.deepEqual(found, []);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('what is planted is found', async () => {
    const { page, context } = await open(where, { viewport: { width: 320, height: 568 } });
    const planted = (css) => page.evaluate((rules) => {
      document.adoptedStyleSheets = [];
      const sheet = new CSSStyleSheet();
      sheet.replaceSync(rules);
      document.adoptedStyleSheets = [sheet];
    }, css).then(() => faultsOf(page)).then((all) => all.map((one) => one.split(':')[0]));
    assert.deepEqual(await planted(''), []);
    assert.ok((await planted('.row { margin-top: 0 !important; height: 20px; }')).includes('over each other'));
    assert.ok((await planted('.row .at { min-width: 30rem; }')).includes('scrolls sideways'));
    assert.ok((await planted('.bar { bottom: -60px; }')).includes('off the screen'));
    assert.ok((await planted('.bar { pointer-events: none; }')).includes('cannot be tapped'));
    assert.ok((await planted('body { padding-bottom: 0; }')).includes('the end lies under the bar'));
    assert.ok((await planted('.rule { width: 4rem; overflow: hidden; white-space: nowrap; flex-wrap: nowrap; }')).includes('cut off'));
    await context.close();
  });
});

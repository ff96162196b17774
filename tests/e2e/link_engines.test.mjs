// tests/e2e/link_engines.test.mjs -- in three browser engines, served and from the disk: a flute is passed
// on as a link, the link is opened beside other work, and that comes back.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { chromium, firefox, homes, pause, until, webkit } from './engines.mjs';

let homeOf;
before(async () => { homeOf = await homes(); });
after(async () => { await homeOf.close(); });

const click = (words) => [...document.querySelectorAll('button')]
  .find((b) => b.textContent === words && b.getClientRects().length > 0)?.click() ?? true;
const name = () => document.querySelector('#title-marks')?.textContent;
const named = (wanted) => document.querySelector('#title-marks')?.textContent.endsWith(wanted);
/** Types a name as the page hears it, once the station is there. */
const call = (wanted) => {
  const field = [...document.querySelectorAll('#station-cane input')].find((e) => e.labels?.[0]?.textContent === 'Name');
  if (field === undefined) return false;
  field.value = wanted;
  field.dispatchEvent(new Event('input', { bubbles: true }));
  return true;
};

for (const [engine, start] of Object.entries({ chromium, firefox, webkit })) {
  for (const where of ['served', 'from the disk']) {
    describe(`${engine}, ${where}`, () => {
      it('passes a flute on, and opens what was passed on beside other work', async () => {
        const browser = await start();
        const address = where === 'served' ? homeOf.served : homeOf.onDisk;
        const page = await browser.open(address);
        await until(page, name);
        await until(page, call, 'Passed on');
        await until(page, named, 'Passed on');
        await page.run(() => document.getElementById('tab-shelf').click());
        await until(page, () => document.querySelector('.shelf .held') !== null);
        await page.run(() => { document.querySelector('.shelf .held details').open = true; });
        await page.run(click, 'Pass it on');
        await until(page, () => document.querySelector('.link-box').value);
        await pause(1500); // the link is of the last whole state, and follows it
        const link = await page.run(() => document.querySelector('.link-box').value);
        const fragment = link.slice(link.indexOf('#'));
        assert.match(fragment, /^#1\.[\w-]+Z$/);
        if (where === 'served') {
          assert.ok(link.startsWith(address));
          await until(page, () => document.querySelector('.qr') !== null);
        }
        // Other work, kept over a reload, then the link.
        await until(page, call, 'My own');
        await until(page, named, 'My own');
        await pause(600);
        await page.reload();
        await until(page, named, 'My own');
        await page.run((to) => { location.hash = to; }, fragment);
        await until(page, named, 'Passed on');
        await page.run(click, 'Back to mine');
        await until(page, named, 'My own');
        await page.run((to) => { location.hash = to; }, fragment.slice(0, -5));
        await until(page, () => /has cut it/.test(document.querySelector('.notice')?.textContent));
        assert.ok(await page.run(named, 'My own'));
        assert.deepEqual(await page.faults(), []);
        await browser.close();
      });
    });
  }
}

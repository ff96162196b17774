// tests/e2e/engines.test.mjs -- the page in Chromium, Firefox ESR and WebKit: from a host
// (http://localhost, which browsers trust like https) and from the disk (canewright.html).
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { chromium, firefox, homes, pause, until, webkit } from './engines.mjs';

let homeOf;
before(async () => { homeOf = await homes(); });
after(async () => { await homeOf.close(); });

/** The marks as printed, when there are any and they are not those named. */
const marks = (old) => {
  if (document.querySelector('.working')?.hidden === false) return false; // still reckoning
  const now = [...document.querySelectorAll('.rows .row .at')].map((e) => e.textContent);
  return now.length > 0 && JSON.stringify(now) !== JSON.stringify(old) && now;
};
/** Shows a station where they are shown one at a time. */
const show = (key) => document.getElementById(`tab-${key}`)?.click();

/** What a person does, one after the other; `seen` carries what later steps compare with. */
const STEPS = [
  ['loads and answers', async (page, seen) => {
    seen.first = await until(page, marks);
    assert.ok(seen.first.length >= 6, String(seen.first));
  }],
  ['moves the marks when the bore is edited', async (page, seen) => {
    await page.run(show, 'cane');
    await page.run(() => {
      const field = [...document.querySelectorAll('#station-cane input[type=text]')]
        .find((e) => /^Bore/.test(e.labels?.[0]?.textContent ?? e.ariaLabel ?? ''));
      field.focus();
      field.select();
    });
    await page.type('17,2');
    await page.run(show, 'marks');
    // The marks follow every key: those of the last one have come when nothing moves any more.
    for (let now = null; ; now = seen.edited) {
      seen.edited = await until(page, marks, seen.first, 'other marks');
      if (JSON.stringify(now) === JSON.stringify(seen.edited)) break;
      await pause(500);
    }
  }],
  ['says which version it is, and that it needs no network: nothing is on its way any more', async (page) => {
    const text = await until(page, () => {
      const { textContent } = document.getElementById('about');
      return /orks without a network/.test(textContent) && textContent;
    }, null, 'kept for offline');
    assert.match(text, /^Canewright \d+\.\d+\.\d+.*SHA-256 [0-9a-f]{64}$/);
  }],
  ['keeps them over a reload', async (page, seen) => {
    await page.reload();
    assert.deepEqual(await until(page, marks), seen.edited);
  }],
  ['shows voice, bench and shelf, which are loaded when first shown', async (page) => {
    for (const key of ['voice', 'bench', 'shelf']) {
      await page.run(show, key);
      await until(page, (name) => {
        const section = document.getElementById(`station-${name}`);
        return section.getClientRects().length > 0 && !/One moment/.test(section.textContent)
          && section.querySelectorAll('button, input').length > 1;
      }, key, `the ${key}`);
      const styled = await page.run((name) => getComputedStyle(document.documentElement)
        .getPropertyValue(`--${name}`) !== '', key); // each sheet sets one for this
      assert.ok(styled, `${key} without its style`);
    }
    await page.run(show, 'marks');
  }],
  ['has a print view: marks, but no bar', async (page) => {
    const seen = await page.printed(() => {
      const visible = (e) => e !== null && e.getClientRects().length > 0;
      return { bar: visible(document.getElementById('bar')),
        marks: [...document.querySelectorAll('.rows .row .at')].filter(visible).length };
    });
    assert.ok(seen.marks >= 6, `${seen.marks} marks`);
    assert.equal(seen.bar, false);
  }],
  ['without an error, a breach of its policy, a request elsewhere', async (page, seen) => {
    assert.deepEqual(await page.faults(), []);
    const requests = await page.requests();
    const strange = requests.filter((url) => !/^(data|blob):/.test(url) && !url.startsWith(seen.home));
    assert.deepEqual(strange, []);
  }],
];

for (const [name, launch] of Object.entries({ chromium, firefox, webkit })) {
  describe(name, () => {
    let browser;
    before(async () => { browser = await launch(); });
    after(async () => { await browser?.close(); });
    for (const [place, home] of [['http', () => homeOf.served],
      ['file', () => homeOf.onDisk]]) {
      it(`works from ${place}://`, async (t) => {
        const seen = { home: home() };
        const page = await browser.open(seen.home);
        for (const [what, step] of STEPS) await t.test(what, () => step(page, seen));
        t.diagnostic(browser.version);
        await page.close();
      });
    }
  });
}

// tests/e2e/paper.test.mjs -- the view of what can be printed: opens, shows, prints and saves; hostile
// names come out as text everywhere; usable on a phone.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { after, before, describe, it } from 'node:test';
import { LOOKS, DESK, PHONE, open, settle, shot, site, station } from './page.mjs';
import { pages, poppler } from './paper_raster.mjs';
import { HOSTILE } from '../web/paper_flutes.mjs';
import { inPdfFonts, plain } from '../../web/paper/names.js';

const require = createRequire(import.meta.url);
const KINDS = ['Marking strip', 'Marks list', 'Owner’s card', 'Bench log'];

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

/** The page with its paper view open. */
async function openPaper(options = {}) {
  const opened = await open(where, { viewport: DESK, ...options });
  await station(opened.page, 'marks');
  await opened.page.getByRole('button', { name: 'Print', exact: true }).click();
  await opened.page.locator('.previews .sheet').first().waitFor();
  return opened;
}

const show = (page, kind) => page.getByRole('button', { name: kind, exact: true }).click();
const words = (page) => page.locator('.previews text').allTextContents();

async function save(page, paper = 'A4') {
  const [saved] = await Promise.all([page.waitForEvent('download'), page.getByRole('button',
    { name: paper === 'A4' ? /as PDF, A4$/ : /as PDF, Letter$/ }).click()]);
  return { name: saved.suggestedFilename(), pdf: readFileSync(await saved.path()) };
}

describe('paper', () => {
  it('opens from the marks, shows each kind, and leaves the page as it was', async () => {
    const { page, context, faults } = await openPaper();
    for (const kind of KINDS) {
      await show(page, kind);
      assert.ok(await page.locator('.previews .sheet').count() >= 1);
      assert.equal(await page.locator('.previews .sheet').count(), await page.locator('.paper-out .sheet').count());
      await shot(page, `paper-${kind.toLowerCase().replace(/\W+/g, '-')}`);
    }
    await page.keyboard.press('Escape');
    await page.locator('dialog.paper').waitFor({ state: 'detached' });
    assert.equal(await page.locator('.paper-out').count(), 0);
    assert.equal(await page.evaluate(() => document.querySelector('link[href="style-paper.css"]')), null);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('shows the figures of the page’s own marks, in both units', async () => {
    const { page, context } = await openPaper();
    const marks = (await page.locator('.rows .row:not(.zero) .at').allTextContents());
    const beside = await page.locator('.rows .row:not(.zero) .small:nth-of-type(4)').allTextContents();
    for (const kind of KINDS.slice(0, 2)) {
      await show(page, kind);
      const shown = await words(page);
      for (const mark of marks) assert.ok(shown.includes(`${mark} mm`), `${kind}: ${mark}`);
      for (const inches of beside) assert.ok(shown.includes(inches), `${kind}: ${inches}`);
    }
    await context.close();
  });

  it('prints the chosen sheets and nothing else, in black on white', async () => {
    const { page, context } = await openPaper({ scheme: 'dark' });
    for (const kind of KINDS) {
      await show(page, kind);
      const sheets = await page.locator('.paper-out .sheet').count();
      const pdf = await page.pdf({ format: 'A4' });
      const said = poppler('pdfinfo', [], pdf);
      assert.match(said, new RegExp(`Pages:\\s+${sheets}\\n`), `${kind}: ${said}`);
      const text = poppler('pdftotext', ['-layout'], pdf);
      assert.match(text, new RegExp(kind, 'i'));
      assert.doesNotMatch(text, /Close|as PDF|Shelf/, 'nothing of the page around it');
      for (const sheet of pages(pdf, 50)) {
        assert.ok([[2, 2], [105, 292], [208, 150]].every(([x, y]) =>
          sheet.black(Math.round(x * sheet.perMm), Math.round(y * sheet.perMm)) === 0), 'white margins');
      }
    }
    await context.close();
  });

  it('lays the strip along where that is asked for, and keeps the maker’s name for the card', async () => {
    const { page, context } = await openPaper();
    await page.getByRole('radio', { name: 'Lay along it' }).check();
    assert.ok((await words(page)).some((text) => /TO LAY ALONG/.test(text)));
    await show(page, 'Owner’s card');
    await page.getByRole('textbox', { name: 'Made by' }).fill('Shed by the weir');
    assert.ok((await words(page)).includes('Shed by the weir'));
    await settle(page);
    await page.reload();
    await station(page, 'marks');
    await page.getByRole('button', { name: 'Print', exact: true }).click();
    await show(page, 'Owner’s card');
    assert.ok((await words(page)).includes('Shed by the weir'), 'after a reload');
    await context.close();
  });

  it('saves each kind as a PDF on both papers, and asks nobody else for anything', async () => {
    const { page, context, faults, late } = await openPaper();
    for (const kind of KINDS) {
      await show(page, kind);
      for (const paper of ['A4', 'Letter']) {
        const { name, pdf } = await save(page, paper);
        assert.match(name, new RegExp(`, ${paper}\\.pdf$`));
        assert.match(poppler('pdftotext', [], pdf), new RegExp(kind, 'i'));
        assert.match(poppler('pdfinfo', [], pdf), paper === 'A4' ? /595\.\d+ x 841\.\d+/ : /612 x 79[12]/);
      }
    }
    const home = new URL(where.address).origin;
    assert.deepEqual(late.filter((address) => !address.startsWith(home) && !address.startsWith('blob:')), []);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('shows hostile names as text: on the sheets, in print, in the PDF and its file’s name', async () => {
    const { page, context, faults } = await open(where, { viewport: DESK });
    let alerts = 0;
    page.on('dialog', (dialog) => { alerts += 1; void dialog.dismiss(); });
    for (const name of HOSTILE) {
      await station(page, 'cane');
      await page.getByRole('textbox', { name: 'Name', exact: true }).fill(name);
      await settle(page);
      await station(page, 'marks');
      await page.getByRole('button', { name: 'Print', exact: true }).click();
      await page.locator('.previews .sheet').first().waitFor();
      const got = await page.evaluate(() => document.querySelector('#station-cane input.words')?.value);
      const shown = plain(got ?? '');
      for (const kind of ['Marking strip', 'Owner’s card']) {
        await show(page, kind);
        if (kind !== 'Marking strip') await page.getByRole('textbox', { name: 'Made by' }).fill(name.slice(0, 60));
        const head = await page.locator('.previews text').first().textContent();
        assert.ok(shown.startsWith(head.replace(/…$/, '')) && head.length > 0, `${shown} | ${head}`);
        assert.equal(await page.locator('.previews :not(svg, line, circle, rect, text), '
          + '.paper-out :not(svg, line, circle, rect, text)').count(), 0, name);
      }
      const { name: file, pdf } = await save(page);
      assert.doesNotMatch(file, /[<>:"/\\|?*\u0000-\u001F\u202A-\u202E]/, file);
      const text = poppler('pdftotext', ['-raw'], pdf).replace(/\s+/g, ' ');
      assert.match(text, /Owner’s card|OWNER’S CARD/i, 'the PDF can be read');
      const start = shown.slice(0, 12);
      if (inPdfFonts(shown)) assert.ok(text.includes(start), `${start} in ${text.slice(0, 200)}`);
      else assert.match(text, /This name needs letters that a PDF made here has not/);
      assert.match(await page.locator('.paper .news').textContent(), inPdfFonts(shown)
        && inPdfFonts(plain(name.slice(0, 60))) ? /^The PDF is saved\.$/ : /needs letters/);
      await page.getByRole('button', { name: 'Close', exact: true }).click();
    }
    assert.equal(alerts, 0);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('prints the link as a QR code that another library reads off the paper', async () => {
    const { page, context } = await openPaper();
    await show(page, 'Owner’s card');
    await page.locator('.previews rect').first().waitFor({ timeout: 20000 });
    const { pdf } = await save(page);
    for (const source of [pdf, await page.pdf({ format: 'A4' })]) {
      const [sheet] = pages(source, 300);
      const data = new Uint8ClampedArray(sheet.width * sheet.height * 4);
      for (let i = 0; i < sheet.width * sheet.height; i += 1) {
        data.fill(sheet.dots[i], 4 * i, 4 * i + 3);
        data[4 * i + 3] = 255;
      }
      const found = require('jsqr')(data, sheet.width, sheet.height);
      assert.ok(found?.data.startsWith(`${where.address}#1.`), `${found?.data}`);
      const { topLeftCorner: a, topRightCorner: b } = found.location;
      const wide = Math.hypot(b.x - a.x, b.y - a.y) / sheet.perMm;
      const size = found.version * 4 + 17;  // modules a side: ISO/IEC 18004
      assert.ok(wide / size >= 0.39 && wide * (size + 8) / size >= 30, `${wide} mm, version ${found.version}`);
    }
    await context.close();
  });

  for (const [name, viewport, scheme] of LOOKS) {
    it(`is found without fault by axe and fits the screen: ${name}, ${scheme}`, async () => {
      const { page, context } = await openPaper({ viewport, scheme, bypassCSP: true });
      await page.addScriptTag({ content: readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8') });
      for (const kind of KINDS) {
        await show(page, kind);
        // What is drawn on a sheet is looked at once: it is much and always alike.
        const without = kind === 'Marks list' ? [] : ['.sheet > *'];
        const found = await page.evaluate(async (exclude) => (await window.axe.run(
          { include: ['dialog.paper'], exclude }, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa',
            'wcag22aa', 'best-practice'] })).violations
          .map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(' | ')}`), without);
        assert.deepEqual(found, [], kind);
        assert.ok(await page.evaluate(() => {
          const dialog = document.querySelector('dialog.paper');
          return dialog.scrollWidth <= dialog.clientWidth && document.body.scrollWidth <= innerWidth;
        }), `${kind}: nothing beyond the screen's edge`);
        for (const target of await page.locator('.paper button:visible, .paper input:visible').all()) {
          const box = await target.boundingBox();
          assert.ok(box.height >= 44 && box.width >= 44, `${await target.evaluate((e) => e.outerHTML)}`);
        }
        await shot(page, `paper-${name}-${scheme}-${KINDS.indexOf(kind)}`);
      }
      await context.close();
    });
  }
});

// tests/e2e/shelf.test.mjs -- the station Shelf: names, copies, deleting, patterns, access.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { after, before, describe, it } from 'node:test';
import { DESK, PHONE, entry, settle, shot, site, station } from './page.mjs';
import { DOC, again, bringIn, deed, downloaded, label, names, openWith, outcome, toShelf, unfold }
  from './shelf_page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

const withFlutes = (options, ...docs) => openWith(where, options, ...docs);

describe('the shelf', () => {
  it('keeps what is worked on with name, picture, key, state of the build and date', async () => {
    const log = [{ foot: { at_mm: 400 } }, { read: { open: [], hz: 385 } },
      { hole: { number: 5, at_mm: 305, diameter_mm: 6 } }];
    const { page, context, faults } = await withFlutes({ viewport: PHONE }, { ...DOC, log });
    const one = label(page, DOC.name);
    assert.match(await one.locator('.key').textContent(), /G4 minor pentatonic, five holes/);
    assert.match(await one.locator('.when').textContent(),
      new RegExp(`one of five holes cut, 1 reading · .*${new Date().getFullYear()}`));
    assert.equal(await one.locator('svg circle').count(), 5);
    // Every hole of the picture lies inside the tube that is drawn.
    const inside = await one.locator('svg').evaluate((svg) => {
      const tube = svg.querySelector('.body').getBBox();
      return [...svg.querySelectorAll('circle')].every((hole) => Number(hole.getAttribute('cx')) > 0
        && Number(hole.getAttribute('cx')) < tube.x + tube.width);
    });
    assert.ok(inside);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('renames, duplicates without the log, and searches', async () => {
    const { page, context, faults } = await withFlutes({ viewport: PHONE },
      { ...DOC, log: [{ read: { open: [], hz: 385 } }] });
    await deed(page, DOC.name, 'Rename');
    await page.getByLabel('New name').and(page.locator(':visible')).fill('Heron reach, fifth cane');
    await page.getByRole('button', { name: 'Keep the name' }).and(page.locator(':visible')).click();
    await label(page, 'Heron reach, fifth cane').waitFor();
    await deed(page, 'Heron reach, fifth cane', 'Duplicate');
    await label(page, 'Heron reach, fifth cane (copy)').waitFor();
    await outcome(page, 'The log stays with the first');
    assert.match(await label(page, 'Heron reach, fifth cane (copy)').locator('.when').textContent(), /^planned/);
    for (const name of ['Willow one', 'Willow two']) {
      await bringIn(page, JSON.stringify({ ...DOC, name }));
      await label(page, name).waitFor();
    }
    await page.getByLabel('Search the shelf').fill('WILLOW t');
    assert.deepEqual((await page.locator('.shelf li:visible .title').allTextContents()), ['Willow two']);
    await page.getByLabel('Search the shelf').fill('nothing like it');
    assert.ok(await page.getByText('No flute on the shelf has these words').isVisible());
    await page.getByLabel('Search the shelf').fill('');
    await again(page);
    await toShelf(page);
    assert.ok((await names(page)).includes('Heron reach, fifth cane (copy)'));
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('takes another flute in hand and loses nothing of the one before', async () => {
    const { page, context, faults } = await withFlutes({ viewport: DESK }, DOC);
    await page.locator('#tab-marks').click();
    await entry(page, 'Name').fill('The first');
    await entry(page, 'Above the line').fill('a hand');
    await toShelf(page);
    await deed(page, DOC.name, 'Take in hand');
    await page.locator('.shelf .held').filter({ hasText: DOC.name }).waitFor();
    await page.locator('#tab-marks').click();
    assert.equal(await entry(page, 'Below the line').inputValue(), '430.0');
    await entry(page, 'Below the line').fill('425');
    await toShelf(page);
    await deed(page, 'The first', 'Take in hand');
    await page.locator('.shelf .held').filter({ hasText: 'The first' }).waitFor();
    await page.locator('#tab-marks').click();
    assert.equal(await entry(page, 'Above the line').inputValue(), 'a hand', 'as it was typed');
    await again(page);
    assert.equal(await entry(page, 'Name').inputValue(), 'The first');
    await toShelf(page);
    const saved = await downloaded(page, () => deed(page, DOC.name, 'Download file'));
    assert.equal(JSON.parse(saved.text).tube.end_mm, 425);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('deletes with an undo, also what is in hand, and a reload can still bring it back', async () => {
    const { page, context, faults } = await withFlutes({ viewport: DESK }, DOC, { ...DOC, name: 'Another' });
    await deed(page, DOC.name, 'Take in hand');
    await page.locator('.shelf .held').filter({ hasText: DOC.name }).waitFor();
    await deed(page, DOC.name, 'Delete');
    await outcome(page, 'is deleted');
    assert.equal(await label(page, DOC.name).count(), 0);
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.locator('.shelf .held').filter({ hasText: DOC.name }).waitFor();
    await deed(page, 'Another', 'Delete');
    await outcome(page, 'is deleted');
    await deed(page, DOC.name, 'Delete');
    await page.getByText('Deleted (2)').waitFor();
    await again(page);
    await toShelf(page);
    assert.equal(await label(page, DOC.name).count(), 0, 'stays deleted');
    await page.getByText('Deleted (2)').click();
    const gone = page.locator('.drawer li');
    await gone.filter({ hasText: 'Another' }).getByRole('button', { name: 'Bring back' }).click();
    await label(page, 'Another').waitFor();
    await gone.filter({ hasText: DOC.name }).getByRole('button', { name: 'Delete for good' }).click();
    await page.getByText('Deleted (2)').waitFor({ state: 'detached' });
    await again(page);
    await settle(page);
    await toShelf(page);
    assert.equal(await label(page, DOC.name).count(), 0, 'not even from the second copy');
    assert.ok(await label(page, 'Another').isVisible());
    assert.deepEqual(faults, []);
    await context.close();
  });
});

describe('a pattern', () => {
  it('gives its voice, song and spacing to the tube in hand, and its marks stand beside', async () => {
    const log = [{ foot: { at_mm: 392 } }, { read: { open: [], hz: 388, sigma_cents: 3 } }];
    const { page, context, faults } = await withFlutes({ viewport: PHONE }, { ...DOC, log,
      song: { ...DOC.song, lowest: 'A4' }, shop: { spacing_mm: { min: 19, max: 33 }, hands: [2, 3] } });
    await station(page, 'cane');
    await entry(page, 'Name').fill('The new tube');
    await entry(page, 'Below the line').fill('410');
    await settle(page);
    await toShelf(page);
    assert.equal(await label(page, 'The new tube').getByText('Use as pattern').isVisible(), false);
    await deed(page, DOC.name, 'Use as pattern for the tube in hand');
    await outcome(page, 'is the pattern now');
    await page.locator('.beside-table').waitFor();
    await settle(page);
    const { text } = await downloaded(page, () => deed(page, 'The new tube', 'Download file'));
    const doc = JSON.parse(text);
    assert.equal(doc.pattern.of, DOC.name);
    assert.equal(doc.pattern.readings, 1);
    assert.ok(doc.pattern.mean.some((mean) => mean !== 0), 'the reading taught something');
    assert.equal(doc.song.lowest, 'A4');
    assert.deepEqual(doc.shop.spacing_mm, { min: 19, max: 33 });
    assert.equal(doc.tube.end_mm, 410, 'the tube stays');
    assert.equal(doc.log, undefined);
    const rows = await page.locator('.beside-table tbody tr').evaluateAll((all) => all.map((row) =>
      [...row.children].map((cell) => Number.parseFloat(cell.firstChild.textContent.replace('−', '-')))));
    assert.equal(rows.length, 7);
    for (const [, pattern, here, difference] of rows) {
      assert.ok(Math.abs(here - pattern - difference) < 0.151, `${here} - ${pattern} = ${difference}`);
    }
    assert.ok(rows.some(([, , , difference]) => difference !== 0));
    await shot(page, 'phone-shelf-pattern');
    await again(page);
    await toShelf(page);
    assert.ok(await page.locator('.beside-table').isVisible());
    await page.getByRole('button', { name: 'Without a pattern' }).click();
    await page.locator('.beside-table').waitFor({ state: 'hidden' });
    assert.deepEqual(faults, []);
    await context.close();
  });
});

describe('access', () => {
  const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

  for (const scheme of ['light', 'dark']) {
    it(`axe finds nothing, every control is 48 px high, nothing scrolls sideways: ${scheme}`, async () => {
      for (const [name, viewport] of scheme === 'light' ? [['phone', PHONE], ['narrow', { width: 320, height: 700 }]]
        : [['desk', DESK]]) {
        const { page, context } = await withFlutes({ viewport, scheme, bypassCSP: true },
          { ...DOC, log: [{ read: { open: [], hz: 385 } }] }, { ...DOC, name: 'w'.repeat(80) });
        await shot(page, `${name}-shelf-${scheme}`);
        await deed(page, DOC.name, 'Pass it on');
        await page.waitForFunction(() => [...document.querySelectorAll('.link-box')].some((box) => box.value !== ''));
        await settle(page);
        await (await unfold(label(page, DOC.name))).getByRole('button', { name: 'Rename' }).click();
        await unfold(label(page, 'w'.repeat(80)));
        await page.addScriptTag({ content: axe });
        const found = await page.evaluate(async () => (await window.axe.run(document, { runOnly: ['wcag2a',
          'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] })).violations
          .map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(' | ')}`));
        assert.deepEqual(found, [], name);
        const small = await page.locator('#station-shelf').evaluate((shelf) => [...shelf.querySelectorAll(
          'button, summary, input:not([type=checkbox]):not(.unseen), .picker, .check label')]
          .filter((e) => e.getClientRects().length > 0 && e.getBoundingClientRect().height < 47.5)
          .map((e) => `${e.textContent || e.className} ${e.getBoundingClientRect().height}`));
        assert.deepEqual(small, [], name);
        const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        assert.ok(over <= 0, `${name}: ${over} px too wide`);
        await shot(page, `${name}-shelf-open-${scheme}`);
        await context.close();
      }
    });
  }
});

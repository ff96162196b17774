// tests/e2e/suits.test.mjs -- what a tube can be: asked for with one tap, taken with another; and what would put a
// layout right, said where it is wrong.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after, before, describe, it } from 'node:test';
import { PHONE, entry, figures, foreign, open, site, station } from './page.mjs';
import { bringAll, deed } from './shelf_page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

const lowest = (page) => entry(page, 'Note').inputValue();

describe('what this tube can be', () => {
  it('a tube is typed, a suggestion is tapped, its marks are there: six fields and three taps', async () => {
    const { page, context, faults, late } = await open(where, { viewport: PHONE });
    await page.getByRole('button', { name: 'Measure your tube' }).click();
    await page.getByRole('radio', { name: 'Millimetres' }).check({ force: true });
    await page.getByRole('button', { name: 'The whole form' }).click();
    await station(page, 'cane');
    const panel = page.locator('#station-cane details.suits');
    await panel.waitFor();
    let fields = 0;
    let taps = 0;
    const tap = async (target) => { taps += 1; await target.click(); };
    for (const [label, figure] of [['Bore', '14.6'], ['Wall', '2.4'], ['Below the line', '331'], ['Above the line', '130'],
      ['Sound hole length', '4.4'], ['Sound hole width', '7.2']]) {
      fields += 1;
      await entry(page, label).fill(figure);
    }
    await page.waitForSelector('html:not(.blank)');
    assert.equal(await panel.locator('.suit').count(), 0, 'nothing is reckoned before it is asked for');
    await tap(panel.locator('summary'));
    const second = panel.locator('.suit').nth(1);
    await second.waitFor();
    assert.match(await panel.locator('.suit').first().textContent(), /from sound hole to foot/);
    const name = await second.locator('h4').textContent();
    const before = await figures(page);
    await tap(second.getByRole('button'));
    await page.waitForFunction(() => /^Taken/.test(document.querySelector('#station-cane .suits .note[role=status]').textContent));
    await tap(page.locator('#tab-marks'));
    await page.waitForFunction((old) => JSON.stringify([...document.querySelectorAll('.rows .row .at')]
      .map((e) => e.textContent)) !== old, JSON.stringify(before));
    assert.ok(fields <= 8 && taps <= 3, `${fields} fields, ${taps} taps`);
    assert.ok(await page.locator('.rows .row .at').first().isVisible());
    assert.equal(await page.locator('#station-marks .mends').isVisible(), false, 'nothing is in the way of what was suggested');
    await station(page, 'song');
    assert.equal(await lowest(page), name.split(',')[0]);
    assert.deepEqual([faults, foreign(late, page)], [[], []]);
    await context.close();
  });

  it('a song that cannot be had names the nearest, and one tap takes it', async () => {
    const { page, context, faults } = await open(where, { viewport: PHONE });
    await station(page, 'song');
    await entry(page, 'Note').fill('C4');
    const mends = page.locator('#station-song .mends');
    const take = mends.getByRole('button').first();
    await take.waitFor();
    await take.click();
    await page.waitForFunction(() => document.querySelector('#station-song .cannot').hidden);
    await page.waitForFunction(() => document.querySelector('#station-song .mends').hidden);
    assert.notEqual(await lowest(page), 'C4');
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('where no limit would do, the nearest lowest notes are taps, on Marks too; what it says has no cents', async () => {
    const { page, context, faults } = await open(where, { viewport: PHONE });
    await station(page, 'song');
    await entry(page, 'Note').fill('C3');
    for (const key of ['song', 'marks']) {
      await station(page, key);
      const cannot = page.locator(`#station-${key} .cannot`);
      await cannot.getByText('too short for').waitFor();
      assert.doesNotMatch(await cannot.textContent(), /cents|sharp/);
      const mends = page.locator(`#station-${key} .mends`);
      await mends.getByText('Take F♯4 for the lowest note').waitFor();
      assert.doesNotMatch(await mends.textContent(), /still off|C4/, 'what would not do either is not offered');
    }
    await page.locator('#station-marks .mends .mend').getByRole('button').first().click();
    await page.waitForFunction(() => document.querySelector('#station-marks .cannot').hidden
      && document.querySelector('#station-marks .mends').hidden);
    assert.ok(await page.locator('.rows .row .at').first().isVisible());
    await station(page, 'song');
    assert.equal(await lowest(page), 'F♯4');
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('of a flute whose holes are cut nothing is taken', async () => {
    const { page, context, faults } = await open(where, { viewport: PHONE });
    const doc = JSON.parse(readFileSync('tests/data/documents/full_log.json', 'utf8'));
    await bringAll(page, doc);
    await deed(page, doc.name, 'Take in hand');
    await page.waitForFunction((name) => document.querySelector('#title-marks')?.textContent.includes(name), doc.name);
    await station(page, 'cane');
    const panel = page.locator('#station-cane details.suits');
    await panel.locator('summary').click();
    await panel.getByText('This flute is begun').waitFor();
    assert.equal(await panel.getByRole('button').count(), 0);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('says how far it is, and the best so far; a tube changed meanwhile is the one that is told of', async () => {
    const { page, context, faults } = await open(where, { viewport: PHONE });
    await station(page, 'cane');
    const panel = page.locator('#station-cane details.suits');
    await panel.waitFor();
    await page.evaluate(() => {
      window.seen = [];
      const place = document.querySelector('#station-cane details.suits');
      new MutationObserver(() => window.seen.push(place.textContent)).observe(place, { childList: true, subtree: true, characterData: true });
    });
    await panel.locator('summary').click();
    await entry(page, 'Sound hole width').fill('9.4');
    // the first tube's answer may still come before the change is heeded
    await page.waitForFunction(() => {
      const place = document.querySelector('#station-cane details.suits');
      return /It carries .* tried\./.test(place.textContent) && place.querySelector('progress').hidden && place.querySelectorAll('.suit').length >= 3;
    });
    const seen = await page.evaluate(() => window.seen);
    assert.ok(seen.some((text) => /\d+ of \d+/.test(text) && /The best so far/.test(text)));
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('a hand is measured and heeded; a rod stands among the bits; a pipe is never bored hot', async () => {
    const { page, context, faults } = await open(where, { viewport: PHONE });
    await station(page, 'song');
    const hands = page.locator('#station-song details.hands');
    await hands.locator('summary').click();
    await entry(hands, 'Three fingers’ span').fill('6');
    await entry(hands, 'Print').fill('11.5');
    await hands.getByText(/too small; it takes at least 25/).waitFor();
    await hands.getByRole('combobox').selectOption('child of 9 to 12');
    await hands.getByText('holes 15.5 to 28.0 mm apart, at most 8.5 mm wide').first().waitFor();
    await hands.getByText(/Upper hand: holes 1 and 2/).waitFor();
    await hands.getByRole('button', { name: 'Lay out for this hand' }).click();
    await page.waitForFunction(() => [...document.querySelectorAll('#station-song input')].some((e) => e.value === '15.5'));
    assert.equal(await entry(page, 'Holes apart, at most').inputValue(), '28.0');
    assert.equal(await entry(page, 'Hole, at most').inputValue(), '8.5');

    const drills = page.locator('#station-song details.drills');
    await drills.locator('summary').click();
    await drills.getByRole('checkbox', { name: '1/4 in', exact: true }).check();
    await entry(drills, 'The rod').fill('6');
    await drills.getByRole('button', { name: 'Add this rod' }).click();
    await drills.getByText('A figure is needed here.').waitFor();
    await entry(drills, 'Burns wider by').fill('0.4');
    await drills.getByRole('button', { name: 'Add this rod' }).click();
    await drills.getByRole('button', { name: 'Remove 6.0 mm rod' }).waitFor();
    assert.equal(await entry(page, 'My bits').inputValue(), '1/4 in, 6.0 mm rod');
    // a bit the line knows by name is read again
    await entry(page, 'My bits').fill('1/4 in, 6.0 mm rod, 8');
    await drills.getByText('3 on the bench.').waitFor();

    await station(page, 'cane');
    const about = page.locator('#station-cane details.material');
    await about.locator('summary').click();
    await about.getByText('Bare steel only').waitFor();
    await page.getByRole('combobox', { name: 'Material' }).selectOption('plastic pipe');
    await about.getByRole('button', { name: 'CPVC pipe' }).click();
    await about.getByText('No hot rod').waitFor();
    assert.equal(await page.getByRole('combobox', { name: 'Material' }).inputValue(), 'CPVC pipe');
    await station(page, 'song');
    assert.equal(await drills.getByRole('button', { name: 'Add this rod' }).isVisible(), false);
    assert.deepEqual(faults, []);
    await context.close();
  });
});

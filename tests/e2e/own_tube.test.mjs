// tests/e2e/own_tube.test.mjs -- a maker's own tube: begun empty, or made of the example by changing it.
// Nothing of the example comes onto its paper; habits of the maker's last flute do come along.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESK, PHONE, afterChange, entry, open, ready, settle, site, station } from './page.mjs';
import { held } from './shelf_page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

/** Three tubes that share no size with the example. */
const TUBES = {
  'a thin reed': { Bore: '8.9', Wall: '1.7', 'Below the line': '191', 'Above the line': '82',
    'Sound hole length': '3.3', 'Sound hole width': '4.8' },
  'a drilled dowel': { Bore: '14.3', Wall: '3.7', 'Below the line': '333', 'Above the line': '117',
    'Sound hole length': '4.7', 'Sound hole width': '7.6' },
  'a wide pipe': { Bore: '22.6', Wall: '2.3', 'Below the line': '541', 'Above the line': '163',
    'Sound hole length': '6.3', 'Sound hole width': '10.7' },
};
/** By the whole form; guide.test.mjs goes one thing at a time. */
async function measure(page) {
  await page.getByRole('button', { name: 'Measure your tube' }).click();
  await page.getByRole('radio', { name: 'Millimetres' }).check({ force: true });
  await page.getByRole('button', { name: 'The whole form' }).click();
}
async function fill(page, tube) {
  await station(page, 'cane');
  for (const [label, figure] of Object.entries(tube)) await entry(page, label).fill(figure);
  await page.waitForSelector('html:not(.blank)');
  await settle(page);
}

/** All words of these sheets, when the proposals are there. */
async function printed(page, kinds = ['Marking strip', 'Marks list', 'Voice sheet', 'Owner’s card']) {
  await station(page, 'marks');
  await page.getByRole('button', { name: 'Print', exact: true }).click();
  await page.getByRole('button', { name: 'Voice sheet', exact: true }).click();
  await page.waitForFunction(() => [...document.querySelectorAll('.previews text')]
    .some((e) => /^proposed: /.test(e.textContent)));
  const words = [];
  for (const kind of kinds) {
    await page.getByRole('button', { name: kind, exact: true }).click();
    words.push(...await page.locator('.previews text').allTextContents());
  }
  await page.keyboard.press('Escape');
  return words;
}
/** Figures in mm. Below ten tubes may well share one, slack above all. */
const figuresIn = (words) => new Set(words.flatMap((text) => text.match(/\d+\.\d+(?= mm)/g) ?? [])
  .filter((figure) => Number(figure) >= 10));

describe('a tube of my own', () => {
  let example;
  before(async () => {
    const { page, context } = await open(where, { viewport: DESK });
    example = figuresIn(await printed(page));
    // Its tube above the line, chamber, plug, air hole and track; and where they lie from the centre.
    for (const size of ['150.0', '100.0', '10.0', '18.0', '152.8', '112.8', '12.8', '20.8']) {
      assert.ok(example.has(size), size);
    }
    await context.close();
  });

  for (const [name, tube] of Object.entries(TUBES)) {
    it(`has no size of the example on its paper: ${name}`, async () => {
      const { page, context, faults } = await open(where, { viewport: DESK });
      await measure(page);
      await fill(page, tube);
      const words = await printed(page);
      const own = figuresIn(words);
      assert.ok(own.size > 10, `${own.size} figures`);
      assert.deepEqual([...own].filter((figure) => example.has(figure)), []);
      assert.doesNotMatch(words.join(' '), /Willow|autumn/);
      assert.ok(words.some((text) => text === 'A flute without a name'));
      // Each part has a size that names its rule and what it follows.
      for (const part of ['Thickness of the plug', 'Length of the chamber', 'Diameter of the air hole']) {
        assert.ok(words.includes(part), part);
      }
      assert.ok(words.some((text) => new RegExp(`bore ${Number(tube.Bore).toFixed(1)} mm`).test(text)));
      assert.deepEqual(faults, []);
      await context.close();
    });
  }

  it('begins empty: no figure of the example is shown as its own, no marks, nothing to print', async () => {
    const { page, context, faults } = await open(where, { viewport: PHONE });
    await measure(page);
    await page.waitForSelector('html.blank');
    for (const label of Object.keys(TUBES['a thin reed'])) assert.equal(await entry(page, label).inputValue(), '', label);
    assert.equal(await page.locator('.verdict').isVisible(), false);
    assert.equal(await page.locator('[aria-invalid="true"]').count(), 0, 'empty is not wrong');
    assert.equal(await page.locator('#tab-bench').isVisible(), false);
    await station(page, 'marks');
    await page.getByText('No marks yet.').waitFor();
    for (const label of ['Bore', 'Wall', 'Below the line', 'Sound hole length', 'Sound hole width']) {
      assert.equal(await page.locator('.trouble').getByRole('button', { name: label, exact: true }).count(), 1, label);
    }
    assert.equal(await page.locator('.rows .row').first().isVisible(), false);
    assert.equal(await page.getByRole('button', { name: 'Print', exact: true }).isVisible(), false);
    // Half measured and reloaded, it is still no other flute's.
    await station(page, 'cane');
    await entry(page, 'Bore').fill('8.9');
    await settle(page);
    await page.reload();
    await ready(page);
    await page.waitForSelector('html.blank');
    await station(page, 'cane');
    assert.equal(await entry(page, 'Bore').inputValue(), '8.9');
    assert.equal(await entry(page, 'Wall').inputValue(), '');
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('has my last units, rooms, bits and hands, and not the example’s', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    await measure(page);
    await fill(page, TUBES['a drilled dowel']);
    assert.equal(await entry(page, 'Workshop').inputValue(), '20', 'not the example’s 19');
    assert.equal(await entry(page, 'Hole, at most').inputValue(), '');
    await entry(page, 'Workshop').fill('16');
    await entry(page, 'Hole, at most').fill('7.5');
    await page.getByRole('combobox', { name: 'Holes per hand' }).selectOption('3+2');
    await entry(page, 'Name').fill('First dowel');
    await settle(page);
    await station(page, 'shelf');
    await page.getByRole('button', { name: /another|new/i }).first().click();
    await page.waitForSelector('html.blank');
    assert.equal(await entry(page, 'Workshop').inputValue(), '16');
    assert.equal(await entry(page, 'Hole, at most').inputValue(), '7.5');
    assert.equal(await page.getByRole('combobox', { name: 'Holes per hand' }).inputValue(), '3+2');
    assert.equal(await entry(page, 'Bore').inputValue(), '');
    assert.equal(await entry(page, 'Name').inputValue(), '');
    await station(page, 'shelf');
    await page.getByText('First dowel').first().waitFor();  // kept
    await context.close();
  });

  it('has my last bits, inches and line, and what I chose as the example happens to have it', async () => {
    const { page, context, faults } = await open(where, { viewport: DESK });
    await measure(page);
    await fill(page, TUBES['a drilled dowel']);
    const line = page.getByRole('combobox', { name: 'Measured from the sound hole’s' });
    const hands = page.getByRole('combobox', { name: 'Holes per hand' });
    await entry(page, 'Workshop').fill('19');
    await hands.selectOption('2+3');
    await page.getByRole('radio', { name: 'Only my bits' }).check({ force: true });
    await entry(page, 'My bits').fill('5, 6.5, 7/32 in');
    await page.getByRole('combobox', { name: 'Unit', exact: true }).selectOption('inch/64');
    await line.selectOption('splitting edge');
    await settle(page);
    for (const tube of ['first', 'second']) {  // the habits of one that was begun with habits, too
      await station(page, 'shelf');
      await page.getByRole('button', { name: 'Start another flute' }).click();
      await page.waitForSelector('html.blank');
      assert.equal(await entry(page, 'Workshop').inputValue(), '19', tube);
      assert.equal(await hands.inputValue(), '2+3');
      assert.equal(await page.getByRole('radio', { name: 'Only my bits' }).isChecked(), true);
      const bits = (await entry(page, 'My bits').inputValue()).split(', ');
      assert.deepEqual(bits.map((bit) => bit.replace(' mm', '')), ['5', '6.5', '7/32 in']);
      assert.equal(await entry(page, 'Bore').inputValue(), '');
      await entry(page, 'Name').fill(`The ${tube} after it`);
      await held(page, [`The ${tube} after it`, '"unit":"inch","fraction":64,"datum":"splitting edge"']);
    }
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('is made of the example by its first figure that is another: then its name and upper parts go', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    await entry(page, 'Below the line').fill('431');  // the marks may stay where they are
    await settle(page);
    await afterChange(page, () => entry(page, 'Bore 1').fill('17.1'));
    await settle(page);
    assert.equal(await entry(page, 'Name').inputValue(), '');
    const words = (await printed(page, ['Marking strip', 'Marks list', 'Voice sheet'])).join(' ');
    assert.doesNotMatch(words, /Willow|CHAMBER, UPPER END\s+−1[12]|100\.0 mm|⌀ 10\.0 mm/);
    assert.match(words, /AIR HOLE ⌀ 8\.6 MM \*/);  // half a bore of 17.1
    await context.close();
  });

  it('has its marks above the sound hole on Marks too, and says which follow from a proposal', async () => {
    const { page, context, faults } = await open(where, { viewport: PHONE });
    await measure(page);
    await fill(page, TUBES['a thin reed']);
    await station(page, 'marks');
    await page.getByText('Marks above the sound hole').click();
    const part = page.locator('details.upper', { hasText: 'Marks above the sound hole' });
    await part.getByText('Air hole, centre *').waitFor();
    assert.match(await part.innerText(), /Thickness of the plug 4\.5 mm\s+proposed: half the bore \(bore 8\.9 mm\)/);
    assert.match(await part.innerText(), /A made plug/);
    await part.getByRole('button', { name: 'Change or take it on Voice' }).click();
    assert.equal(await page.locator('#tab-voice').getAttribute('aria-selected'), 'true');
    assert.deepEqual(faults, []);
    await context.close();
  });
});

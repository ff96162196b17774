// tests/e2e/ways.test.mjs -- a bore found by water, shanks or a strip of paper, and taken over.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESK, afterChange, entry, foreign, figures, open, settle, site } from './page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

async function openWays() {
  const opened = await open(where, { viewport: DESK });
  await opened.page.locator('.ways > summary').click();
  await opened.page.locator('.errors > summary').click();
  return opened;
}

const way = (page, name) => page.locator('.ways').getByRole('radio', { name, exact: true }).check();
const found = (page) => page.locator('.ways > div:not([hidden]) > .found').textContent();
const figure = async (page) => Number(/ ([\d.]+) mm, ±/.exec(await found(page))[1]);
const field = (page, name) => page.locator('.ways').getByRole('textbox', { name, exact: true });
const take = (page, name = 'Take it as the bore') => page.getByRole('button', { name });

// A cylinder's volume is pi/4 d^2 h; water at 20 °C weighs 0.9982 g/ml (handbook value, from
// memory), and air buoys it up by 0.105 % on a scale.
const weight = (bore, length) => Math.PI / 4 * bore ** 2 * length / 1000 * 0.9982 * (1 - 0.00105);

describe('other ways to find the bore', () => {
  it('each says what it is worth on this tube, the most precise is named', async () => {
    const { page, context } = await openWays();
    await page.waitForFunction(() => /^Most precise/.test(document.querySelector('.ways p')?.textContent));
    const worths = await page.locator('.ways dl dd').allTextContents();
    assert.ok(worths.length >= 5);
    const cents = worths.map((text) => Number(/, ± ([\d.]+) cents?/.exec(text)[1]));
    const best = await page.locator('.ways dl dt').nth(cents.indexOf(Math.min(...cents))).textContent();
    assert.ok((await page.locator('.ways p').first().textContent())
      .startsWith(`Most precise on this tube: ${best[0].toLowerCase()}${best.slice(1)}, ± `));
    await context.close();
  });

  it('water on a scale: the bore of that cylinder, taken over with one tap, and put back', async () => {
    const { page, context, late } = await openWays();
    const bores = page.getByRole('textbox', { name: /^Bore( \d)?$/ });
    const texts = async () => Promise.all((await bores.all()).map((b) => b.inputValue()));
    const before = await texts();
    const marks = await figures(page);
    const error = await entry(page, 'Bore, how far off').inputValue();
    await field(page, 'Water').fill(weight(19, 400).toFixed(1).replace('.', ','));
    await field(page, 'Filled length').fill('400');
    assert.ok(Math.abs(await figure(page) - 19) < 0.011, await found(page));
    assert.deepEqual(await figures(page), marks, 'nothing moves before it is taken over');
    await afterChange(page, () => take(page).click());
    const after = (await texts()).map(Number);
    assert.equal(after.length, before.length);
    assert.ok(after.every((bore, i) => bore > Number(before[i])), 'wider everywhere');
    assert.ok(Math.min(...after) < 19.05 && Math.max(...after) > 18.95, String(after));
    assert.notEqual(await entry(page, 'Bore, how far off').inputValue(), error);
    await afterChange(page, () => page.getByRole('button', { name: 'Put back' }).click());
    assert.deepEqual(await texts(), before);
    assert.deepEqual(await figures(page), marks);
    assert.equal(await entry(page, 'Bore, how far off').inputValue(), error);
    assert.deepEqual(foreign(late, page), []);
    await context.close();
  });

  it('a syringe, two shanks, a strip of paper', async () => {
    const { page, context } = await openWays();
    await way(page, 'Water, by syringe');
    await field(page, 'Water').fill(String(Math.PI / 4 * 17 ** 2 * 0.3));
    await field(page, 'Filled length').fill('300');
    assert.ok(Math.abs(await figure(page) - 17) < 0.011, await found(page));
    await way(page, 'Drill shanks');
    await field(page, 'Goes in').fill('17');
    assert.equal(await found(page), '', 'half a measurement is none');
    await field(page, 'Does not go in').fill('17.5');
    // Anything between is as likely: mean in the middle, deviation the span over the root of 12.
    assert.equal(await found(page), `Bore 17.25 mm, ± ${(0.5 / Math.sqrt(12)).toFixed(3)} mm`);
    await afterChange(page, () => take(page, /^Take it as bore 2$/).click());
    assert.equal(Number(await entry(page, 'Bore 2').inputValue()).toFixed(0), '17');
    await way(page, 'Paper strip');
    await field(page, 'Once round').fill(String(25 * Math.PI));
    // The strip's middle lies half its thickness off the tube, about 0.1 mm in all.
    assert.ok(Math.abs(await figure(page) - 24.9) < 0.06, await found(page));
    await afterChange(page, () => take(page, 'Take it as the outside diameter').click());
    assert.match(await entry(page, 'Outside diameter').inputValue(), /^24\.9|^25\.0/);
    await context.close();
  });

  it('nonsense gets a sentence, moves nothing and is not lost by a reload', async () => {
    const { page, context } = await openWays();
    const marks = await figures(page);
    const wrong = page.locator('.ways .wrong:not(:empty):visible');
    for (const [text, words] of [['a bucket', /not a number/], ['-4', /too small|Check both/],
      ['2', /So little water/], ['4000', /So much water/], ['1e999', /\.$/]]) {
      await field(page, 'Water').fill(text);
      assert.match(await wrong.first().textContent(), words, text);
      assert.equal(await found(page), '', text);
      assert.equal(await take(page).count(), 0, text);
    }
    await way(page, 'Drill shanks');
    await field(page, 'Goes in').fill('18');
    await field(page, 'Does not go in').fill('17');
    assert.match(await wrong.textContent(), /thicker one/);
    await settle(page);
    assert.deepEqual(await figures(page), marks);
    await page.reload();
    await page.locator('.ways > summary').click();
    assert.equal(await field(page, 'Does not go in').inputValue(), '17');
    await way(page, 'Water, weighed');
    assert.equal(await field(page, 'Water').inputValue(), '1e999');
    await context.close();
  });
});

describe('a ridge left of a node', () => {
  it('needs its place and its opening, moves the marks, is drawn, and goes when it is emptied', async () => {
    const { page, context, faults } = await open(where, { viewport: DESK });
    const marks = await figures(page);
    await page.locator('.ridge > summary').click();
    const at = entry(page, 'Ridge at');
    const opening = entry(page, 'Opening of the ridge');
    await at.fill('330');
    await page.locator('.ridge .wrong:not(:empty)').waitFor();
    assert.match(await page.locator('.ridge .wrong:not(:empty)').textContent(), /figure is needed/);
    assert.deepEqual(await figures(page), marks, 'half a ridge is none');
    await afterChange(page, () => opening.fill('12'));
    assert.equal(await page.locator('.ridge .wrong:not(:empty)').count(), 0);
    assert.equal(await page.locator('.flute line.ridge').count(), 2);
    await opening.fill('40');
    await page.locator('.ridge .wrong:not(:empty)').waitFor();
    assert.match(await page.locator('.ridge .wrong:not(:empty)').textContent(), /too large; it takes at most \d/);
    await opening.fill('');
    await afterChange(page, () => at.fill(''));
    assert.deepEqual(await figures(page), marks);
    assert.equal(await page.locator('.flute line.ridge').count(), 0);
    assert.deepEqual(faults, []);
    await context.close();
  });
});

// tests/e2e/entries.test.mjs -- what is typed: read, refused with a sentence, never lost.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESK, afterChange, entry, figures, open, ready, settle, site, station } from './page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

/** The sentence that a field is described by. */
const sentenceAt = (field) => field.evaluate((input) => {
  const id = input.getAttribute('aria-describedby').split(' ').pop();
  return document.getElementById(id).textContent;
});

describe('entries', () => {
  it('that make no sense get a sentence beside the field, and the marks stay', async () => {
    const { page, context } = await open(where);
    const marks = await figures(page);
    await station(page, 'cane');
    const field = entry(page, 'Below the line');
    assert.equal(await sentenceAt(field), '');
    for (const nonsense of ['a thumb', '4.3.2', '1e3', '', '∞', '12 34', '<b>9</b>']) {
      await field.fill(nonsense);
      assert.match(await sentenceAt(field), /\w{3,}.*\.$/, `“${nonsense}”`);
      assert.equal(await field.getAttribute('aria-invalid'), 'true');
      assert.equal(await field.inputValue(), nonsense, 'kept as typed');
    }
    await field.fill('a thumb');
    assert.match(await sentenceAt(field), /“a thumb”/);
    await settle(page);
    await station(page, 'marks');
    assert.deepEqual(await figures(page), marks);
    const word = page.getByRole('button', { name: 'Below the line', exact: true });
    assert.match(await page.locator('.trouble').textContent(), /last good marks/);
    await word.click();
    assert.equal(await page.evaluate(() => document.activeElement.value), 'a thumb');
    await context.close();
  });

  it('that the core refuses get a sentence with the limit, and the marks stay', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    const marks = await figures(page);
    const field = entry(page, 'Below the line');
    await field.fill('-5');
    await page.waitForFunction(() => document.querySelector('.wrong:not(:empty)'));
    assert.match(await sentenceAt(field), /too small; it takes at least \d/);
    assert.deepEqual(await figures(page), marks);
    assert.equal(await page.locator('.wrong:not(:empty)').count(), 1, 'no other field is blamed');
    await field.fill('430');
    await page.waitForFunction(() => !document.querySelector('.wrong:not(:empty)'));
    assert.equal(await page.locator('.trouble').isVisible(), false);
    await context.close();
  });

  it('may have a decimal comma, a fraction or the other unit', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    const field = entry(page, 'Sound hole width');
    const results = {};
    for (const text of ['8.25', '8,25', '8,25 mm', '0.825cm']) {
      await field.fill('9');
      await settle(page);
      await afterChange(page, () => field.fill(text));
      results[text] = await figures(page);
      assert.equal(await sentenceAt(field), '');
    }
    assert.equal(new Set(Object.values(results).map(String)).size, 1, JSON.stringify(results));
    await afterChange(page, () => field.fill('1/4')); // a fraction is inches: 6.35 mm; typed, hundredths of a mm are read
    const fraction = await figures(page);
    await field.fill('9');
    await settle(page);
    await afterChange(page, () => field.fill('6,35'));
    assert.deepEqual(await figures(page), fraction);
    await context.close();
  });

  it('stay over a reload, sense or nonsense, with the marks', async () => {
    const { page, context, faults } = await open(where);
    await station(page, 'cane');
    const wide = entry(page, 'Sound hole width');
    const name = entry(page, 'Name');
    await afterChange(page, () => wide.fill('8,25'));
    await name.fill('Otter bank <i>third</i> cane');
    await entry(page, 'Above the line').fill('about a hand');
    const marks = await figures(page);
    await page.reload();
    await ready(page);
    assert.equal(await wide.inputValue(), '8,25');
    assert.equal(await entry(page, 'Above the line').inputValue(), 'about a hand');
    assert.match(await sentenceAt(entry(page, 'Above the line')), /“about a hand”/);
    await station(page, 'marks');
    assert.deepEqual(await figures(page), marks);
    assert.equal(await page.locator('#title-marks').textContent(),
      'Marks for Otter bank <i>third</i> cane');
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('come through damaged storage, and through none at all', async () => {
    for (const kept of ['{', '[]', '{"doc":{},"good":{}}', '{"doc":{"tube":{"bore":[{}]},'
      + '"sound_hole":{},"song":{}},"good":{"tube":{"bore":[{}]},"sound_hole":{},"song":{}},'
      + '"typed":{"tube.wall_mm":5},"station":"nowhere"}']) {
      const { page, context, faults } = await open(where);
      await page.evaluate((text) => {
        localStorage.setItem('canewright/1', text);
        Storage.prototype.setItem = () => { throw new Error('full'); };
      }, kept);
      await page.reload();
      await ready(page);
      assert.ok((await figures(page)).length >= 6, kept);
      assert.deepEqual(faults, [], kept);
      await context.close();
    }
    const { page, context, faults } = await open(where, { viewport: DESK });
    await page.evaluate(() => { Storage.prototype.setItem = () => { throw new Error('full'); }; });
    await afterChange(page, () => entry(page, 'Sound hole width').fill('8'));
    await page.getByText('This browser keeps nothing').waitFor();
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('can be stepped, and brought back after a return to the example', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    const field = entry(page, 'Sound hole width');
    const start = Number(await field.inputValue());
    await afterChange(page, () => page.getByRole('button', { name: 'Sound hole width: less' }).click());
    assert.ok(Math.abs(Number(await field.inputValue()) - (start - 0.1)) < 1e-9);
    await field.focus();
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('ArrowUp');
    assert.ok(Math.abs(Number(await field.inputValue()) - (start + 0.1)) < 1e-9);
    await page.getByRole('button', { name: 'Back to the example' }).click();
    assert.equal(Number(await field.inputValue()), start);
    await page.getByRole('button', { name: 'Bring mine back' }).click();
    assert.ok(Math.abs(Number(await field.inputValue()) - (start + 0.1)) < 1e-9);
    await context.close();
  });

  it('of several stations can be added, made oval and taken away', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    const places = page.getByRole('textbox', { name: /^Place \d$/ });
    while (await page.getByRole('button', { name: /^Remove Bore/ }).count() > 0) {
      await page.getByRole('button', { name: /^Remove Bore/ }).last().click();
    }
    assert.equal(await places.count(), 0);
    await settle(page);
    const single = await figures(page);
    await page.getByRole('button', { name: 'Add a place' }).click();
    assert.equal(await places.count(), 2);
    await settle(page);
    assert.deepEqual(await figures(page), single, 'the same bore at a second place');
    const far = entry(page, 'Bore 2');
    await afterChange(page, async () => far.fill(String(Number(await far.inputValue()) - 1)));
    await page.getByRole('button', { name: 'Bore 2: it is oval' }).click();
    const across = entry(page, 'Bore 2, across');
    await afterChange(page, async () =>
      across.fill(String(Number(await across.inputValue()) + 1)));
    await page.getByRole('button', { name: 'Bore 2: it is round' }).click();
    assert.equal(await across.count(), 0);
    await context.close();
  });
});

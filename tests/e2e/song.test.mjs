// tests/e2e/song.test.mjs -- the song's choices reach the marks.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESK, afterChange, entry, foreign, figures, marksMm, open, ready, settle, site, station } from './page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

const choose = (page, words) => page.getByRole('radio', { name: words, exact: true }).check();
const rowCount = async (page) => (await figures(page)).length;

describe('song', () => {
  it('four, five and six holes give so many marks', async () => {
    const { page, context, faults } = await open(where, { viewport: DESK });
    for (const [words, holes] of [['six', 6], ['four', 4], ['five', 5]]) {
      await afterChange(page, () => choose(page, words));
      assert.equal(await rowCount(page), holes + 2);
      assert.equal(await page.locator('.trouble').isVisible(), false, words);
    }
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('every named scale is laid out; steps of one’s own begin as the ones before', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    const scale = page.getByRole('combobox', { name: 'Scale' });
    const names = (await scale.locator('option').allTextContents()).slice(0, -1);
    assert.ok(names.length >= 4);
    for (const name of [...names.slice(1), names[0]]) {
      await scale.selectOption(name);
      await page.locator('#station-marks .lead').first().filter({ hasText: name }).waitFor();
      assert.equal(await page.locator('.trouble').isVisible(), false, name);
    }
    const before = await figures(page);
    await scale.selectOption({ label: 'steps of my own' });
    await settle(page);
    assert.deepEqual(await figures(page), before);
    const cents = entry(page, 'Steps in cents');
    const steps = (await cents.inputValue()).split(' ');
    steps[1] = String(Number(steps[1]) + 20);
    await afterChange(page, () => cents.fill(steps.join(', ')));
    await context.close();
  });

  it('a lowest note by name, by frequency, or floating', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    const before = await figures(page);
    await choose(page, 'A frequency');
    // 391.995 Hz is G4 at A4 = 440 Hz, by the definition of equal temperament.
    assert.equal(await entry(page, 'Frequency').inputValue(),
      String(Math.round(440 * 2 ** (-2 / 12) * 10) / 10));
    await settle(page);
    const near = await figures(page);
    near.forEach((text, i) => assert.ok(Math.abs(Number(text) - Number(before[i])) <= 0.21));
    await afterChange(page, () => choose(page, 'Let it float'));
    assert.match(await page.locator('.row.foot').textContent(), /as it is/);
    await afterChange(page, () => choose(page, 'A note'));
    assert.deepEqual(await figures(page), before, 'the note came back');
    const note = entry(page, 'Note');
    await note.fill('J9');
    await page.waitForFunction(() => document.querySelector('.wrong:not(:empty)'));
    assert.match(await page.locator('.wrong:not(:empty)').textContent(), /note’s name/);
    assert.deepEqual(await figures(page), before);
    await note.fill('ab4');
    await page.waitForFunction(() => !document.querySelector('.wrong:not(:empty)'));
    assert.match(await page.locator('#station-marks .lead').first().textContent(), /^A♭4/);
    await context.close();
  });

  it('a fingering changed by touch is laid out, and the usual one comes back', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    const before = await figures(page);
    const row = page.locator('.chart tbody tr').nth(1); // the second highest note
    const hole = row.locator('button').last();
    assert.equal(await hole.getAttribute('aria-pressed'), 'true');
    await hole.click();
    assert.equal(await hole.getAttribute('aria-pressed'), 'false');
    await settle(page);
    assert.notDeepEqual(await figures(page), before);
    await afterChange(page, () => page.getByRole('button', { name: 'Back to the usual fingering' })
      .click());
    assert.deepEqual(await figures(page), before);
    await context.close();
  });

  it('bits of one’s own are the only ones in the marks', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    await choose(page, 'Only my bits');
    await settle(page);
    const bits = entry(page, 'My bits');
    await afterChange(page, () => bits.fill('5, 6,5 mm; 1/4 in'));
    const used = (await page.locator('.rows .row:not(.foot) .bit').allTextContents())
      .map((text) => text.replace('bit ', '').replace('⌀ ', ''));
    assert.ok(used.length >= 4);
    used.forEach((text) => assert.ok(['5', '6.5', '1/4 in'].includes(text), text));
    await bits.fill('5, six');
    assert.match(await page.locator('.wrong:not(:empty)').textContent(), /“six” is not a bit/);
    await context.close();
  });

  it('limits that press are named with what they cost, and are gone when they are loosened', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    const most = entry(page, 'Holes apart, at most');
    const held = page.locator('.held');
    assert.equal(await held.textContent(), '');
    await afterChange(page, () => entry(page, 'Hole, at most').fill('7.2'));
    await entry(page, 'Hole, at least').fill('7');
    await settle(page);
    assert.match(await page.locator('.held').textContent(), /^(?!.*neighbour)/);
    await afterChange(page, () => most.fill('30'));
    await page.waitForFunction(() => /neighbour/.test(document.querySelector('.held').textContent));
    assert.match(await held.textContent(),
      /Hole \d may lie no farther from its neighbour than 30\.0 mm: costs \d+(\.\d)? cents?\./);
    assert.match(await page.locator('.rows').textContent(), /held by reach, \d/);
    await afterChange(page, () => most.fill(''));
    assert.doesNotMatch(await held.textContent(), /neighbour/);
    await context.close();
  });

  it('bits and steps of one’s own that make no sense are there after a reload, and found from the marks', async () => {
    const { page, context, faults } = await open(where);
    await station(page, 'song');
    await choose(page, 'Only my bits');
    await entry(page, 'My bits').fill('5, six');
    await page.getByRole('combobox', { name: 'Scale' }).selectOption({ label: 'steps of my own' });
    await entry(page, 'Steps in cents').fill('0 up');
    await settle(page);
    await page.reload();
    await ready(page);
    for (const [label, text] of [['My bits', '5, six'], ['Steps in cents', '0 up']]) {
      await station(page, 'marks');
      await page.locator('.trouble').getByRole('button', { name: label, exact: true }).click();
      assert.equal(await page.evaluate(() => document.activeElement.value), text);
      assert.equal(await entry(page, label).getAttribute('inputmode'), 'text', 'a pad with a comma and a space');
    }
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('high notes that are blown harder are laid out flatter, and nothing said is as before', async () => {
    const { page, context, faults } = await open(where, { viewport: DESK });
    const before = await marksMm(page);
    await page.locator('summary', { hasText: 'Pitch and air' }).click();
    await afterChange(page, () => entry(page, 'Breath lifts high notes').fill('8'));
    const after = await marksMm(page);
    assert.equal(await page.locator('.trouble').isVisible(), false);
    const moved = after.map((mm, n) => mm - before[n]);
    const [upper, lower, foot] = [moved[1], moved.at(-2), moved.at(-1)];
    assert.ok(Math.abs(foot) < 0.11, `the lowest note is lifted by nothing: ${moved}`);
    assert.ok(upper > lower && lower > 0 && upper < 4, `${moved}`);
    await afterChange(page, () => entry(page, 'Breath lifts high notes').fill(''));
    assert.deepEqual(await marksMm(page), before);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('can be heard and stopped', async () => {
    const { page, context, faults, late } = await open(where, { viewport: DESK });
    await page.getByRole('button', { name: 'Hear it' }).click();
    await page.getByRole('button', { name: 'Stop' }).waitFor();
    await page.waitForFunction(() => /\d$/.test(document.querySelector('.sounding').textContent));
    await page.getByRole('button', { name: 'Stop' }).click();
    await page.getByRole('button', { name: 'Hear it' }).waitFor();
    assert.deepEqual([faults, foreign(late, page)], [[], []]);
    await context.close();
  });
});

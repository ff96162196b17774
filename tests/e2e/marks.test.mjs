// tests/e2e/marks.test.mjs -- the marks follow the tube, the datum and the unit.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESK, afterChange, entry, figures, marksMm, open, settle, site } from './page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

const ROUNDING_MM = 0.1001; // two figures, each rounded to 0.1 mm

/** Own reading of "6 11/32″" or "7″", independent of the core's. @returns inches */
function inches(text) {
  const parts = /^(−?)(?:(\d+)(?: |(?=″)))?(?:(\d+)\/(\d+))?″$/.exec(text);
  assert.ok(parts, `a length in inches: ${text}`);
  const [, sign, whole = '0', top = '0', bottom = '1'] = parts;
  return (sign ? -1 : 1) * (Number(whole) + Number(top) / Number(bottom));
}

describe('marks', () => {
  it('are there when the page opens: sound hole, every finger hole in order, foot', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    const marks = await marksMm(page);
    const holes = await page.locator('.rows .row .bit').count() - 1; // the foot has one too
    assert.equal(marks.length, holes + 2);
    assert.equal(marks[0], 0);
    assert.ok(holes >= 4);
    marks.slice(1).forEach((mark, i) => assert.ok(mark > marks[i], `${marks}`));
    await context.close();
  });

  // Expected direction, from physics: with the sound hole and the notes as they are, a wider bore
  // has longer end corrections at the foot (about 0.6 of its radius: H. Levine, J. Schwinger,
  // Phys. Rev. 73 (1948) 383) and at the sound hole (in proportion to its area), so that the tube
  // must be shorter; and the same finger hole counts for less in it, so must lie nearer as well.
  it('all come nearer when the bore is half a millimetre wider', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    await page.getByRole('radio', { name: 'Any diameter' }).check();
    await settle(page);
    const before = await marksMm(page);
    const bores = page.getByRole('textbox', { name: /^Bore( \d)?$/ });
    for (const bore of await bores.all()) {
      const wider = Number(await bore.inputValue()) + 0.5;
      await afterChange(page, () => bore.fill(String(wider)));
    }
    await settle(page);
    const after = await marksMm(page);
    assert.equal(after.length, before.length);
    const shifts = after.slice(1).map((mark, i) => mark - before[i + 1]);
    shifts.forEach((shift) => assert.ok(shift < 0, `holes and foot: ${shifts}`));
    await context.close();
  });

  it('go farther out for a lower note', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    const before = await marksMm(page);
    await afterChange(page, () => page.getByRole('button', { name: 'Note: more' }).click());
    const after = await marksMm(page);
    assert.ok(after[after.length - 1] < before[before.length - 1], 'a semitone up: foot nearer');
    await context.close();
  });

  it('move by half or all of the sound hole when the datum is another', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    const length = Number(await entry(page, 'Sound hole length').inputValue());
    assert.ok(length > 0);
    const datum = page.getByRole('combobox', { name: 'Measured from the sound hole’s' });
    await datum.selectOption('centre');
    const centre = await marksMm(page);
    for (const [name, shift] of [['upstream edge', length / 2], ['splitting edge', -length / 2]]) {
      await datum.selectOption(name);
      const marks = await marksMm(page);
      assert.equal(marks[0], 0);
      marks.slice(1).forEach((mark, i) => assert.ok(
        Math.abs(mark - (centre[i + 1] + shift)) <= ROUNDING_MM, `${name}: ${marks} / ${centre}`));
    }
    await context.close();
  });

  it('are the same lengths in inches, to the nearest mark of the rule', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    const millimetres = await marksMm(page);
    for (const fraction of [16, 32, 64]) {
      await page.getByRole('combobox', { name: 'Unit', exact: true })
        .selectOption(`inch/${fraction}`);
      const read = (await figures(page)).slice(1).map(inches);
      read.forEach((inch, i) => {
        // Half a mark of the rule, and what the millimetres were rounded by.
        const off = Math.abs(inch * 25.4 - millimetres[i + 1]);
        assert.ok(off <= 25.4 / fraction / 2 + 0.0501, `1/${fraction}: ${off} mm`);
        assert.ok(Number.isInteger(inch * fraction), `${inch} is a mark of a 1/${fraction} rule`);
      });
      const beside = await page.locator('.rows .row:not(.zero) .small:nth-of-type(4)')
        .allTextContents();
      assert.deepEqual(beside, millimetres.slice(1).map((mm) => `${mm.toFixed(1)} mm`));
    }
    await context.close();
  });

  it('say what can be cut off, and it is what lies beyond the foot', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    await page.getByRole('combobox', { name: 'Measured from the sound hole’s' })
      .selectOption('upstream edge');
    const marks = await marksMm(page);
    const end = Number(await entry(page, 'Below the line').inputValue());
    const said = await page.locator('.totals dd').first().textContent();
    assert.ok(Math.abs(Number(said.replace(' mm', '')) - (end - marks[marks.length - 1]))
      <= ROUNDING_MM, said);
    await context.close();
  });
});

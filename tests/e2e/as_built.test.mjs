// tests/e2e/as_built.test.mjs -- one belief, said once: what Marks and paper say of a flute under way is the
// Bench's; and a song that a tube cannot have gives no marks, but what would do.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after, before, describe, it } from 'node:test';
import { DESK, PHONE, entry, open, ready, settle, shot, site, station } from './page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

const data = (name) => JSON.parse(readFileSync(new URL(`../data/documents/${name}.json`, import.meta.url), 'utf8'));

/** The page with this document in hand. */
async function openWith(doc, options = { viewport: DESK }) {
  const opened = await open(where, options);
  const { page } = opened;
  // Once, as the page begins: what goes keeps what it had in hand.
  await page.addInitScript((kept) => {
    if (localStorage.getItem('given') !== null) return;
    localStorage.clear();
    sessionStorage.clear();
    localStorage.setItem('given', '');
    localStorage.setItem('canewright/1', kept);
  }, JSON.stringify({ doc, good: doc, typed: {}, aside: {}, station: 'marks' }));
  await page.reload();
  await ready(page);
  return opened;
}
const built = (page) => page.waitForFunction(() => /Bench|Nothing is|Saw at/.test(document.querySelector('.next')
  .textContent) && !/says how long/.test(document.querySelector('.next').textContent));

/** "1 sharp" by note, as Bench and Marks each show it. */
const onBench = (page) => page.locator('.belief tbody tr:has(th)').evaluateAll((rows) => Object.fromEntries(
  rows.map((row) => [row.querySelector('th').textContent, row.querySelectorAll('td')[2].textContent])));
const onMarks = (page) => page.locator('#station-marks table.notes tbody tr').evaluateAll((rows) => Object.fromEntries(
  rows.map((row) => [row.querySelector('th').textContent, row.querySelectorAll('td')[2].firstChild.textContent])));

describe('a flute under way', () => {
  it('that is finished is shown as it stands: nothing to saw or drill, and the Bench’s cents', async () => {
    const { page, context, faults } = await openWith(data('full_log'));
    await built(page);
    const marks = page.locator('#station-marks');
    assert.match(await page.locator('.next').innerText(), /Nothing is left to cut/);
    assert.doesNotMatch(await marks.innerText(), /saw here|sand to here|drill only|\d mm off\b/i);
    assert.equal(await page.locator('.row.saw').count(), 0);
    assert.equal(await page.locator('.rows').getByText(/hole \d, cut/).count(), 6);
    const mine = await onMarks(page);
    await station(page, 'bench');
    await page.locator('.belief tbody tr').first().waitFor();
    const theirs = await onBench(page);
    assert.ok(Object.keys(mine).length >= 6);
    assert.deepEqual(mine, theirs);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('that is finished offers itself as the pattern of the next tube, which begins empty', async () => {
    const { page, context, faults } = await openWith(data('full_log'), { viewport: PHONE });
    await station(page, 'bench');
    await page.getByRole('button', { name: 'Begin the next tube' }).and(page.locator(':enabled')).click();
    await page.locator('#tab-cane[aria-selected=true]').waitFor();
    assert.equal(await entry(page, 'Bore').inputValue(), '', 'nothing of the old tube');
    await page.locator('#tab-shelf').click();
    await page.locator('.shelf .title').filter({ hasText: data('full_log').name }).waitFor();
    await page.waitForFunction(() => Object.values(localStorage).some((text) => /"pattern":/.test(text)));
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('with parts beyond what was checked names them on Marks', async () => {
    // 26 mm: wider than the tubes of 6 to 25 mm that the core was compared with (core/verbs/outside.hpp).
    const { page, context } = await openWith({ ...data('build'), log: undefined, tube: { bore: [{ at_mm: 0, diameter_mm: 26 }],
      wall_mm: 3, end_mm: 560, above_mm: 200 }, song: { lowest: 'free', scale: 'minor pentatonic', holes: 5 } });
    const part = page.locator('section').filter({ has: page.getByRole('heading', { name: 'Beyond what was checked' }) }).last();
    assert.match(await part.innerText(), /Bore: 26\.0 mm; checked up to 25\.0 mm\./);
    await context.close();
  });

  it('half built says what is left, and with what the Bench goes on', async () => {
    const { page, context } = await openWith(data('build'), { viewport: PHONE });
    await built(page);
    await shot(page, 'marks-half-built');
    const words = await page.locator('.next').innerText();
    assert.match(words, /Left to do: holes 5, 4, 3, 2 and 1 to drill\. Next, on the Bench: drill hole 5\./);
    assert.doesNotMatch(await page.locator('#station-marks').innerText(), /saw here/);
    await context.close();
  });

  it('before any reading has one first cut: the Bench’s, on Marks and on paper', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    await entry(page, 'Name').fill('My own');
    await built(page);
    const [, at] = /Saw at ([\d.]+ mm) first/.exec(await page.locator('.next').innerText()) ?? [];
    assert.ok(at, await page.locator('.next').innerText());
    assert.match(await page.locator('.row.foot').innerText(), new RegExp(`saw long[^]*first at ${at.replace(' mm', '')}`));
    await page.getByRole('button', { name: 'Print', exact: true }).click();
    await page.waitForFunction(() => [...document.querySelectorAll('.previews text')]
      .some((e) => /SAW HERE FIRST/.test(e.textContent)));
    await page.getByRole('button', { name: 'Marks list', exact: true }).click();
    assert.ok((await page.locator('.previews text').allTextContents()).includes(at), `${at} on the list`);
    await page.keyboard.press('Escape');
    await station(page, 'bench');
    await page.locator('.card').getByText(at).first().waitFor();
    await context.close();
  });
});

describe('in inches', () => {
  it('a hole’s row says what a sixteenth does, and its width as a fraction only where it is that', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    const mm = await page.locator('.row:not(.zero) .last').first().innerText();
    await page.getByRole('combobox', { name: 'Unit' }).selectOption('inch/32');
    await page.getByText('1/16″ up').first().waitFor();
    const inch = await page.locator('.row:not(.zero) .last').first().innerText();
    const [a, b] = [/1 mm up: \+([\d.]+)/.exec(mm), /1\/16″ up: \+([\d.]+)/.exec(inch)].map((m) => Number(m[1]));
    assert.ok(Math.abs(b - a * 25.4 / 16) < 0.2, `${a} a millimetre, ${b} a sixteenth`);
    assert.match(await page.locator('#station-marks table.notes').innerText(), /1\/64″ wider/);
    await context.close();
  });
});

describe('a wish that cannot be met', () => {
  it('is told on Song and Marks with what would do, and gives no marks', async () => {
    const { page, context, faults } = await open(where, { viewport: DESK });
    await entry(page, 'Note').fill('G3');
    for (const key of ['song', 'marks']) {
      await page.locator(`#station-${key} .cannot`).getByText('This tube is too short for G3').waitFor();
    }
    await shot(page, 'marks-cannot');
    assert.match(await page.locator('#station-marks .cannot').innerText(), /too short for G3\. No marks.*\s+.*no note below F♯4/);
    for (const gone of ['.rows .row', '.next', '.totals', '.notes']) {
      assert.equal(await page.locator(`#station-marks ${gone}`).first().isVisible(), false, gone);
    }
    assert.equal(await page.getByRole('button', { name: 'Print', exact: true }).isVisible(), false);
    // What is offered has been tried: each way once, and no note that would be as far off again.
    const ways = page.locator('#station-marks').getByRole('button', { name: /^Take [A-G]/ });
    await ways.first().waitFor();
    const names = await ways.allTextContents();
    assert.equal(new Set(names.map((name) => name.split(' ')[1])).size, names.length, names.join());
    const [, lowest] = names[0].split(' ');
    await ways.first().click();
    await page.waitForSelector('html:not(.unmet)');
    assert.equal(await entry(page, 'Note').inputValue(), lowest);
    await page.locator('.rows .row').first().waitFor();
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('that is too high, or spans too much, names the limits that cost most', async () => {
    const { page, context } = await open(where, { viewport: PHONE });
    await station(page, 'song');
    await entry(page, 'Note').fill('G6');
    const cannot = page.locator('#station-song .cannot');
    await cannot.getByText('These notes cannot be had of this tube.').waitFor();
    await cannot.getByText('costs').waitFor();  // reasons come when the fingers rest
    assert.match(await cannot.innerText(), /nearer to another\. No marks[^]*no nearer to its neighbour than 20\.0 mm: costs[^]*a lower lowest note, fewer holes/);
    await shot(page, 'song-cannot');
    await entry(page, 'Note').fill('G4');
    await page.waitForSelector('html:not(.unmet)');
    assert.equal(await cannot.isVisible(), false);
    await settle(page);
    await context.close();
  });
});

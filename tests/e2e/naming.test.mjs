// tests/e2e/naming.test.mjs -- notes in the maker's own names: read and shown, asked once where one can mean two,
// on every station, over a reload and on the next flute.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESK, PHONE, entry, open, shot, site, station } from './page.mjs';
import { again, bringAll, deed, passOn, toShelf } from './shelf_page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

/** B flat is the lowest note, so that both of what a B can mean are in the scale. */
const DOC = { format: 'canewright/1', name: 'Reed by the weir', show: { unit: 'mm' },
  tube: { bore: [{ at_mm: 0, diameter_mm: 17 }], wall_mm: 2.5, end_mm: 560, above_mm: 150 },
  sound_hole: { length_mm: 5, width_mm: 9 }, shop: { diameter_mm: { min: 4, max: 10 } },
  song: { lowest: 'Bb4', scale: 'major pentatonic', holes: 5 } };

/** Sawn, and heard once: the Bench has notes to speak of. */
const BEGUN = { ...DOC, log: [{ foot: { at_mm: 360 } }, { read: { open: [], hz: 430, sigma_cents: 4 } }] };

/** Until the foot's mark carries this name. */
const lowest = (page, name) => page.waitForFunction((wanted) =>
  document.querySelector('.row.foot .note-name')?.textContent === wanted, name);
const names = (page) => page.getByLabel('Note names');
const field = (page) => entry(page, 'Note');
const asks = (page) => page.locator('#station-song .asks');

/** What the page says with a note's name in letters, where it should say none: B♭4, F♯5, C5. */
const inLetters = (page, selector) => page.locator(selector).evaluateAll((all) => all.flatMap((one) => {
  const said = [];
  const walk = document.createTreeWalker(one, NodeFilter.SHOW_ELEMENT | NodeFilter.SHOW_TEXT);
  for (let node = walk.nextNode(); node !== null; node = walk.nextNode()) {
    if (node.nodeType === Node.TEXT_NODE) said.push(node.data);
    else said.push(node.getAttribute('aria-label') ?? '', node.getAttribute('placeholder') ?? '', node.getAttribute('title') ?? '');
  }
  return said.filter((text) => /(^|[^\p{L}\p{N}])[A-H][♯♭♮]?\d(?![\p{L}\p{N}])/u.test(text));
}));

async function begin(options, doc = DOC) {
  const all = await open(where, options);
  await bringAll(all.page, doc);
  await deed(all.page, DOC.name, 'Take in hand');
  await all.page.locator('.shelf .held').filter({ hasText: DOC.name }).waitFor();
  await station(all.page, 'song');
  await names(all.page).waitFor();
  return all;
}

describe('note names', () => {
  it('are said in the maker’s way on every station and on paper, at once and the next time', async () => {
    const { page, context, faults } = await begin({ viewport: PHONE }, BEGUN);
    await lowest(page, 'B♭4');
    for (const key of ['voice', 'bench', 'shelf', 'marks', 'cane']) {  // what is there already says it anew
      await page.locator(`#tab-${key}`).click();
      await page.locator(`#station-${key} button:visible`).first().waitFor();
    }
    await page.locator('#tab-voice').click();
    await page.getByRole('group', { name: 'Notes' }).getByRole('button', { name: 'B♭4', exact: true }).waitFor();
    await page.locator('#tab-song').click();
    await names(page).selectOption('la4');
    await lowest(page, 'Si♭4');
    assert.equal(await field(page).inputValue(), 'Si♭4');
    await page.locator('.chart th', { hasText: 'Si♭4' }).waitFor();
    await shot(page, 'naming-song');
    const everywhere = async () => {
      for (const key of ['cane', 'song', 'marks', 'voice', 'bench', 'shelf']) {
        await page.locator(`#tab-${key}`).click();
        if (key === 'voice') await page.getByRole('button', { name: 'Si♭4', exact: true }).waitFor();
        if (key === 'bench') await page.locator('#station-bench').getByText('Si♭4').first().waitFor();
        if (key === 'shelf') await page.locator('.shelf .held').getByText('Si♭4').first().waitFor();
        assert.deepEqual(await inLetters(page, `#station-${key}`), [], key);
      }
    };
    await everywhere();
    await again(page);
    await lowest(page, 'Si♭4');
    await everywhere();
    await page.locator('#tab-marks').click();
    await page.getByRole('button', { name: 'Print', exact: true }).click();
    for (const [kind, name] of [['Marking strip', 'Si♭4'], ['Marks list', 'Si♭4'], ['Owner’s card', 'Si♭4'], ['Bench log', 'Heard']]) {
      await page.getByRole('button', { name: kind, exact: true }).click();
      await page.locator('.previews text').filter({ hasText: name }).first().waitFor({ state: 'attached' });
      assert.deepEqual(await inLetters(page, '.previews'), [], kind);
    }
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('are read in words, signs and other languages; the document keeps the core’s', async () => {
    const { page, context, faults } = await begin({ viewport: PHONE });
    for (const [typed, name] of [['A flat 4', 'A♭4'], ['As4', 'A♭4'], ['fis4', 'F♯4'], ['A-flat 4', 'A♭4'], ['g4', 'G4'],
      ['H4', 'B♮4'], ['Hes4', 'B♭4']]) {
      await field(page).fill(typed);
      await lowest(page, name);
      assert.equal(await asks(page).textContent(), '', typed);
    }
    await field(page).fill('H flat sharp 4');
    await page.locator('.wrong', { hasText: 'is not a note’s name' }).waitFor();
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('a B is a B where nobody ever says H; after an H it is asked once', async () => {
    const { page, context, faults } = await begin({ viewport: PHONE });
    await field(page).fill('B4');
    await lowest(page, 'B4');
    await field(page).fill('H4');
    await lowest(page, 'B♮4');  // in no doubt meanwhile
    await field(page).fill('B4');
    await asks(page).getByText('Which note is your B?').waitFor();
    await shot(page, 'naming-asks');
    assert.equal(await field(page).getAttribute('aria-invalid'), 'true');
    await asks(page).getByRole('button', { name: /B flat/ }).click();
    await lowest(page, 'B4');
    assert.equal(await field(page).inputValue(), 'B4');
    assert.equal(await field(page).getAttribute('aria-invalid'), 'false');
    assert.equal(await names(page).inputValue(), 'h');
    await field(page).fill('H4');
    await lowest(page, 'H4');
    await field(page).fill('B4');
    await lowest(page, 'B4');
    assert.equal(await asks(page).textContent(), '');
    await field(page).fill('H9');
    await page.locator('#station-song .wrong', { hasText: '“H9” is too large' }).waitFor();
    await field(page).fill('B4');
    await lowest(page, 'B4');
    // Another who opens the link has another way of saying it: a B flat is meant, and shown.
    const address = await passOn(page);
    const guest = await open({ ...where, address }, { viewport: DESK });
    await lowest(guest.page, 'B♭4');
    assert.deepEqual([...faults, ...guest.faults], []);
    await guest.context.close();
    await context.close();
  });

  it('where the browser’s language knows an H, a B is asked about before anything is shown of it', async () => {
    const { page, context, faults } = await begin({ viewport: PHONE, locale: 'de-DE' });
    assert.equal(await names(page).inputValue(), '');
    await field(page).fill('B4');
    await asks(page).getByRole('button', { name: /just below C/ }).click();
    await lowest(page, 'B4');
    assert.equal(await names(page).inputValue(), 'letters');
    await again(page);
    await field(page).fill('');
    await field(page).fill('b4');
    await lowest(page, 'B4');
    assert.equal(await asks(page).textContent(), '');
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('in a tune, on the sheet of a flute there is, and of an octave that can mean two', async () => {
    const { page, context, faults } = await begin({ viewport: PHONE });
    await page.locator('#tab-voice').click();
    await page.getByRole('group', { name: 'Notes' }).getByRole('button', { name: 'B♭4', exact: true }).waitFor();
    const tune = page.getByLabel('A tune');
    await tune.fill('si bemol ré5 sib');
    await tune.press('Enter');
    const question = page.locator('#station-voice .asks');
    await question.getByRole('button', { name: 'La4' }).click();
    await page.locator('.sounding-now').filter({ hasText: /Si♭4 at .* Hz/ }).waitFor();
    assert.equal(await page.locator('#station-voice .hear-it .wrong').textContent(), '');
    await tune.fill('sol7');
    await tune.press('Enter');
    await page.getByText('“Sol7” is not among this flute’s notes').waitFor();
    await toShelf(page);
    await page.getByText('A flute you have').click();
    const sounds = page.getByLabel('Hole 1: sounds');
    await sounds.fill('la bémol 4 −3');
    await page.locator('.told').getByText('Still needed:').waitFor();
    assert.notEqual(await sounds.getAttribute('aria-invalid'), 'true', 'a pitch like any other');
    await sounds.fill('la bémoll −3');
    await page.locator('.own .wrong').filter({ hasText: 'is no pitch' }).waitFor();
    assert.deepEqual(faults, []);
    await context.close();
  });
});

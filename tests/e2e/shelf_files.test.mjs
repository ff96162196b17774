// tests/e2e/shelf_files.test.mjs -- flutes as files, and hostile names in every output of the shelf.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { DESK, PHONE, entry, open, settle, site } from './page.mjs';
import { DOC, again, bringIn, deed, downloaded, names, openWith, outcome, passOn, toShelf, unfold }
  from './shelf_page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

const withFlutes = (options, ...docs) => openWith(where, options, ...docs);

describe('files', () => {
  it('carry the whole shelf to another browser, and add nothing twice', async () => {
    const { page, context } = await withFlutes({ viewport: DESK }, DOC, { ...DOC, name: 'With a log',
      log: [{ read: { open: [], hz: 385, sigma_cents: 3 }, note: 'warm' }] });
    await page.locator('#tab-marks').click();
    await entry(page, 'Name').fill('Unfinished');
    await entry(page, 'Above the line').fill('a hand');
    await entry(page, 'Below the line').fill('5');
    await settle(page);
    await toShelf(page);
    const { name, text } = await downloaded(page, () => page.getByText('Download the whole shelf').click());
    assert.match(name, /^canewright shelf \d{4}-\d\d-\d\d\.json$/);
    const flutes = JSON.parse(text).flutes.sort((a, b) => (a.doc.name < b.doc.name ? -1 : 1));
    await context.close();

    const other = await open(where, { viewport: DESK });
    await toShelf(other.page);
    await bringIn(other.page, text, 'shelf.json');
    await outcome(other.page, '3 flutes put on the shelf.');
    const back = await downloaded(other.page, () => other.page.getByText('Download the whole shelf').click());
    assert.deepEqual(JSON.parse(back.text).flutes.sort((a, b) => (a.doc.name < b.doc.name ? -1 : 1)), flutes);
    await bringIn(other.page, text, 'shelf.json');
    await outcome(other.page, '3 flutes of the file are on the shelf already.');
    assert.equal((await names(other.page)).length, 4, 'with the example in hand');
    await deed(other.page, 'Unfinished', 'Take in hand');
    await other.page.locator('.shelf .held').filter({ hasText: 'Unfinished' }).waitFor();
    await other.page.locator('#tab-marks').click();
    assert.equal(await entry(other.page, 'Above the line').inputValue(), 'a hand');
    assert.equal(await entry(other.page, 'Below the line').inputValue(), '5');
    assert.deepEqual(other.faults, []);
    await other.context.close();
  });

  it('that are none of ours are refused with a sentence, and nothing changes', async () => {
    const { page, context, faults } = await withFlutes({ viewport: DESK }, DOC);
    const before = await names(page);
    const own = JSON.stringify(DOC);
    for (const [text, words] of [
      ['', 'no file of this page'],
      ['not json', 'no file of this page'],
      ['[1,2]', 'no file of this page'],
      ['{"format":"something else"}', 'no flute of this page'],
      [own.replace('"wall_mm":3.1', '"wall_mm":"thick"'), 'wrong type'],
      [own.replace('"wall_mm"', '"wal_mm"'), 'unknown key'],
      [own.replace('canewright/1', 'canewright/9'), 'wrong format'],
      [`{"a":${'['.repeat(5000)}${']'.repeat(5000)}}`, 'no file of this page'],
      [`${own.slice(0, -1)},"x":"${'x'.repeat(262144)}"}`, 'too large'],
      [`{"format":"canewright-shelf/1","flutes":[{"doc":{}},"x",${own.replace('430', '"no"')}]}`,
        '3 flutes left out'],
      ['{"format":"canewright-shelf/1","flutes":[]}', 'no flute in this file'],
    ]) {
      await bringIn(page, text);
      await outcome(page, words);
      assert.deepEqual(await names(page), before, words);
    }
    await bringIn(page, `${own.slice(0, -1).replace(DOC.name, 'Polluted')},"__proto__":{"polluted":1},`
      + '"x":{"constructor":{"prototype":{"polluted":1}}}}');
    await outcome(page, 'put on the shelf');
    assert.equal(await page.evaluate(() => ({}).polluted), undefined);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('brought in lie open where the maker looks, whatever was searched for; what is refused is said there', async () => {
    const many = Array.from({ length: 6 }, (_, n) => ({ ...DOC, name: `Row ${n}`, tube: { ...DOC.tube, end_mm: 430 + n } }));
    const { page, context, faults } = await withFlutes({ viewport: PHONE }, ...many);
    const looks = (name) => page.waitForFunction((wanted) => {
      const summary = document.activeElement;
      const { top, bottom } = summary.getBoundingClientRect();
      return summary.matches('.shelf summary') && summary.querySelector('.title').textContent === wanted
        && summary.parentElement.open && top >= 0 && bottom <= document.getElementById('bar').getBoundingClientRect().top;
    }, name);
    await page.getByLabel('Search the shelf').fill('Row 3');
    await page.locator('.shelf li:visible').nth(1).waitFor({ state: 'hidden' });
    await bringIn(page, JSON.stringify({ ...DOC, name: 'The one brought in' }));
    await looks('The one brought in');
    await bringIn(page, JSON.stringify(many[0]));  // there already
    await looks('Row 0');
    await bringIn(page, 'not json');
    await outcome(page, 'no file of this page');
    await page.waitForFunction(() => {
      const { top, bottom } = document.querySelector('#station-shelf .outcome').getBoundingClientRect();
      return top >= 0 && bottom <= innerHeight;
    });
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('larger than a shelf are not even read', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    await toShelf(page);
    await page.evaluate(() => { File.prototype.text = () => { throw new Error('read'); }; });
    await bringIn(page, ' '.repeat(4194305), 'large.json');
    await outcome(page, 'large.json is too large to be a shelf');
    await context.close();
  });
});

describe('hostile names', () => {
  const HOSTILE = ['<img src=x onerror=alert(1)>', '"><svg/onload=alert(1)>', '</title><script>alert(1)</script>',
    '\u202Egnp.exe', `zalgo ${'e\u0301\u0302\u0303'.repeat(6)}`, '../../etc/passwd', 'con', '{{7*7}}${7*7}',
    'a\u0000b\u0007c', '\u200b\u200d', 'lone \uD800 half'];

  it('come out as text everywhere', async () => {
    const { page, context, faults } = await open(where, { viewport: DESK });
    page.on('dialog', () => faults.push('a dialog'));
    for (const name of HOSTILE) {
      await page.locator('#tab-marks').click();
      await entry(page, 'Name').fill(name);
      await settle(page);
      await toShelf(page);
      const held = page.locator('.shelf .held');
      await unfold(held);
      const saved = await downloaded(page, () => held.getByRole('button', { name: 'Download file' }).click());
      assert.match(saved.name, /^[^\\/:*?"<>|\p{Cc}\p{Cf}\p{Cs}]+\.json$/u, saved.name);
      assert.doesNotMatch(saved.name, /^(con|\.)/);
      await held.getByRole('button', { name: 'Duplicate' }).click();
      await outcome(page, 'is on the shelf');
    }
    const planted = await page.evaluate(() => document.querySelectorAll(
      '#station-shelf img, #station-shelf script, #station-shelf svg[onload], .notice img, iframe').length);
    assert.equal(planted, 0);
    assert.equal(await page.title(), 'Canewright');
    assert.ok((await names(page)).some((n) => n.startsWith('<img src=x onerror=alert(1)>')));
    // A mark that turns the writing round ends where its name ends.
    assert.ok(await page.locator('.shelf .title bdi').count() >= HOSTILE.length);
    await again(page);
    await settle(page);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('go through a link as text', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    await entry(page, 'Name').fill(HOSTILE[0]);
    await settle(page);
    const address = await passOn(page);
    const guest = await open({ ...where, address }, { viewport: DESK });
    await guest.page.locator('.notice bdi').waitFor();
    assert.equal(await guest.page.locator('.notice bdi').textContent(), HOSTILE[0]);
    assert.equal(await guest.page.locator('.notice img').count(), 0);
    assert.deepEqual(guest.faults, []);
    await guest.context.close();
    await context.close();
  });
});


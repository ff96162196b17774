// tests/e2e/shelf_page.mjs -- what the tests of the shelf, of links and of keeping do again and again.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import jsQR from 'jsqr';
import { entry, open, ready, station } from './page.mjs';

export const DOC = { format: 'canewright/1', name: 'Heron reach, fourth cane',
  tube: { material: 'bamboo', bore: [{ at_mm: 0, diameter_mm: 18.4 }, { at_mm: 410, diameter_mm: 17.9 }],
    wall_mm: 3.1, end_mm: 430, above_mm: 160 },
  sound_hole: { length_mm: 5, width_mm: 9.5 }, song: { lowest: 'G4', scale: 'minor pentatonic', holes: 5 } };

export async function toShelf(page) {
  await page.locator('#tab-shelf').click();
  await page.locator('.shelf li').first().waitFor();
}

export async function again(page) {
  await page.reload();
  await ready(page);
}

export const names = (page) => page.locator('.shelf .title').allTextContents();

/** The labels with this name. */
export const label = (page, name) => page.locator('.shelf li').filter({ has: page.locator('bdi',
  { hasText: new RegExp(`^${name.replace(/[()]/g, '\\$&')}$`) }) });

/** Opens a label, unless it is. */
export async function unfold(found) {
  if (await found.locator('details').getAttribute('open') === null) await found.locator('summary').click();
  return found;
}

/** Does something with the flute of this name. */
export const deed = async (page, name, words) => (await unfold(label(page, name).first()))
  .getByRole('button', { name: words }).first().click();

export const outcome = (page, words) => page.locator('.outcome').filter({ hasText: words }).waitFor();

export const bringIn = (page, text, name = 'flute.json') => page.getByLabel('Bring in a file')
  .setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });

export async function downloaded(page, act) {
  const [saved] = await Promise.all([page.waitForEvent('download'), act()]);
  return { name: saved.suggestedFilename(), text: readFileSync(await saved.path(), 'utf8') };
}

/** Puts flutes on the shelf, by file. */
export async function bringAll(page, ...docs) {
  await toShelf(page);
  for (const doc of docs) {
    await bringIn(page, JSON.stringify(doc));
    await outcome(page, 'put on the shelf');
    await label(page, doc.name).first().waitFor();
  }
}

/** Until a flute of this name is in the storage. */
export const kept = (page, name) => page.waitForFunction((wanted) => Object.entries(localStorage)
  .some(([key, text]) => key.startsWith('canewright/flute/')
    && JSON.parse(text.slice(text.indexOf('{'))).doc.name === wanted), name);

/** Until the document in hand, as it is kept, has all of these. */
export const held = (page, words) => page.waitForFunction((all) => {
  const id = sessionStorage.getItem('canewright/hand').split(' ')[0];
  const [newest] = [0, 1].map((slot) => localStorage.getItem(`canewright/flute/${id}/${slot}`) ?? '- 0')
    .sort((a, b) => Number(b.split(' ')[1]) - Number(a.split(' ')[1]));
  const text = newest.includes('{') ? JSON.stringify(JSON.parse(newest.slice(newest.indexOf('{'))).doc) : '';
  return all.every((each) => text.includes(each));
}, words);

/** Gives the flute in hand a name, and waits until it is kept. */
export async function type(page, name) {
  await station(page, 'cane');
  await entry(page, 'Name').fill(name);
  await kept(page, name);
}

/** The link of the first label that shows one. */
export async function linkIn(page) {
  await page.waitForFunction(() => /#1\./.test(document.querySelector('.link-box').value));
  return page.locator('.link-box').first().inputValue();
}

/** Opens the first label, that of the flute in hand, and its link. */
export async function passOn(page) {
  await toShelf(page);
  const held = page.locator('.shelf .held');
  await unfold(held);
  await held.getByRole('button', { name: 'Pass it on' }).click();
  return linkIn(page);
}

export const notice = (page, text) => page.locator('.notice').filter({ hasText: text });

/** What a QR reader sees of an element that is shown this wide. */
export async function scan(page, selector, width) {
  const element = page.locator(selector).first();
  await element.evaluate((svg, px) => {
    svg.style.width = `${px}px`;
    svg.scrollIntoView({ block: 'center' }); // clear of the bar
  }, width);
  assert.ok(Math.abs((await element.boundingBox()).width - width) < 0.5);
  const png = (await element.screenshot()).toString('base64');
  const { data, w, h } = await page.evaluate(async (text) => {
    const image = new Image();
    image.src = `data:image/png;base64,${text}`;
    await image.decode();
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [image.naturalWidth, image.naturalHeight];
    const to = canvas.getContext('2d');
    to.drawImage(image, 0, 0);
    return { data: [...to.getImageData(0, 0, canvas.width, canvas.height).data], w: canvas.width, h: canvas.height };
  }, png);
  return jsQR(Uint8ClampedArray.from(data), w, h)?.data;
}

/** A page with these flutes on its shelf. */
export async function openWith(where, options, ...docs) {
  const all = await open(where, options);
  await bringAll(all.page, ...docs);
  return all;
}

// tests/e2e/own_hand.test.mjs -- flutes that teach: which are ticked, what they say, that it is kept; and the habits that a
// flute of the sheet has and hands on.
import assert from 'node:assert/strict';
import { after, before, it } from 'node:test';
import { HOLES, entriesOf, line } from './own_flute.mjs';
import { PHONE, entry, open, shot, site } from './page.mjs';
import { DOC, bringAll, bringIn, deed, held, kept, outcome, toShelf } from './shelf_page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

const ENTRIES = entriesOf(HOLES);

it('ticked flutes teach the next, and it says so in words', async () => {
  const { page, context, faults } = await open(where, { viewport: PHONE });
  const cut = HOLES.map(([at, wide], n) => ({ hole: { number: n + 1, at_mm: Number(at), diameter_mm: Number(wide) } })).reverse();
  const read = (name, hz, day, holes = cut) => ({ ...DOC, name, log: [{ foot: { at_mm: 390 } }, ...holes,
    { read: { open: [], hz, sigma_cents: 2 }, at: Date.UTC(2026, 0, day) / 1000 }] });
  await bringAll(page, read('A friend’s', 384, 9));
  const shelf = [read('One', 383, 1), read('Three', 382, 7), read('Two', 384, 4), read('Half', 384, 8, cut.slice(0, 2))];
  await bringIn(page, JSON.stringify({ format: 'canewright-shelf/1', flutes: shelf.map((doc) => ({ doc, good: doc })) }));
  await outcome(page, '4 flutes put on the shelf');
  await page.getByText('What your flutes teach').click();
  await page.locator('.hand li').nth(4).waitFor();  // listed when it is open
  assert.deepEqual(await page.locator('.hand li').evaluateAll((all) => all.map((li) => [li.querySelector('label').textContent,
    li.querySelector('input').checked, li.querySelector('.note')?.textContent])), [
    ['A friend’s', false, 'came by a file: tick it if you made it'], ['Half', false, 'half made'], ['Three', true, undefined],
    ['Two', true, undefined], ['One', true, undefined]]);
  await page.locator('.hand').getByLabel('Two').uncheck();
  await page.getByRole('button', { name: 'Start from these' }).click();
  await page.locator('.hand .told').filter({ hasText: '2 flutes teach the tube in hand now' }).waitFor();
  assert.match(await page.locator('.hand .told').textContent(), /Your voices sound [\d.]+ % longer than measured, give or take/);
  await shot(page, 'hand_phone');
  // one flute's pattern takes its place for this tube, says so, and can be undone
  await held(page, ['"between"']);
  await deed(page, 'Two', 'Use as pattern for the tube in hand');
  await outcome(page, 'What your flutes taught waits for the next tube.');
  await held(page, ['"of":"Two"']);
  await page.locator('.outcome').getByRole('button', { name: 'Undo' }).click();
  await outcome(page, 'It is back.');
  await deed(page, 'Three', 'Use as pattern for the tube in hand');
  await page.getByRole('button', { name: 'Back to what your flutes taught' }).click();
  await held(page, ['"of":["One","Three"]']);
  // a flute of the sheet is laid out with what they taught, or by itself
  await page.getByText('A flute you have').click();
  for (const [name, text] of ENTRIES) await line(page, name).fill(text);
  await page.getByRole('button', { name: 'Lay it out for the tube in hand' }).click();
  const said = page.locator('.own .outcome');
  await said.filter({ hasText: 'with what your flutes taught' }).waitFor();
  await held(page, ['"of":["One","Three"]', '"scale":{"cents"']);
  await said.getByRole('button', { name: 'With what this flute alone taught instead' }).click();
  await held(page, ['"of":"Old heron"', '"scale":{"cents"']);
  await said.getByRole('button', { name: 'Back to what your flutes taught' }).click();
  await held(page, ['"of":["One","Three"]', '"scale":{"cents"']);
  // and the next tube starts from it
  await page.getByRole('button', { name: 'Start another flute' }).click();
  await page.waitForSelector('html.blank');
  await entry(page, 'Name').fill('The next one');
  await held(page, ['The next one', '"of":["One","Three"]']);
  assert.deepEqual(faults, []);
  await context.close();
});

it('what teaches is said after a visit too, and can be left for this tube', async () => {
  const { page, context, faults } = await open(where, { viewport: PHONE });
  const cut = HOLES.map(([at, wide], n) => ({ hole: { number: n + 1, at_mm: Number(at), diameter_mm: Number(wide) } })).reverse();
  const flutes = [['One', 383], ['Two', 384]].map(([name, hz]) => ({ ...DOC, name, log: [{ foot: { at_mm: 390 } }, ...cut,
    { read: { open: [], hz, sigma_cents: 2 } }] }));
  await toShelf(page);
  await bringIn(page, JSON.stringify({ format: 'canewright-shelf/1', flutes: flutes.map((doc) => ({ doc, good: doc })) }));
  await outcome(page, '2 flutes put on the shelf');
  await page.getByText('What your flutes teach').click();
  await page.getByRole('button', { name: 'Start from these' }).click();
  await held(page, ['"between"']);
  await page.reload();
  await toShelf(page);
  await page.getByText('What your flutes teach').click();
  const force = page.locator('.hand .in-force');
  await force.getByText('2 flutes teach the tube in hand now.').waitFor();
  await force.getByText(/Your voices sound/).waitFor();
  await force.getByRole('button', { name: 'Start this tube without them' }).click();
  await page.waitForFunction(() => document.querySelector('.hand .in-force').childElementCount === 0);
  assert.deepEqual(faults, []);
  await context.close();
});

it('a flute in hand is not taught by itself, and the example by none', async () => {
  const { page, context, faults } = await open(where, { viewport: PHONE });
  const cut = HOLES.map(([at, wide], n) => ({ hole: { number: n + 1, at_mm: Number(at), diameter_mm: Number(wide) } })).reverse();
  const docs = ['One', 'Two'].map((name, n) => ({ ...DOC, name, log: [{ foot: { at_mm: 390 } }, ...cut,
    { read: { open: [], hz: 383 + n, sigma_cents: 2 }, at: n + 1 }] }));
  await toShelf(page);
  await bringIn(page, JSON.stringify({ format: 'canewright-shelf/1', flutes: docs.map((doc) => ({ doc, good: doc })) }));
  await outcome(page, '2 flutes put on the shelf');
  const one = () => page.evaluate(() => Object.entries(localStorage).filter(([key]) => key.startsWith('canewright/flute/'))
    .map(([, text]) => JSON.parse(text.slice(text.indexOf('{'))).doc).filter((doc) => doc.name === 'One')
    .some((doc) => doc.pattern !== undefined));
  // the example in hand: an empty tube takes the pattern
  await deed(page, 'One', 'Use as pattern for the tube in hand');
  await outcome(page, 'the tube in hand is still to be measured');
  await page.waitForSelector('html.blank');
  assert.equal(await page.locator('.beside-table').isVisible(), false, 'the example’s marks are not this tube’s');
  await held(page, ['"of":"One"', '"tube":{"bore":[{"at_mm":0}]}']);
  await deed(page, 'One', 'Take in hand');
  await outcome(page, 'is in hand');
  await page.getByText('What your flutes teach').click();
  await page.getByRole('button', { name: 'Start from these' }).click();
  await page.locator('.hand .told').filter({ hasText: '2 flutes teach the tube in hand now. It is a new one' }).waitFor();
  await held(page, ['"of":["One","Two"]', '"tube":{"bore":[{"at_mm":0}]}']);
  assert.equal(await one(), false, 'it stays as it was');
  assert.deepEqual(faults, []);
  await context.close();
});

it('of more flutes than can teach those finished last do, and it says so', async () => {
  const { page, context } = await open(where, { viewport: PHONE });
  const holes = HOLES.map(([at, wide], n) => ({ hole: { number: n + 1, at_mm: Number(at), diameter_mm: Number(wide) } })).reverse();
  const flutes = Array.from({ length: 34 }, (_, n) => ({ ...DOC, name: `Number ${n + 1}`, log: [{ foot: { at_mm: 390 } }, ...holes,
    { read: { open: [], hz: 383 + (n % 3), sigma_cents: 2 }, at: Date.UTC(2026, 0, n + 1) / 1000 }] }));
  await toShelf(page);
  await bringIn(page, JSON.stringify({ format: 'canewright-shelf/1', flutes: flutes.reverse().map((doc) => ({ doc, good: doc })) }));
  await outcome(page, '34 flutes put on the shelf');
  await page.getByText('What your flutes teach').click();
  await page.getByRole('button', { name: 'Start from these' }).click();
  await page.locator('.hand .told').filter({ hasText: '32 flutes teach the tube in hand now. Of the 34 that are ticked it is '
    + 'those finished last.' }).waitFor();
  await held(page, ['"of":["Number 3","Number 4"']);
  await context.close();
});

it('a flute of the sheet has my bits, hands and rooms, inches and line; the flute after it too', async () => {
  const { page, context } = await open(where);
  const shop = { bits: [{ mm: 6 }, { mm: 7.5 }], hands: [2, 3], ruler_mm: 0.3, spacing_mm: { min: 20, max: 38 } };  // some as the example
  const show = { unit: 'inch', fraction: 64, datum: 'splitting edge' };
  const mine = { ...DOC, name: 'Mine', shop, show, air: { room_c: 17 }, song: { ...DOC.song, a4_hz: 442 } };
  await toShelf(page);
  await bringIn(page, JSON.stringify({ format: 'canewright-shelf/1', flutes: [{ doc: mine, good: mine, aside: { begun: 'empty' } }] }));
  await outcome(page, 'One flute put on the shelf');
  await deed(page, 'Mine', 'Take in hand');
  await outcome(page, 'is in hand');
  await page.getByText('A flute you have').click();
  await page.locator('.own .own-rows').filter({ hasText: 'Places from the splitting edge (inch)' }).waitFor();
  const inches = { 'Bore': '23/32', 'Wall': '1/8', 'Sound hole, along': '0.2', 'Sound hole, across': '3/8', 'Hole 1: place': '6',
    'Hole 1: width': '9/32', 'Hole 1: sounds': '784', 'Hole 2: place': '9', 'Hole 2: sounds': '589', 'Foot: place': '15', 'Foot: sounds': '392', 'Name': 'In inches' };
  await page.locator('.own').getByLabel('Finger holes').selectOption('2');
  for (const [name, text] of Object.entries(inches)) await line(page, name).fill(text);
  await page.getByRole('button', { name: 'Put it on the shelf' }).click();
  await kept(page, 'In inches');
  const doc = await page.evaluate(() => JSON.parse(Object.values(localStorage).find((text) => text.includes('In inches'))
    .replace(/^[^{]*/, '')).doc);
  // an inch is 25.4 mm; the splitting edge lies the sound hole's length below its upstream edge, from which a document measures
  const upstream = (inch) => (inch + 0.2) * 25.4;
  const near = (a, b) => assert.ok(Math.abs(a - b) < 1e-6, `${a} is not ${b}`);
  near(doc.tube.bore[0].diameter_mm, 23 / 32 * 25.4);
  near(doc.log[0].foot.at_mm, upstream(15));
  near(doc.log[1].hole.at_mm, upstream(9));
  near(doc.log[2].hole.at_mm, upstream(6));
  near(doc.log[2].hole.diameter_mm, 9 / 32 * 25.4);
  assert.deepEqual([doc.shop, doc.show, doc.air, doc.song.a4_hz], [{ ...shop, hands: [1, 1] }, show, { room_c: 17 }, 442]);
  await deed(page, 'In inches', 'Take in hand');
  await outcome(page, 'is in hand');
  await page.getByRole('button', { name: 'Start another flute' }).click();
  await page.waitForSelector('html.blank');
  await entry(page, 'Name').fill('After it');
  await held(page, ['After it', '"bits":[{"mm":6},{"mm":7.5}]', '"hands":[1,1]', '"unit":"inch"', '"datum":"splitting edge"',
    '"room_c":17', '"a4_hz":442', '"min":20']);
  await context.close();
});

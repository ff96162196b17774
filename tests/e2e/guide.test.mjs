// tests/e2e/guide.test.mjs -- a tube measured one thing at a time: entries and touches counted from nothing to
// marks, in mm and in inches; by keyboard; over a reload; wrong entries; looked over by axe-core.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { after, before, describe, it } from 'node:test';
import { DESK, LOOKS, PHONE, entry, figures, open, ready, settle, shot, site, station } from './page.mjs';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

// What the page promises.
const MOST_ENTRIES = 8;
const MOST_TOUCHES = 60;

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

const begin = async (page) => {
  await page.getByRole('button', { name: 'Measure your tube' }).click();
  await page.waitForSelector('dialog.guide[open]');
};
const title = (page) => page.locator('#guide-title').textContent();
const input = (page) => page.locator('dialog.guide input[type=text]');
const next = (page) => page.getByRole('button', { name: /^(Next|Show marks)$/ });
/** Until another screen is there, or none. */
const onward = async (page, act) => {
  const before = await title(page);
  await act();
  await page.waitForFunction((old) => (document.querySelector('#guide-title')?.textContent ?? '') !== old, before);
};

/** A straight tube; its own sizes in mm by exact arithmetic: an inch is 25.4 mm (the international yard, 1959). */
const MM = { unit: 'Millimetres', locale: 'de-DE', sizes: { Bore: ['17.1'], Wall: ['2.6'], 'Length to the end': ['431'],
  'Sound hole, length': ['5.2'], 'Sound hole, width': ['8.4'], 'The plug’s face': ['1'] },
cane: { Bore: '17.1', Wall: '2.6', 'Below the line': '431', 'Sound hole length': '5.2', 'Sound hole width': '8.4', 'Plug’s face': '1' },
mm: [17.1, 2.6, 431, 5.2, 8.4, 1] };
const INCH = { unit: 'Inches, to 1/64', locale: 'en-US', sizes: { Bore: ['21', 'over 32'], Wall: ['7', 'over 64'],
  'Length to the end': ['16', 'space', '15', 'over 16'], 'Sound hole, length': ['13', 'over 64'],
  'Sound hole, width': ['21', 'over 64'], 'The plug’s face': ['1', 'over 32'] },
cane: { Bore: '21/32', Wall: '7/64', 'Below the line': '16 15/16', 'Sound hole length': '13/64', 'Sound hole width': '21/64',
  'Plug’s face': '1/32' },
mm: [21 / 32, 7 / 64, 16 + 15 / 16, 13 / 64, 21 / 64, 1 / 32].map((inches) => inches * 25.4) };

/** The document that is kept. */
const kept = async (page) => page.evaluate(() => {
  const texts = Object.entries(localStorage).filter(([key]) => key.includes('flute')).map(([, text]) => text);
  const at = (text) => Number(text.split(' ')[2]);  // of two copies the later one: web/state/keeper.js
  const newest = texts.sort((a, b) => at(a) - at(b)).at(-1);
  return JSON.parse(newest.slice(newest.indexOf('{'))).doc;
});

describe('a tube measured one thing at a time', () => {
  for (const [name, tube] of Object.entries({ mm: MM, inches: INCH })) {
    it(`takes eight entries and sixty touches at most, in ${name}`, async () => {
      const { page, context, faults } = await open(where, { viewport: PHONE, hasTouch: true, locale: tube.locale });
      // A touch of the page, or of a key of the phone's pad: counted where they arrive.
      await page.evaluate(() => {
        window.touches = 0;
        for (const kind of ['pointerdown', 'keydown']) addEventListener(kind, () => { window.touches += 1; }, true);
      });
      await page.getByRole('button', { name: 'Measure your tube' }).tap();
      await page.waitForSelector('dialog.guide[open]');
      const asked = [];
      while (await page.locator('dialog.guide').count() > 0) {
        const now = await title(page);
        assert.ok(!asked.includes(now), `${now} once only`);
        asked.push(now);
        if (now === 'Your ruler') await page.getByRole('radio', { name: tube.unit }).tap();
        if (now === 'Lowest note') await page.getByRole('radio', { name: 'As the tube has it' }).tap();
        for (const key of tube.sizes[now] ?? []) {
          if (/^(space|over)/.test(key)) await page.getByRole('button', { name: key, exact: true }).tap();
          else await page.keyboard.type(key);
        }
        assert.match(await page.locator('.guide-count').textContent(), new RegExp(`^${asked.length} of \\d$`));
        await onward(page, () => next(page).tap());
      }
      await page.waitForSelector('html:not(.blank)');
      assert.equal(await page.locator('#tab-marks').getAttribute('aria-selected'), 'true');
      await page.locator('.rows .row').first().waitFor();
      assert.ok((await figures(page)).length >= 7, 'sound hole, five finger holes, foot');
      const touches = await page.evaluate(() => window.touches);
      assert.ok(asked.length <= MOST_ENTRIES, `${asked.length} entries`);
      assert.ok(touches > asked.length && touches <= MOST_TOUCHES, `${touches} touches`);
      // And it is that tube: on the whole form as typed, in the document exactly.
      await station(page, 'cane');
      for (const [label, text] of Object.entries(tube.cane)) assert.equal(await entry(page, label).inputValue(), text, label);
      await page.waitForTimeout(1500);
      const doc = await kept(page);
      const sizes = [doc.tube.bore[0].diameter_mm, doc.tube.wall_mm, doc.tube.end_mm, doc.sound_hole.length_mm,
        doc.sound_hole.width_mm, doc.plug.offset_mm];
      sizes.forEach((mm, i) => assert.ok(Math.abs(mm - tube.mm[i]) < 1e-9, `${mm} for ${tube.mm[i]}`));
      assert.deepEqual(faults, []);
      await context.close();
    });
  }

  it('can be worked by keyboard alone, back and forth', async () => {
    const { page, context, faults } = await open(where, { viewport: DESK, locale: 'en-GB' });
    await page.getByRole('button', { name: 'Measure your tube' }).focus();
    await page.keyboard.press('Enter');
    await page.waitForSelector('dialog.guide[open]');
    const focused = () => page.evaluate(() => document.activeElement.type ?? document.activeElement.id);
    assert.equal(await focused(), 'radio');
    await page.keyboard.press('ArrowDown');  // inches, to 1/16
    assert.equal(await page.getByRole('radio', { name: 'Inches, to 1/16' }).isChecked(), true);
    await onward(page, () => page.keyboard.press('Enter'));
    assert.equal(await title(page), 'Bore');
    assert.equal(await focused(), 'text', 'the focus is in the entry');
    await page.keyboard.type('5/8');
    await onward(page, () => page.keyboard.press('Enter'));
    await page.keyboard.press('Tab');  // the fraction keys are no way stations: a keyboard has / and space
    await page.keyboard.press('Tab');
    assert.equal(await page.evaluate(() => document.activeElement.textContent), 'Next');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    await onward(page, () => page.keyboard.press('Enter'));  // Back
    assert.equal(await title(page), 'Bore');
    assert.equal(await input(page).inputValue(), '5/8');
    assert.equal(await input(page).evaluate((e) => e.selectionEnd - e.selectionStart), 3, 'to be typed over');
    await page.keyboard.press('Escape');
    await page.waitForFunction(() => document.querySelector('dialog.guide') === null);
    // The whole form has it, and the focus where one was.
    assert.equal(await page.evaluate(() => document.activeElement.labels?.[0]?.textContent), 'Bore');
    assert.equal(await page.evaluate(() => document.activeElement.value), '5/8');
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('is gone on with after a reload: nothing typed is lost, sense or nonsense', async () => {
    const { page, context, faults } = await open(where, { locale: 'en-GB' });
    await begin(page);
    await onward(page, () => next(page).click());
    await page.keyboard.type('16,4');
    await onward(page, () => page.keyboard.press('Enter'));
    await page.keyboard.type('a thumb');
    await settle(page);
    await page.reload();
    await ready(page);
    await page.waitForSelector('html.blank');
    await begin(page);
    assert.equal(await title(page), 'Wall', 'where one was');
    assert.equal(await input(page).inputValue(), 'a thumb');
    assert.match(await page.locator('dialog.guide .line .wrong').textContent(), /“a thumb”/);
    await onward(page, () => page.getByRole('button', { name: 'Back', exact: true }).click());
    assert.equal(await input(page).inputValue(), '16,4');
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('says what is wrong beside the entry and stays; what was skipped is asked for before there are marks', async () => {
    const { page, context, faults } = await open(where, { locale: 'en-GB' });
    await begin(page);
    await onward(page, () => next(page).click());
    await next(page).click();
    await page.getByText('A figure is needed here for the marks.').waitFor();
    await page.keyboard.type('900');  // what the core refuses: a bore is 60 mm at most
    await next(page).click();
    await settle(page);
    assert.equal(await title(page), 'Bore');
    assert.match(await page.locator('dialog.guide .line .wrong').textContent(), /too large; it takes at most 60/);
    assert.equal(await page.getByText('A figure is needed').isVisible(), false, 'an old complaint goes');
    await input(page).fill('17.1');
    assert.equal(await page.locator('dialog.guide .wrong:not(:empty)').count(), 0);
    await onward(page, () => next(page).click());
    const skip = () => page.getByRole('button', { name: 'Skip' }).click();
    await onward(page, skip);
    for (const figure of ['431', '5.2', '8.4', '']) {
      await page.keyboard.type(figure);
      await onward(page, () => (figure === '' ? skip() : next(page).click()));
    }
    assert.equal(await title(page), 'Lowest note');
    await onward(page, skip);
    assert.equal(await title(page), 'Wall');
    await page.getByText('This is still needed for the marks.').waitFor();
    await page.getByRole('button', { name: 'I have the outside diameter' }).click();
    await page.keyboard.type('22.3');
    for (let i = 0; i < 6; i += 1) await onward(page, () => next(page).click());
    await page.waitForSelector('html:not(.blank)');
    assert.equal(await page.locator('dialog.guide').count(), 0);
    await station(page, 'cane');
    assert.equal(await entry(page, 'Outside diameter').inputValue(), '22.3');
    assert.equal(await entry(page, 'Plug’s face').inputValue(), '0.0', 'flush, as is usual');
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('offers the notes that the tube can have, and takes the one that is touched', async () => {
    const { page, context } = await open(where, { viewport: DESK, locale: 'en-GB' });
    await begin(page);
    await onward(page, () => next(page).click());
    for (const text of ['17.1', '2.6', '431', '5.2', '8.4']) {
      await page.keyboard.type(text);
      await onward(page, () => page.keyboard.press('Enter'));
    }
    await onward(page, () => next(page).click());
    const chips = page.locator('.guide-chips .chip');
    await page.waitForFunction(() => document.querySelectorAll('.guide-chips .chip').length > 4);
    const note = (await chips.allTextContents())[3];
    await page.getByRole('radio', { name: note, exact: true }).check({ force: true });
    await onward(page, () => next(page).click());
    await page.waitForFunction((name) => document.querySelector('#station-marks .lead')?.textContent.startsWith(name), note);
    await context.close();
  });

  it('proposes the ruler by the browser’s language', async () => {
    for (const [locale, ruler] of [['en-US', 'Inches, to 1/32'], ['en-GB', 'Millimetres'], ['pt-BR', 'Millimetres']]) {
      const { page, context } = await open(where, { locale });
      await begin(page);
      assert.equal(await page.getByRole('radio', { name: ruler }).isChecked(), true, locale);
      await context.close();
    }
  });

  for (const [name, viewport, scheme] of LOOKS) {
    it(`axe finds nothing on any screen: ${name}, ${scheme}`, async () => {
      const { page, context } = await open(where, { viewport, scheme, locale: 'en-US', bypassCSP: true });
      await page.addScriptTag({ content: axeSource });
      const found = () => page.evaluate(async (tags) => (await window.axe.run(document, { runOnly: tags })).violations
        .map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(' | ')}`), TAGS);
      await begin(page);
      for (let i = 1; i <= 8; i += 1) {
        assert.deepEqual(await found(), [], await title(page));
        await shot(page, `${name}-guide-${i}-${scheme}`);
        if (i === 3) {
          await page.keyboard.type('thick');
          await next(page).click();
          assert.deepEqual(await found(), [], 'with a wrong entry');
          await input(page).fill('1/8');
        }
        if (i < 8) await onward(page, () => page.getByRole('button', { name: 'Skip' }).click());
      }
      await context.close();
    });
  }

  // 44 px: WCAG 2.2, SC 2.5.5; 320 px and letters of 200 %: SC 1.4.10 and 1.4.4.
  it('fits 320 px, also with letters of twice the size; whatever is touched is 44 px', async () => {
    for (const size of ['100%', '200%']) {
      const { page, context } = await open(where, { viewport: { width: 320, height: 640 }, locale: 'en-US', bypassCSP: true });
      await page.addStyleTag({ content: `html { font-size: ${size}; }` });
      await begin(page);
      for (let i = 1; i <= 8; i += 1) {
        const wrong = await page.evaluate(() => {
          const dialog = document.querySelector('dialog.guide');
          const all = [...dialog.querySelectorAll('button, input, p, h2, label')].filter((e) => e.offsetParent !== null
            && !e.classList.contains('unseen'));
          return [...dialog.scrollWidth > dialog.clientWidth ? ['wide'] : [], ...all.flatMap((e) => {
            const box = e.getBoundingClientRect();
            const small = e.matches('button, input') && (box.width < 44 || box.height < 44);
            return box.left < 0 || box.right > 320.5 || small ? [`${e.textContent} ${JSON.stringify(box)}`] : [];
          })];
        });
        assert.deepEqual(wrong, [], `${size}, ${await title(page)}`);
        if (i < 8) await onward(page, () => page.getByRole('button', { name: 'Skip' }).click());
      }
      await context.close();
    }
  });
});

describe('an entry on the whole form', () => {
  it('is selected by the tap that chooses it, and not by the next', async () => {
    const { page, context } = await open(where, { viewport: DESK });
    const field = entry(page, 'Sound hole width');
    const selected = () => field.evaluate((e) => e.value.slice(e.selectionStart, e.selectionEnd));
    await field.click();
    assert.equal(await selected(), await field.inputValue());
    await page.keyboard.type('8.3');
    assert.equal(await field.inputValue(), '8.3', 'typed over');
    await field.click();
    assert.equal(await selected(), '', 'the cursor is set');
    const name = entry(page, 'Name');
    await name.click();
    assert.equal(await name.evaluate((e) => e.selectionEnd - e.selectionStart), 0, 'words are gone on with');
    await context.close();
  });

  it('has keys for fractions under it, in inches', async () => {
    const { page, context, faults } = await open(where, { viewport: PHONE, hasTouch: true });
    await page.locator('select[aria-label=Unit]').selectOption('inch/32');
    await station(page, 'cane');
    const field = entry(page, 'Below the line');
    await field.tap();
    await page.getByRole('group', { name: 'Fraction keys' }).waitFor();
    await page.keyboard.type('16');
    await page.getByRole('button', { name: 'space' }).tap();
    await page.keyboard.type('7');
    await page.getByRole('button', { name: 'over 8' }).tap();
    assert.equal(await field.inputValue(), '16 7/8');
    assert.equal(await field.evaluate((e) => document.activeElement === e), true, 'the keypad stays');
    await entry(page, 'Above the line').tap();
    await page.keyboard.type('4');
    assert.equal(await page.getByRole('group', { name: 'Fraction keys' }).count(), 1, 'one row, that goes along');
    assert.equal(await field.inputValue(), '16 7/8');
    assert.deepEqual(faults, []);
    await context.close();
  });
});

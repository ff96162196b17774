// tests/e2e/voice.test.mjs -- the station Voice: by keyboard, with proposals, seen at every size.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { after, before, describe, it } from 'node:test';
import { LOOKS, PHONE, entry, foreign, open, settle, shot, site, station } from './page.mjs';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

const stands = (page) => page.locator('.voice-room .verdict').textContent();
const shown = (page) => page.waitForFunction(() => /bare opening/.test(document.querySelector('.voice-room .verdict')
  ?.textContent ?? ''));
/** Does something and waits until the first sentences are others. */
async function afterWords(page, act) {
  const old = await stands(page);
  await act();
  await page.waitForFunction((before) => document.querySelector('.voice-room .verdict').textContent !== before, old);
  return stands(page);
}
/** Presses Tab until what has the focus matches. */
async function tabTo(page, matches, what) {
  for (let i = 0; i < 120; i += 1) {
    await page.keyboard.press('Tab');
    if (await page.evaluate(matches)) return;
  }
  throw new Error(`no way by Tab to ${what}`);
}
async function openVoice(options = {}) {
  const opened = await open(where, options);
  await station(opened.page, 'voice');
  await shown(opened.page);
  return opened;
}

describe('the voice', () => {
  it('is no part of the first visit, and is described by keyboard alone', async () => {
    const { page, context, faults, late } = await open(where, { viewport: PHONE });
    const first = await page.evaluate(() => performance.getEntriesByType('resource').map((r) => r.name));
    assert.ok(first.length > 5);
    assert.deepEqual(first.filter((url) => /voice|workshop/.test(url)), []);
    await page.locator('#tab-marks').focus();
    await page.keyboard.press('ArrowRight');
    await shown(page);
    assert.equal(await page.evaluate(() => document.activeElement.id), 'tab-voice');
    assert.ok(late.some((url) => /voice/.test(url)) && late.some((url) => /workshop/.test(url)));

    assert.match(await stands(page), /not knowing [^;.]*side walls/);
    const side = () => document.activeElement.closest('fieldset')?.textContent.startsWith('Side walls');
    await page.evaluate(() => document.activeElement.blur());
    await tabTo(page, side, 'the side walls');
    const low = await afterWords(page, async () => {
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press('ArrowRight');
    });
    assert.ok(await page.getByRole('radio', { name: 'low', exact: true }).isChecked());
    assert.doesNotMatch(low, /not knowing [^;.]*side walls/);
    assert.ok(await page.getByRole('group', { name: 'Block', exact: true }).getByRole('radio', { name: 'there' }).isChecked(),
      'side walls stand at a block');

    for (const name of ['Depth of the track', 'Length of the track', 'Diameter of the air hole']) {
      await entry(page, name).fill('');
    }
    await page.waitForFunction(() => /^With the sizes proposed/.test(document.querySelector('.voice-room .verdict').textContent));
    // what is proposed for the last of them, too
    await page.locator('.part', { has: entry(page, 'Diameter of the air hole') }).locator('.proposal .take')
      .waitFor();
    const all = page.getByRole('button', { name: 'Take all', exact: true });
    await all.focus();
    const words = await afterWords(page, () => page.keyboard.press('Enter'));
    assert.match(words, /^This voice wants/);
    for (const name of ['Depth of the track', 'Length of the track', 'Diameter of the air hole']) {
      assert.match(await entry(page, name).inputValue(), /^\d/, name);
    }
    assert.ok(await all.isHidden());
    assert.match(await page.evaluate(() => document.activeElement.textContent), /^Above the sound hole/);
    assert.deepEqual(faults, []);
    assert.deepEqual(foreign(late, page), []);
    await context.close();
  });

  it('says what is wrong beside the field, keeps the last answer, and brings back what was set aside', async () => {
    const { page, context, faults } = await openVoice();
    const group = (name) => page.getByRole('group', { name, exact: true });
    await group('Ramp').getByRole('radio', { name: 'measured' }).check();
    await entry(page, 'Length of the ramp').fill('7,5');
    // with the first figure of a tube of its own the example's track goes: what is proposed has its place
    await page.waitForFunction(() => /^With the sizes proposed/.test(document.querySelector('.voice-room .verdict').textContent));
    const good = await stands(page);
    await entry(page, 'Length of the ramp').fill('long');
    await page.getByText(/is not a length/).and(page.locator('.wrong')).waitFor();
    assert.equal(await stands(page), good);
    await group('Ramp').getByRole('radio', { name: 'short' }).check();
    await settle(page);
    await group('Ramp').getByRole('radio', { name: 'measured' }).check();
    assert.equal(await entry(page, 'Length of the ramp').inputValue(), 'long', 'as it was typed');
    await group('Block').getByRole('radio', { name: 'there' }).check();
    await entry(page, 'Height of the block').fill('400');
    await page.getByText(/is too large/).and(page.locator('.wrong')).waitFor();
    await entry(page, 'Height of the block').fill('');
    assert.ok(await group('Block').getByRole('radio', { name: 'there' }).isChecked(), 'a block without a size');
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('shows the section, the breath of each note, and the causes of a fault', async () => {
    const { page, context, faults } = await openVoice();
    const picture = page.getByRole('img', { name: /^Section along the tube/ });
    assert.match(await picture.getAttribute('aria-label'), /chamber 100.0 mm.*Not entered, dashed:.*block/);
    assert.ok(await page.locator('.opened .block.dashed').count() === 1);
    const notes = await page.locator('.breaths tbody th').allTextContents();
    assert.equal(notes.length, 6);
    assert.match(await page.locator('.breaths .figures').last().textContent(), /\d+ ↑/);
    // Where it goes over to its octave and back; an octave that nobody can foretell is not shown as one that is clean.
    assert.match(await page.locator('.breaths .bars').last().textContent(), /Jumps up at \d+ Pa, falls back below \d+ Pa\.$/);
    const cells = await page.locator('.breaths .figures .octave').evaluateAll((all) =>
      all.map((e) => [e.classList.contains('clean'), e.textContent, getComputedStyle(e).color]));
    assert.equal(cells.length, 6);
    assert.ok(cells.every(([clean, words]) => clean === / Paclean$/.test(words)), JSON.stringify(cells));
    assert.ok(cells.some(([clean]) => clean) && cells.some(([, words]) => /not foretold$/.test(words)));
    assert.equal(new Set(cells.map(([clean, , colour]) => `${clean} ${colour}`)).size, 2);
    assert.notEqual(cells.find(([clean]) => clean)[2], cells.find(([clean]) => !clean)[2]);
    await page.locator('.symptoms summary').filter({ hasText: 'It only hisses' }).click();
    const causes = await page.locator('.symptoms [open] li > strong').allTextContents();
    assert.ok(causes.length >= 8 && new Set(causes).size === causes.length);
    assert.ok(causes.findIndex((c) => /^The splitting edge/.test(c)) > causes.findIndex((c) => /^The block/.test(c)));
    assert.match(await page.locator('.symptoms [open]').textContent(), /Not yet/);
    // A track so low that nobody knows its breath.
    await entry(page, 'Depth of the track').fill('0.12');
    await page.getByText(/no breath is foretold/).first().waitFor();
    assert.ok(await page.locator('.breaths').isHidden());
    // What it resonates at is there all the same, with the air in the tube of the note that is touched.
    assert.equal(await page.locator('.resonances tbody tr').count(), 6);
    assert.match(await page.locator('.resonances tbody tr').last().textContent(), /G4\s*39\d\.\d/);
    const seen = () => page.locator('.wave-holder svg').getAttribute('aria-label');
    const lowest = await seen();
    await page.locator('.hear-it .chip').nth(2).click();
    await page.waitForFunction((before) => document.querySelector('.wave-holder svg').getAttribute('aria-label') !== before, lowest);
    assert.ok(await page.locator('.hear-it .deeds').isHidden());
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('leads down a long page on a phone, by keyboard too', async () => {
    const { page, context, faults } = await openVoice({ viewport: PHONE });
    const ways = page.getByRole('navigation', { name: 'On this page' }).getByRole('button');
    const names = await ways.allTextContents();
    assert.ok(names.length >= 5);
    for (const name of names) {
      await ways.filter({ hasText: name }).press('Enter');
      const seen = await page.evaluate(() => ({ words: document.activeElement.textContent, tag: document.activeElement.tagName,
        top: document.activeElement.getBoundingClientRect().top, open: document.activeElement.parentElement.open }));
      assert.equal(seen.words, name);
      assert.ok(seen.top >= -1 && seen.top < PHONE.height, `${name} at ${seen.top}`);
      if (seen.tag === 'SUMMARY') assert.equal(seen.open, true);
    }
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('prints the steps of making a voice, opened, dark on white, each in one piece and in letters that can be read', async () => {
    for (const [scheme, viewport] of [['dark', PHONE], ['light', { width: 1280, height: 800 }]]) {
      const { page, context, faults } = await openVoice({ scheme, viewport });
      assert.equal(await page.locator('.making').getAttribute('open'), null);
      await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
      await page.emulateMedia({ media: 'print', colorScheme: scheme });
      const seen = await page.evaluate(() => {
        /** Of the colour, 0 black to 1 white. */
        const light = (colour) => colour.match(/[\d.]+/g).slice(0, 3).reduce((sum, part) => sum + Number(part) / 765, 0);
        const steps = [...document.querySelectorAll('.drawn-steps > li')];
        return { open: document.querySelector('.making').open, steps: steps.length,
          words: Math.max(...[...document.querySelectorAll('.drawn-steps strong, .drawn-steps .test, .made text')]
            .map((e) => light(getComputedStyle(e).fill !== 'rgb(0, 0, 0)' && e.tagName === 'text' ? getComputedStyle(e).fill
              : getComputedStyle(e).color))),
          paper: light(getComputedStyle(document.documentElement).getPropertyValue('--paper') === '#fff' ? 'rgb(255, 255, 255)' : '0 0 0'),
          whole: steps.every((e) => getComputedStyle(e).breakInside === 'avoid'),
          drawn: steps.every((e) => e.querySelector('svg').getBoundingClientRect().width > 100),
          points: Math.min(...[...document.querySelectorAll('.made text')].map((e) => e.getBoundingClientRect().height * 0.75)),
          touched: [...document.querySelectorAll('.voice-room button, .hear-it')].filter((e) => e.offsetParent !== null).length,
          over: [...document.querySelectorAll('.made svg')].some((e) => e.getBoundingClientRect().right > innerWidth) };
      });
      assert.ok(seen.words < 0.4, `letters of lightness ${seen.words}`);
      assert.ok(seen.points > 7, `letters of ${seen.points} points`);
      assert.deepEqual({ ...seen, words: 0, points: 0 },
        { open: true, steps: 8, words: 0, paper: 1, whole: true, drawn: true, points: 0, touched: 0, over: false });
      await page.emulateMedia({ media: 'screen', colorScheme: scheme });
      await page.evaluate(() => dispatchEvent(new Event('afterprint')));
      assert.equal(await page.locator('.making').getAttribute('open'), null, 'shut again');
      assert.deepEqual(faults, []);
      await context.close();
    }
  });

  for (const [name, viewport, scheme] of LOOKS) {
    it(`axe finds nothing: ${name}, ${scheme}`, async () => {
      const { page, context } = await openVoice({ viewport, scheme, bypassCSP: true });
      await page.addScriptTag({ content: axeSource });
      await shot(page, `${name}-voice-${scheme}`);
      await page.getByRole('radio', { name: 'there' }).check();
      await page.getByRole('group', { name: 'Side walls' }).getByRole('radio', { name: 'measured' }).check();
      await entry(page, 'Height of the side walls').fill('tall');
      await page.evaluate(() => document.querySelectorAll('#station-voice details').forEach((d) => { d.open = true; }));
      await settle(page);
      const found = await page.evaluate(async (tags) => (await window.axe.run(document, { runOnly: tags })).violations
        .map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(' | ')}`), TAGS);
      assert.deepEqual(found, []);
      await context.close();
    });
  }

  it('fits narrow screens and large letters, no tab cut, targets 44 px', async () => {
    for (const [width, letters] of [[320, 16], [360, 16], [360, 24], [320, 32], [768, 16], [1080, 16], [1280, 16]]) {
      const { page, context } = await openVoice({ viewport: { width, height: 740 } });
      const session = await context.newCDPSession(page);
      await session.send('Page.setFontSizes', { fontSizes: { standard: letters, fixed: letters } });
      await settle(page);
      const seen = await page.evaluate(() => {
        const box = (e) => e.getBoundingClientRect();
        return { over: [...document.querySelectorAll('#station-voice *')].filter((e) => box(e).right > innerWidth + 0.5
            && box(e).width > 0 && e.closest('.breaths-holder > *') === null).map((e) => e.outerHTML),
          cut: [...document.querySelectorAll('#bar button')].filter((e) => e.offsetParent !== null
            && (e.scrollWidth > e.clientWidth || box(e).right > innerWidth + 0.5 || box(e).height < 44)).map((e) => e.textContent),
          words: [...document.querySelectorAll('.opened text')].filter((e) => box(e).right > box(e.closest('svg')).right).map((e) => e.textContent),
          small: [...document.querySelectorAll('#station-voice button, #station-voice input, #station-voice summary')]
            .filter((e) => e.offsetParent !== null && (box(e).height < 44 || box(e).width < 44)).map((e) => e.outerHTML) };
      });
      assert.deepEqual(seen, { over: [], cut: [], words: [], small: [] },
        `${width} px, letters of ${letters} px`);
      await context.close();
    }
  });
});

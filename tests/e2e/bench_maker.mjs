// tests/e2e/bench_maker.mjs -- a small simulated maker for the bench: a flute that is really there,
// whose voice differs from what was entered, and hands that do what the card says.
//
// What it sounds like comes from the native command, on a document with another sound hole: so the
// page's own belief starts out wrong and only the readings can put it right.
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

export const COMMAND = process.env.CANEWRIGHT_COMMAND
  ?? fileURLToPath(new URL('../../build/native/canewright', import.meta.url));
const STROKE = 0.006;       // a stroke widens a hole by this share
const FOOT_STROKE_MM = 0.7; // and takes this off the foot
const LIGHT = 0.4;

export class Maker {
  /** @param {object} example the page's document @param {number} wider the true sound hole's width */
  constructor(example, wider) {
    this.document = { ...example, sound_hole: { ...example.sound_hole,
      width_mm: example.sound_hole.width_mm * wider } };
    this.foot = example.tube.end_mm;
    this.holes = new Map();
    this.blows = 0;
  }

  /** The true pitch. @param {number[]} open numbers of the plan */
  hz(open) {
    const numbers = [...this.holes.keys()].sort((a, b) => a - b);
    const { song: _song, shop: _shop, log: _log, ...flute } = this.document;
    const text = JSON.stringify({ ...flute, foot_mm: this.foot,
      tube: { ...flute.tube, end_mm: Math.max(this.foot, flute.tube.end_mm) },
      finger_holes: numbers.map((n) => ({ at_mm: this.holes.get(n).at, diameter_mm: this.holes.get(n).wide })),
      notes: [{ open: open.map((n) => numbers.indexOf(n) + 1) }] });
    const { status, stdout, stderr } = spawnSync(COMMAND, ['sound', '-'], { input: text, encoding: 'utf8' });
    if (status !== 0) throw new Error(`sound: ${stderr}`);
    return JSON.parse(stdout).notes[0].hz;
  }

  /** A blow as any meter shows it: 2 cents up, 2 down, and so on. @param {number[]} open */
  blow(open) {
    this.blows += 1;
    const off = [2, -2, 0][this.blows % 3];
    return `${(this.hz(open) * 2 ** (off / 1200)).toFixed(2).replace('.', ',')} Hz`;
  }

  /** @param {number} hole 0: the foot @param {number} count */
  stroke(hole, count) {
    if (hole === 0) this.foot -= FOOT_STROKE_MM * count;
    else this.holes.get(hole).wide *= (1 + STROKE) ** count;
  }
}

/** What the card says, as a maker reads it. @param {import('playwright-core').Page} page */
export async function card(page) {
  const text = (await page.locator('.card .do').textContent()).replace(/\s+/g, ' ').trim();
  const held = page.locator('.card .fingering');
  const fingering = await held.count() > 0 ? await held.textContent() : '';
  const open = [...fingering.matchAll(/\d+/g)].map((m) => Number(m[0]));
  return { text, open, hole: Number(/hole (\d+)/i.exec(text)?.[1] ?? 0) };
}

/** The one-tap answer to the checklist of the voice. */
export async function voiceIsFinished(page) {
  const button = page.getByRole('button', { name: 'All of this is so' });
  if (!await button.isVisible()) return;
  touched.touches += 1;
  await button.click();
}

const enabled = (page) => page.locator(['.primary', '.second.tall'].map((button) =>
  `.card[aria-busy=false] ${button}:visible:not([disabled])`).join(', '));

/** Touches of the page: buttons, and lines that had to be tapped before they took what was typed. Keys count
 * apart. */
export const touched = { touches: 0, keys: 0 };

export async function press(page, name) {
  touched.touches += 1;
  await page.locator('.card').getByRole('button', { name }).click();
}

/** @param {import('playwright-core').Locator} line @param {string} text */
async function write(line, text) {
  if (!await line.evaluate((input) => input === document.activeElement)) touched.touches += 1;
  touched.keys += text.length + 1;
  await line.fill(text);
}

async function type(page, text) {
  const line = page.getByRole('textbox', { name: 'Or type it', exact: true });
  await write(line, text);
  await line.press('Enter');
}

/** Number of entries in the page's log; the list shows the newest of them. */
export const logged = async (page) => Number(await page.locator('.log').getAttribute('data-entries'));
/** Waits until there are more, fewer or just so many, and the card has the step after them. */
export const untilLogged = (page, test, count) => page.waitForFunction(([how, n]) => {
  if (document.querySelector('.card').getAttribute('aria-busy') === 'true') return false;
  const now = Number(document.querySelector('.log').getAttribute('data-entries'));
  return how === 'more' ? now > n : how === 'fewer' ? now < n : now === n;
}, [test, count]);

/** The log as this browser keeps it: of the newest slot (web/state/slots.js says how it is written). */
export const kept = (page) => page.evaluate(() => {
  const slots = Object.values(localStorage).flatMap((text) => {
    const [, revision, json] = /^\w+ (\d+) \d+ (\{.*)$/s.exec(text) ?? [];
    return json === undefined ? [] : [{ revision: Number(revision), json }];
  }).sort((a, b) => b.revision - a.revision);
  return slots.length === 0 ? [] : JSON.parse(slots[0].json).doc.log ?? [];
});

/** Does what the card says, once. Returns what it was.
 * @param {import('playwright-core').Page} page @param {Maker} maker */
export async function step(page, maker) {
  await enabled(page).first().waitFor();
  if (/^Make the voice/.test((await card(page)).text)) {
    await voiceIsFinished(page);
    await page.waitForFunction(() => /^Blow/.test(document.querySelector('.card .do').textContent));
    await enabled(page).first().waitFor();
  }
  const now = await card(page);
  const { open } = now;
  const before = await logged(page);
  const kind = /^Saw the foot at/.test(now.text) ? 'saw' : /^Drill hole/.test(now.text) ? 'drill'
    : /until it sounds/.test(now.text) ? 'by ear' : /^Blow/.test(now.text) ? 'read'
      : /^Finish it/.test(now.text) ? 'wait' : /is done$/.test(now.text) ? 'done' : 'rescue';
  const shift = maker.document.sound_hole.length_mm / 2;  // the page counts from the centre
  if (kind === 'saw') {
    maker.foot = Number(/at ([\d.]+) mm/.exec(now.text)[1]) + shift;
    await press(page, 'Sawn: log it');
  } else if (kind === 'drill') {
    const wide = Number(await page.getByRole('textbox', { name: 'Hole wide', exact: true }).inputValue());
    maker.holes.set(now.hole, { at: Number(/at ([\d.]+) mm/.exec(now.text)[1]) + shift, wide });
    await press(page, 'Drilled: log it');
  } else if (kind === 'read') {
    for (let i = 0; i < 3; i += 1) await type(page, maker.blow(open));
    await press(page, 'Log this reading');
  } else if (kind === 'by ear') {
    await byEar(page, maker, now.hole, open);
  } else if (kind === 'wait') {
    await press(page, 'It is finished and dry');
  } else if (kind === 'rescue') {
    throw new Error(`a rescue was not expected: ${now.text}`);
  }
  if (kind !== 'done') await untilLogged(page, 'more', before);
  return { ...now, kind };
}

/** Strokes and blows until the card says stop. */
async function byEar(page, maker, hole, open) {
  for (let i = 0; i < 60; i += 1) {
    const advice = (await page.locator('.card .advice').textContent()).trim();
    if (/^Stop here/.test(advice)) break;
    if (/^The note has risen/.test(advice)) {
      await press(page, 'No, only blown');
      await page.waitForFunction((old) => document.querySelector('.card .advice').textContent.trim() !== old, advice);
      continue;
    }
    if (/^(Blow|Tap out)/.test(advice)) {
      const count = await page.locator('.card .blown').textContent();
      await type(page, maker.blow(open));
      await page.waitForFunction((old) => document.querySelector('.card .blown').textContent !== old, count);
      continue;
    }
    const button = page.locator('.card .primary.cutting');
    const words = await button.textContent();
    const many = /light/.test(words) ? LIGHT : /one/.test(words) ? 1 : Number(/\d+/.exec(words)[0]);
    maker.stroke(hole, many);
    touched.touches += 1;
    await button.click();
  }
  if (hole === 0) {
    const place = page.getByRole('textbox', { name: 'Foot now at', exact: true });
    await write(place, (maker.foot - maker.document.sound_hole.length_mm / 2).toFixed(1));
  } else if (await page.getByRole('textbox', { name: 'Hole now wide', exact: true }).count() > 0) {
    await write(page.getByRole('textbox', { name: 'Hole now wide', exact: true }), maker.holes.get(hole).wide.toFixed(1));
  }
  await press(page, 'Log it: stop here');
}

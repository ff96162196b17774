// tools/bench_page.mjs -- what passes between a key and the marks, and between a tap and what a tube can be, on a
// processor slowed down four times.
//
//   node tools/bench_page.mjs [DOCUMENT.json] [KEYS]     with CANEWRIGHT_CHROMIUM, CANEWRIGHT_DIST as the tests
//
// Without a document: six holes with a limit that binds, to which the aim belongs, and one with seven.
// Each key changes the sound hole's width; the times are those of the page's own clock.
import { readFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { loadModule } from '../tests/wasm/engines.mjs';
import { entry, open, site } from '../tests/e2e/page.mjs';

const AIM_MS = 50;  // from the key to the marks, of 95 in 100
const SLOWER = 4;  // a telephone of the middle (the tools of a browser call it so; common practice, no source)
const SIX = 'tests/data/documents/six_holes.json';
const keys = Number(process.argv[3] ?? 60);
const read = (path, more) => ({ name: path, doc: { ...JSON.parse(readFileSync(path, 'utf8')), ...more } });
const cases = process.argv[2] ? [read(process.argv[2])] : [
  read(SIX, { shop: { diameter_mm: { min: 8 } } }),
  // Fingers and bits that cost most notes their pitch.
  read(SIX, { shop: { spacing_mm: { min: 22, max: 26 }, diameter_mm: { min: 5, max: 7 } } })];

/** Runs in the page, before it: notes when what is asked and answered. */
function watch() {
  window.times = [];
  const note = (what) => window.times.push([what, performance.now()]);
  // The page says itself that it is done: to be asked at every frame would cost a third of what is measured.
  const done = () => {
    const answered = window.times.find(([what]) => what === 'answered')?.[1];
    const marked = window.times.find(([what, ms]) => what === 'marked' && ms >= answered)?.[1];
    if (window.times.some(([what, ms]) => what === 'painted' && ms >= marked)) console.info('painted');
  };
  const marked = () => {
    note('marked');
    requestAnimationFrame(() => setTimeout(() => { note('painted'); done(); }));
  };
  const Real = Worker;
  window.Worker = class extends Real {
    constructor(...given) {
      super(...given);
      this.addEventListener('message', ({ data }) => {
        if (!data.result?.layout) return;
        note('answered');
        setTimeout(marked);  // where no figure has changed
      });
    }
    postMessage(message, ...rest) {
      if (message.question?.verb === 'marks') note('asked');
      super.postMessage(message, ...rest);
    }
  };
  addEventListener('keydown', (event) => window.times.push(['key', event.timeStamp]), true);
  // What is measured here costs the page time of its own: of all that changes only the marks are watched.
  window.watchMarks = () => new MutationObserver(marked).observe(document.querySelector('.plan'),
    { childList: true, subtree: true });
}

const share = (list, of) => [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(list.length * of))];
const where = await site();
const workshop = await loadModule('workshop');
for (const one of cases) await measure(one);
await where.close();
const [busy] = loadavg();
// The page, its worker and the browser want a core each, nearly; who else is at it counts as theirs.
if (busy > cpus().length) console.log(`The machine is busy (load ${busy.toFixed(1)} on ${cpus().length} cores): these figures say nothing.`);

/** @param {{name: string, doc: any}} one */
async function measure({ name, doc }) {
  const { page, context } = await open(where, { viewport: { width: 360, height: 740 } });
  await page.addInitScript(watch);
  const { answer } = JSON.parse(workshop.run('link', JSON.stringify(doc)));
  // Notes that a limit holds back are what costs most: the document has to have some.
  const { answer: laid } = JSON.parse(workshop.run('layout', JSON.stringify(doc)));
  if (!process.argv[2] && laid.binding.length === 0) throw new Error('no limit binds: this measures too little');
  await page.reload();
  await page.evaluate((link) => { location.hash = link; }, answer.link);
  await page.waitForFunction((name) => document.querySelector('#title-marks')?.textContent.includes(name), doc.name);
  // No mouse rests on a telephone: each frame would look for what lies under it.
  await page.evaluate(() => document.querySelector('#tab-cane').click());
  const field = entry(page, 'Sound hole width');
  await field.fill('9.5');
  await page.waitForTimeout(1500);
  await page.evaluate(() => window.watchMarks());
  const session = await context.newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
  await field.focus();
  await page.keyboard.press('End');
  const parts = ['asked', 'answered', 'marked', 'painted'];
  const rows = [];
  for (let i = 0; i < keys; i += 1) {
    await page.evaluate(() => { window.times = []; });
    // Digits and their taking back, by turns: 9.5, 9.53, 9.5, 9.57, ...
    const painted = page.waitForEvent('console', { predicate: (m) => m.text() === 'painted', timeout: 5000 });
    await page.keyboard.press(i % 2 === 0 ? String(1 + (i / 2) % 9) : 'Backspace');
    await painted;
    await page.waitForTimeout(100);  // the key's own end (its 'up') waits for nothing
    const times = await page.evaluate(() => window.times);
    // Each part after the one before it: what the last key brought still trickles in.
    let now = times.find(([what]) => what === 'key')[1];
    const key = now;
    rows.push(Object.fromEntries(parts.map((what) => {
      now = times.find(([w, ms]) => w === what && ms >= now)[1];
      return [what, now - key];
    })));
    await page.waitForTimeout(600 + (i * 137) % 300);  // bands and reasons have come: they want the second core
  }

  // What this tube can be: from the tap to the first that stands there, and to the last; then from another tap, with all loaded.
  const taps = [];
  for (const times of [1, 2, 3]) {
    const panel = page.locator('#station-cane details.suits');
    if (times > 1) await panel.locator('summary').click();  // closed
    await field.fill(String(9 + times / 10));
    await page.waitForTimeout(1500);
    taps.push(await page.evaluate(async () => {
      const place = document.querySelector('#station-cane details.suits');
      const list = place.querySelector('.suits-list');
      const status = place.querySelector('[role=status]');
      list.replaceChildren();
      status.textContent = '';
      const from = performance.now();
      place.querySelector('summary').click();
      const seen = async (there) => {
        while (!there()) await new Promise((next) => { setTimeout(next); });
        return performance.now() - from;
      };
      return { first: await seen(() => list.querySelector('.suit')), last: await seen(() => /tried\./.test(status.textContent)) };
    }));
  }
  await context.close();

  console.log(`${name}: ${doc.song.holes} holes, ${laid.binding.length} limits bind, ${keys} keys, processor ${SLOWER} times slower`);
  console.log('ms from the key until   median     p95');
  for (const what of parts) {
    const all = rows.map((row) => row[what]);
    console.log(`  ${what.padEnd(20)} ${share(all, 0.5).toFixed(1).padStart(7)} ${share(all, 0.95).toFixed(1).padStart(7)}`);
  }
  console.log(`aim: marked within ${AIM_MS} ms, of 95 in 100`);
  const [{ first: cold }, ...warm] = taps;
  console.log(`what this tube can be, ms from the tap: the first ${warm.map(({ first }) => first.toFixed(0)).join(', ')} (with loading ${
    cold.toFixed(0)}; aim: 200), the whole ${warm.map(({ last }) => last.toFixed(0)).join(', ')}`);
}

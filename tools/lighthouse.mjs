// tools/lighthouse.mjs -- Lighthouse's verdict on the built page; fails below what we promise.
//
//   node tools/lighthouse.mjs [FOLDER]        default: build/site
//
// Its standard phone: 150 ms and 1.6 Mbit/s, a processor four times slower, both simulated. The page is
// served compressed from this machine, as a static host would. Performance varies by chance: where one run is
// below what we promise, the median of three counts. What the page itself does wrong now and then, a shift of
// what is already drawn, counts at its worst. A browser that has just been started is still busy with itself,
// which is no property of the page: it is left to settle first, on an empty page, and its first run, in which
// its own parts are loaded (83 to 93 where the next had 93 to 98), counts for everything but performance.
import lighthouse from 'lighthouse';
import puppeteer from 'puppeteer-core';
import { serve } from './serve.mjs';

const LEAST = { performance: 95, accessibility: 100, 'best-practices': 100, seo: 100 };
const RUNS = 3;  // after the first
const MOST_SHIFT = 0.005;  // of any run; a line that wraps late is 0.03
const SETTLE_MS = 4000;

// When it hangs up at the end of a run, Lighthouse can have a message on the way that nobody waits for. Its
// rejection is no verdict: a run that went wrong rejects, or says so in runtimeError.
process.on('unhandledRejection', (error) => {
  if (error?.name !== 'TargetCloseError') throw error;
});

const server = await serve(process.argv[2] ?? 'build/site', 0, { maxAge: 600, packed: true });
const browser = await puppeteer.launch({ headless: true,
  executablePath: process.env.CANEWRIGHT_CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-quic', '--no-first-run'] });
const port = Number(new URL(browser.wsEndpoint()).port);
const results = [];
await new Promise((on) => { setTimeout(on, SETTLE_MS); });
let failed = false;
try {
  const scored = () => results.slice(1).map((lhr) => Math.round(lhr.categories.performance.score * 100));
  const median = () => scored().sort((a, b) => a - b)[scored().length >> 1];
  for (let i = 0; i <= RUNS && (i <= 1 || scored()[0] < LEAST.performance); i += 1) {
    const { lhr } = await lighthouse(server.address, { port, logLevel: 'error',
      onlyCategories: Object.keys(LEAST) });
    if (lhr.runtimeError) throw new Error(lhr.runtimeError.message);
    results.push(lhr);
    const ms = (id) => Math.round(lhr.audits[id].numericValue);
    console.log(`run ${i + 1}: performance ${Math.round(lhr.categories.performance.score * 100)}, first paint ${
      ms('first-contentful-paint')} ms, largest ${ms('largest-contentful-paint')} ms, blocked ${
      ms('total-blocking-time')} ms, shift ${lhr.audits['cumulative-layout-shift'].numericValue.toFixed(3)}`);
  }
  for (const [category, least] of Object.entries(LEAST)) {
    // Only performance varies by chance.
    const value = category === 'performance' ? median() : Math.round(results[0].categories[category].score * 100);
    console.log(`${String(value).padStart(4)}  ${category} (at least ${least})`);
    if (!(value >= least)) failed = true;
  }
  const shift = Math.max(...results.map((lhr) => lhr.audits['cumulative-layout-shift'].numericValue));
  console.log(`${shift.toFixed(4)}  largest shift (at most ${MOST_SHIFT})`);
  if (!(shift <= MOST_SHIFT)) failed = true;
  if (failed) {
    for (const lhr of results) {
      const poor = Object.values(lhr.audits).filter((a) => a.score !== null && a.score < 0.9
        && !['informative', 'notApplicable', 'manual'].includes(a.scoreDisplayMode));
      for (const audit of poor) console.log(`  ${audit.id}: ${audit.displayValue ?? audit.title}`);
    }
  }
} finally {
  await browser.close();
  await server.close();
}
process.exit(failed ? 1 : 0);

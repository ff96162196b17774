// tests/e2e/hear.test.mjs -- the flute is heard when it is asked for, stops at once, and never sounds by itself.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { open, ready, site, station } from './page.mjs';

let where;
before(async () => { where = await site(); });
after(async () => { await where.close(); });

/** What sounds is counted where the browser is asked for it: in `window.heard`. */
const counting = () => {
  const heard = { contexts: [], begun: [], ended: 0, stopped: 0 };
  window.heard = heard;
  const Audio = window.AudioContext;
  window.AudioContext = class extends Audio {
    constructor(...given) {
      super(...given);
      heard.contexts.push(this);
    }
  };
  const { start, stop } = AudioBufferSourceNode.prototype;
  AudioBufferSourceNode.prototype.start = function begin(at, ...more) {
    const samples = this.buffer.getChannelData(0);
    heard.begun.push({ loudest: samples.reduce((most, each) => Math.max(most, Math.abs(each)), 0),
      seconds: this.buffer.duration, late: at - this.context.currentTime, offset: more[0] ?? 0 });
    this.addEventListener('ended', () => { heard.ended += 1; });
    return start.call(this, at, ...more);
  };
  AudioBufferSourceNode.prototype.stop = function end(at) {
    if (at - this.context.currentTime < 0.05) heard.stopped += 1;
    return stop.call(this, at);
  };
};

async function openHear() {
  const opened = await open(where);
  await opened.page.addInitScript(counting);
  await opened.page.reload();
  await ready(opened.page);
  await station(opened.page, 'voice');
  await opened.page.locator('.hear-it .chip').first().waitFor();
  return opened;
}
const begun = (page) => page.evaluate(() => window.heard.begun.length);

describe('hearing', () => {
  it('a note begins when it is touched, goes on whole, and stops at once', async () => {
    const { page, context, faults } = await openHear();
    assert.equal(await begun(page), 0, 'nothing sounds by itself');
    await page.locator('.hear-it .chip').first().click();
    await page.waitForFunction(() => window.heard.begun.length > 0);
    assert.equal(await page.evaluate(() => window.heard.contexts.length), 1);
    await page.waitForFunction(() => window.heard.contexts[0].state === 'running');
    const [first] = await page.evaluate(() => window.heard.begun);
    assert.ok(first.loudest > 0.9, 'silence');
    assert.ok(first.late < 0.1, `${first.late} s after it was reckoned`);
    await page.getByText(/ Pa: [\d.]+ Hz\.$/).waitFor();
    // From soft to hard is long enough to be stopped in the middle.
    await page.waitForFunction(() => window.heard.ended === window.heard.begun.length);
    const before = await begun(page);
    await page.getByRole('button', { name: 'From soft to hard' }).click();
    await page.waitForFunction((count) => window.heard.begun.length > count, before);
    await page.locator('.hear-it').getByRole('button', { name: 'Stop', exact: true }).click();
    const { stopped } = await page.evaluate(() => window.heard);
    assert.ok(stopped > 0, 'it goes on');
    await page.waitForFunction(() => window.heard.ended === window.heard.begun.length);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('a drone holds until it is taken away, and a tune that is no tune sounds nothing', async () => {
    const { page, context, faults } = await openHear();
    await page.getByRole('checkbox', { name: 'Drone' }).check();
    await page.waitForFunction(() => window.heard.begun.length === 1);
    await page.getByRole('checkbox', { name: 'Drone' }).uncheck();
    await page.waitForFunction(() => window.heard.ended === 1);
    await page.getByLabel('A tune').fill('Q9');
    await page.getByRole('button', { name: 'Play', exact: true }).click();
    await page.locator('.hear-it [role="alert"]').filter({ hasText: 'not a note' }).waitFor();
    assert.equal(await begun(page), 1);
    assert.deepEqual(faults, []);
    await context.close();
  });
});

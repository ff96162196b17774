// tests/web/suits_asking.test.mjs -- what suits a tube is asked in parts: how far it is, one question for all who ask
// the same, a newer one after one part at most.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { askOnce } from '../../web/suits/asking.js';

/** A workshop of 40 wishes; each fifth is carried, the later the better. */
function workshop() {
  const asked = [];
  return {
    asked,
    async suitsPart({ document, from, to }) {
      asked.push([document.name, from]);
      await new Promise((rested) => { setTimeout(rested, 5); });
      if (document.name === 'broken') return { fault: 'no memory' };
      const tried = Array.from({ length: Math.min(to, 40) - from }, (_, i) => ({ wish: from + i }));
      const carried = tried.filter(({ wish }) => wish % 5 === 0);
      return { answer: { of: 40, tried, best: carried.length === 0 ? null : { lowest: `n${carried.at(-1).wish}`, score: carried.at(-1).wish } } };
    },
    async suitsOf({ document, tried }) {
      asked.push([document.name, 'whole']);
      return { answer: { name: document.name, tried } };
    },
  };
}

describe('what suits a tube, asked in parts', () => {
  it('says how far it is, with the best so far, and gives every part to the whole', async () => {
    const shop = workshop();
    const told = [];
    const { answer } = await askOnce(shop, 'one', { name: 'one' }, ({ done, of, best }) => told.push([done, of, best?.lowest]));
    assert.deepEqual(answer.tried.map(({ wish }) => wish), Array.from({ length: 40 }, (_, i) => i));
    assert.ok(told.length >= 2);
    assert.ok(told[0][0] <= 12, 'the first part is soon there');
    assert.deepEqual(told.at(-1), [40, 40, 'n35']);
  });

  it('is one question for two rooms, and the second hears how far it is', async () => {
    const shop = workshop();
    const told = [];
    const first = askOnce(shop, 'two', { name: 'two' }, () => {
      if (told.length === 0) void askOnce(shop, 'two', { name: 'two' }, ({ done }) => told.push(done));
    });
    const second = askOnce(shop, 'two', { name: 'two' });
    assert.equal((await first).answer, (await second).answer);
    assert.equal(shop.asked.filter(([, what]) => what === 'whole').length, 1);
    assert.ok(told.length >= 1);
    const before = shop.asked.length;
    await askOnce(shop, 'two', { name: 'two' });
    assert.equal(shop.asked.length, before, 'what is known is not asked again');
  });

  it('leaves a tube that is no longer meant after the part it is at', async () => {
    const shop = workshop();
    const old = askOnce(shop, 'old', { name: 'old' });
    const middle = askOnce(shop, 'middle', { name: 'middle' });
    const newest = askOnce(shop, 'new', { name: 'new' });
    assert.equal(await old, null);
    assert.equal(await middle, null);
    assert.equal((await newest).answer.name, 'new');
    assert.ok(shop.asked.filter(([name]) => name === 'old').length <= 1);
    assert.ok(shop.asked.filter(([name]) => name === 'middle').length <= 1);
    assert.equal(shop.asked.some(([name, what]) => name !== 'new' && what === 'whole'), false);
  });

  it('asks again what could not be reckoned', async () => {
    const shop = workshop();
    assert.equal((await askOnce(shop, 'broken', { name: 'broken' })).answer, undefined);
    await askOnce(shop, 'broken', { name: 'broken' });
    assert.equal(shop.asked.length, 2);
  });
});

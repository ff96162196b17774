// tests/web/keep_fails.test.mjs -- full, cleared and damaged storage; the page of older versions.
import assert from 'node:assert/strict';
import { beforeEach, describe, it } from 'node:test';
import fc from 'fast-check';
import { DOC, Shop, begin, clean, named, reopen, stateOf } from './keep_browser.mjs';

const { flutes, newest, readSlot, slotKey } = await import('../../web/state/slots.js');
const { ASIDE, damaged, keep, migrate, newId, setAside, write } = await import('../../web/state/keeper.js');
const { hand } = await import('../../web/state/keep.js');

beforeEach(begin);

describe('storage that fails', () => {
  it('is told as lost, and kept as soon as there is room', () => {
    globalThis.localStorage = new Shop(10);
    assert.equal(keep(stateOf(DOC)), 'lost');
    localStorage.room = Infinity;
    assert.equal(keep(stateOf(DOC)), '');
    assert.equal(reopen().doc.name, 'Otter bank');
  });

  it('when full keeps the last state that fitted', () => {
    keep(stateOf(DOC));
    keep(stateOf(named('second')));
    localStorage.room = localStorage.keys()
      .reduce((sum, k) => sum + k.length + localStorage.getItem(k).length, 0) + 20;
    assert.equal(keep(stateOf(named('x'.repeat(79)))), 'lost');
    assert.equal(reopen().doc.name, 'second');
  });

  it('that keeps nothing although it says so is found out', () => {
    const shop = localStorage;
    globalThis.localStorage = new Proxy(shop, { get: (it, key) => (key === 'setItem' ? () => {} : it[key]) });
    assert.equal(keep(stateOf(DOC)), 'lost');
    globalThis.localStorage = shop;
  });

  it('that was cleared meanwhile gets the flute again', () => {
    keep(stateOf(DOC));
    for (const key of localStorage.keys()) localStorage.removeItem(key);
    assert.equal(keep(stateOf(DOC)), '');
    assert.equal(reopen().doc.name, 'Otter bank');
  });

  it('damaged in the newer slot gives the older state; the damaged text is set aside', () => {
    keep(stateOf(named('older')));
    keep(stateOf(named('newer')));
    const { id } = hand;
    const key = [0, 1].map((slot) => slotKey(id, slot))
      .find((k) => readSlot(localStorage.getItem(k)).json.includes('newer'));
    const hurt = localStorage.getItem(key).replace('newer', 'nEwer');
    localStorage.setItem(key, hurt);
    assert.equal(reopen().doc.name, 'older');
    assert.deepEqual(damaged(id), [key]);
    keep(stateOf(named('newest')));
    const aside = localStorage.keys().filter((k) => k.startsWith(ASIDE));
    assert.equal(aside.length, 1);
    assert.equal(localStorage.getItem(aside[0]), hurt, 'before anything is written over it');
    assert.equal(reopen().doc.name, 'newest');
  });

  it('damaged in both slots gives another flute, else nothing, and deletes nothing', () => {
    keep(stateOf(named('one')));
    keep(stateOf(named('one, later')));
    const hurt = hand.id;
    for (const slot of [0, 1]) localStorage.setItem(slotKey(hurt, slot), `hurt ${slot}`);
    assert.equal(reopen(), null);
    keep(stateOf(named('two')));
    assert.equal(localStorage.getItem(slotKey(hurt, 0)), 'hurt 0');
    reopen({ tab: false });
    localStorage.setItem('canewright/hand', `${hurt} marks`);
    assert.equal(reopen({ tab: false }).doc.name, 'two');
    damaged(hurt).forEach(setAside);
    assert.deepEqual(localStorage.keys().filter((k) => k.startsWith(ASIDE))
      .map((k) => localStorage.getItem(k)).sort(), ['hurt 0', 'hurt 1']);
    assert.deepEqual(damaged(hurt), []);
  });

  it('with random bytes in it never throws and never loses a whole slot', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary' }), fc.string({ unit: 'binary' }), fc.nat({ max: 1 }),
      (a, b, slot) => {
        clean();
        reopen();
        keep(stateOf(named('whole')));
        keep(stateOf(named('whole too')));
        localStorage.setItem(slotKey(hand.id, slot), a);
        localStorage.setItem('canewright/flute/else/0', b);
        localStorage.setItem('canewright/1', b);
        assert.match(reopen().doc.name, /^whole/);
      }));
  });
});

describe('what older versions kept', () => {
  const old = JSON.stringify({ doc: DOC, good: DOC, typed: {}, aside: {}, station: 'song' });
  const taken = () => {
    const back = reopen();
    migrate();
    return back;
  };

  it('is shown, moved, and removed only after it was read back', () => {
    localStorage.setItem('canewright/1', old);
    assert.equal(taken().doc.name, 'Otter bank');
    assert.equal(localStorage.getItem('canewright/1'), old);
    assert.equal(flutes().length, 1);
    keep(stateOf(named('changed')));
    assert.equal(flutes().length, 1, 'it goes on as the same flute');
    assert.equal(taken().doc.name, 'changed');
    assert.equal(localStorage.getItem('canewright/1'), null);
  });

  it('is taken again where an older page has written since', () => {
    localStorage.setItem('canewright/1', old);
    taken();
    localStorage.setItem('canewright/1', old.replaceAll('Otter', 'Heron'));
    taken();
    const names = flutes().map((id) => JSON.parse(newest(id).json).doc.name).sort();
    assert.deepEqual(names, ['Heron bank', 'Otter bank']);
  });

  it('is shown even where there is no room to move it', () => {
    localStorage.setItem('canewright/1', old);
    localStorage.room = old.length + 20;
    assert.equal(reopen().doc.name, 'Otter bank');
    assert.throws(migrate);
    assert.equal(localStorage.getItem('canewright/1'), old);
  });

  it('ids sort by their time', () => {
    assert.ok(newId().length >= 12);
    write('a', 0, '{}');
    assert.deepEqual(flutes(), ['a']);
  });
});

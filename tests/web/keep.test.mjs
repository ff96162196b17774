// tests/web/keep.test.mjs -- what is kept in the browser: two slots, a checksum, two tabs.
import assert from 'node:assert/strict';
import { beforeEach, describe, it } from 'node:test';
import fc from 'fast-check';
import { DOC, EXAMPLE, Shop, begin, clean, named, reopen, stateOf } from './keep_browser.mjs';

const { checksum, flutes, newest, readSlot, slotKey } = await import('../../web/state/slots.js');
const { GONE, keep, known, slotText } = await import('../../web/state/keeper.js');
const { hand, recall } = await import('../../web/state/keep.js');

beforeEach(begin);

describe('checksum', () => {
  // Fowler, Noll, Vo: test vectors of FNV-1a, 32 bits (draft-eastlake-fnv, appendix; from memory).
  it('is FNV-1a', () => {
    assert.deepEqual(['', 'a', 'foobar'].map(checksum), ['811c9dc5', 'e40c292c', 'bf9cf968']);
  });
});

describe('a slot', () => {
  it('is read back as written, whatever the text', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary' }), fc.nat(), fc.nat(), (json, revision, at) => {
      assert.deepEqual(readSlot(slotText(revision, at, json)), { revision, json });
    }));
  });

  it('is refused when one character of it is another or it is cut off', () => {
    const text = slotText(7, 1764000000000, JSON.stringify(DOC));
    fc.assert(fc.property(fc.nat({ max: text.length - 1 }), fc.string({ minLength: 1, maxLength: 1 }),
      (at, other) => {
        const hurt = text.slice(0, at) + other + text.slice(at + 1);
        assert.equal(readSlot(hurt) === null, hurt !== text, hurt.slice(0, 40));
      }));
    for (let end = 0; end < text.length; end += 1) assert.equal(readSlot(text.slice(0, end)), null);
  });
});

describe('keeping', () => {
  it('leaves the older state in the other slot until the next', () => {
    for (let i = 1; i <= 4; i += 1) {
      assert.equal(keep(stateOf(named(`state ${i}`))), '');
      const both = [0, 1].map((slot) => readSlot(localStorage.getItem(slotKey(hand.id, slot))))
        .filter(Boolean).sort((a, b) => a.revision - b.revision);
      assert.deepEqual(both.map((s) => JSON.parse(s.json).doc.name),
        i === 1 ? ['state 1'] : [`state ${i - 1}`, `state ${i}`]);
    }
    assert.equal(reopen().doc.name, 'state 4');
    assert.equal(flutes().length, 1);
  });

  it('writes nothing where nothing is new', () => {
    keep(stateOf(DOC));
    const { revision } = newest(hand.id);
    keep(stateOf(DOC));
    keep(stateOf(structuredClone(DOC)));
    assert.equal(newest(hand.id).revision, revision);
    reopen();
    keep(stateOf(DOC));
    assert.equal(newest(hand.id).revision, revision, 'nor after a reload');
  });

  it('keeps texts that cannot be read, the station, and no untouched example', () => {
    assert.equal(keep(stateOf(EXAMPLE)), '');
    assert.deepEqual(flutes(), []);
    const typed = { 'tube.wall_mm': { text: 'a thumb', unit: 'mm', value: null,
      problem: { code: 'not_a_length', path: 'tube.wall_mm' } } };
    keep(stateOf(EXAMPLE, { typed, station: 'cane' }));
    const back = reopen();
    assert.deepEqual(back.typed, typed);
    assert.equal(back.station, 'cane');
  });

  it('puts a flute away for the example and brings the same one back', () => {
    keep(stateOf(DOC));
    const { id } = hand;
    keep(stateOf(EXAMPLE));
    assert.equal(hand.id, '');
    assert.equal(reopen({ tab: true }), null, 'a reload shows the example, as it was left');
    assert.deepEqual(flutes(), [id]);
    keep(stateOf(DOC));
    assert.equal(flutes().length, 2, 'the page does not know any more that it is the same');
    keep(stateOf(EXAMPLE));
    const second = known.before.id;
    keep(stateOf(named('quite another')));
    keep(stateOf(DOC));
    assert.equal(hand.id, second, 'brought back, not written over the other');
    assert.equal(flutes().length, 3);
  });

  it('does not keep what a link brought before it is touched, then as a flute of its own', () => {
    keep(stateOf(DOC));
    const own = hand.id;
    globalThis.location.href = 'https://flute.example/#1.abcZ';
    Object.assign(hand, { id: '', revision: 0, json: '' });
    known.loose = JSON.stringify([named('linked'), {}, {}]);
    keep(stateOf(named('linked')));
    assert.deepEqual(flutes(), [own]);
    assert.match(location.href, /#1\.abcZ$/, 'the address stays the sender’s');
    keep(stateOf(named('linked and changed')));
    assert.equal(flutes().length, 2);
    assert.equal(location.href, 'https://flute.example/');
    assert.equal(JSON.parse(newest(own).json).doc.name, 'Otter bank');
  });
});

describe('two tabs', () => {
  /** Switches between tabs: each has its own memory and its own session. */
  function tabs() {
    const memory = [0, 1].map(() => ({ hand: { id: '', revision: 0, json: '' },
      known: { work: '', loose: '', before: null }, session: new Shop() }));
    let now = 0;
    return (tab) => {
      Object.assign(memory[now].hand, hand);
      Object.assign(memory[now].known, known);
      now = tab;
      Object.assign(hand, memory[tab].hand);
      Object.assign(known, memory[tab].known);
      globalThis.sessionStorage = memory[tab].session;
    };
  }

  it('that work on one flute: the later one goes on as a flute of its own', () => {
    const tab = tabs();
    tab(0);
    keep(stateOf(named('first')));
    tab(1);
    assert.equal(recall().doc.name, 'first');
    assert.equal(keep(stateOf(named('by the second tab'))), '');
    tab(0);
    assert.equal(keep(stateOf(named('first'))), '', 'an idle tab writes nothing');
    assert.equal(keep(stateOf(named('first, gone on'))), 'copied');
    const names = flutes().map((id) => JSON.parse(newest(id).json).doc.name);
    assert.deepEqual(names.sort(), ['by the second tab', 'first, gone on']);
    assert.equal(keep(stateOf(named('and on'))), '', 'from then on without a word');
    tab(1);
    assert.equal(keep(stateOf(named('so does the second'))), '');
  });

  it('that write at the same moment lose neither state', () => {
    const tab = tabs();
    tab(0);
    keep(stateOf(named('common')));
    tab(1);
    recall();
    keep(stateOf(named('common')));
    // Both have seen the same storage; the second write goes over the first.
    const before = localStorage.getItem(slotKey(hand.id, 1));
    keep(stateOf(named('from tab 1')));
    const lost = slotKey(hand.id, 1);
    if (before === null) localStorage.removeItem(lost);
    tab(0);
    keep(stateOf(named('from tab 0')));
    tab(1);
    assert.equal(keep(stateOf(named('from tab 1'))), 'copied', 'even with nothing new typed');
    const names = flutes().map((id) => JSON.parse(newest(id).json).doc.name).sort();
    assert.deepEqual(names, ['from tab 0', 'from tab 1']);
  });

  it('any order of edits: what each tab typed last is on the shelf', () => {
    fc.assert(fc.property(fc.array(fc.record({ tab: fc.nat({ max: 1 }), name: fc.nat({ max: 5 }) }),
      { minLength: 1, maxLength: 12 }), (edits) => {
      clean();
      reopen();
      const tab = tabs();
      tab(0);
      keep(stateOf(named('start')));
      tab(1);
      recall();
      const last = {};
      for (const [i, edit] of edits.entries()) {
        tab(edit.tab);
        last[edit.tab] = `tab ${edit.tab} edit ${i} ${edit.name}`;
        assert.notEqual(keep(stateOf(named(last[edit.tab]))), 'lost');
      }
      const names = new Set(flutes().map((id) => JSON.parse(newest(id).json).doc.name));
      for (const name of Object.values(last)) assert.ok(names.has(name), `${name} of ${[...names]}`);
    }));
  });

  it('of which one deletes the flute: it stays deleted until the other changes it', () => {
    keep(stateOf(DOC));
    const { id, revision, json } = hand;
    localStorage.setItem(GONE + id, slotText(revision, 1, json));
    for (const slot of [0, 1]) localStorage.removeItem(slotKey(id, slot));
    keep(stateOf(DOC));
    assert.deepEqual(flutes(), []);
    keep(stateOf(named('changed after all')));
    assert.deepEqual(flutes(), [id]);
  });
});

// tests/web/state.test.mjs -- paths into the document, hands, rows beside the drawing, note names.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { steps, valueAt, withValue } from '../../web/state/path.js';
import { handSplits, handsFor } from '../../web/state/hands.js';
import { datumShift } from '../../web/state/desk.js';
import { stepped } from '../../web/state/readers.js';
import { createStore } from '../../web/state/store.js';
import { newestNext } from '../../web/engine/newest.js';
import { pack } from '../../web/widgets/pack.js';
import { nextNote } from '../../web/text/notes.js';

describe('path', () => {
  const tube = { bore: [{ at_mm: 0, diameter_mm: 18 }, { at_mm: 400, diameter_mm: 17 }] };

  it('reads and replaces without touching the original', () => {
    assert.deepEqual(steps('tube.bore[1].at_mm'), ['tube', 'bore', 1, 'at_mm']);
    assert.equal(valueAt({ tube }, 'tube.bore[1].diameter_mm'), 17);
    assert.equal(valueAt({ tube }, 'tube.bore[2].diameter_mm'), undefined);
    assert.equal(valueAt({ tube }, 'tube.toString'), undefined);
    assert.equal(valueAt({ tube }, '__proto__.x'), undefined);
    const next = withValue({ tube }, 'tube.bore[1].diameter_mm', 16);
    assert.equal(next.tube.bore[1].diameter_mm, 16);
    assert.equal(tube.bore[1].diameter_mm, 17);
    assert.equal(next.tube.bore[0], tube.bore[0], 'untouched parts are shared');
  });

  it('takes keys and list entries out, and makes missing branches', () => {
    assert.deepEqual(withValue({ tube }, 'tube.bore[0]', undefined).tube.bore, [tube.bore[1]]);
    assert.deepEqual(withValue({ a: 1 }, 'shop.spacing_mm.min', 18),
      { a: 1, shop: { spacing_mm: { min: 18 } } });
    assert.deepEqual(withValue({ a: 1, shop: { spacing_mm: { min: 18 } } }, 'shop.spacing_mm.min',
      undefined), { a: 1 });
    assert.deepEqual(withValue({ a: 1 }, 'shop.bits', undefined), { a: 1 });
    assert.deepEqual(withValue({ song: { lowest: 'G4' } }, 'song.lowest.hz', 392),
      { song: { lowest: { hz: 392 } } });
  });
});

describe('store', () => {
  it('tells listeners at once and on each change, and of nothing when nothing changed', () => {
    const store = createStore(1);
    const heard = [];
    const stop = store.subscribe((s) => heard.push(s));
    store.change((s) => s);
    store.change((s) => s + 1);
    stop();
    store.change((s) => s + 1);
    assert.deepEqual(heard, [1, 2]);
  });
});

describe('questions to the core', () => {
  it('go one at a time: the one under way, then the newest, none of those between', async () => {
    const asked = [];
    const delivered = [];
    const ask = newestNext(async (n) => {
      asked.push(n);
      await new Promise((later) => { setTimeout(later, 5); });
      return n * 10;
    }, (result, n, newest) => delivered.push([n, result, newest]));
    const first = ask(1);
    await Promise.all([first, ask(2), ask(3)]);
    await ask(4);
    assert.deepEqual(asked, [1, 3, 4]);
    assert.deepEqual(delivered, [[1, 10, false], [3, 30, true], [4, 40, true]]);
  });
});

describe('questions that take long', () => {
  it('are stopped after a second when a newer one waits, which is asked at once', async () => {
    const asked = [];
    const delivered = [];
    let finish = () => {};
    const ask = newestNext((n) => {
      asked.push(n);
      return new Promise((done) => { finish = done; });
    }, (result, n, newest) => delivered.push([n, result, newest]), () => finish('stopped'));
    const begun = performance.now();
    const all = ask(1);
    await new Promise((later) => { setTimeout(later, 100); });
    void ask(2);
    void ask(3);
    assert.deepEqual(asked, [1]);
    while (asked.length < 2) await new Promise((later) => { setTimeout(later, 10); });
    const after_ms = performance.now() - begun;
    assert.ok(after_ms > 900, `${after_ms}`);
    assert.deepEqual([asked, delivered], [[1, 3], []], 'what was stopped for another is not delivered');
    finish('three');
    await all;
    assert.deepEqual(delivered, [[3, 'three', true]]);
  });
});

describe('steppers', () => {
  it('more and then less gives the old value back, on the grid or off it, and so many times', () => {
    for (const step of [0.1, 0.05, 25.4 / 64, 0.002 * 25.4, 1, 0.5]) {
      for (const value of [18, 17.53, 0.03, 2.778125, 17.123456789, 399.9999, 3.175, 1 / 3, 7 * 25.4 / 128]) {
        let now = value;
        for (let n = 0; n < 12; n += 1) now = stepped(now, step);
        assert.ok(Math.abs(now - value - 12 * step) < 1e-8, `${value} ${step}`);
        for (let n = 0; n < 12; n += 1) now = stepped(now, -step);
        assert.ok(Math.abs(now - value) < 1e-12, `${value} ${step}: ${now}`);
        assert.equal(stepped(stepped(18.3, step), -step), 18.3);
      }
    }
    assert.equal(stepped(0.1, 0.2), 0.3);
  });
});

describe('hands', () => {
  it('have four fingers each', () => {
    assert.deepEqual(handSplits(6), [[2, 4], [3, 3], [4, 2]]);
    assert.deepEqual(handSplits(4), [[1, 3], [2, 2], [3, 1], [4]]);
    for (const holes of [4, 5, 6]) {
      for (const before of [undefined, [2, 3], [4, 2], [1, 3], [4]]) {
        const [upper, lower] = handsFor(holes, before);
        assert.equal(upper + lower, holes);
        assert.ok(upper <= 4 && lower <= 4);
      }
    }
    assert.deepEqual(handsFor(6, [2, 3]), [2, 4], 'the upper hand keeps its holes');
  });
});

describe('datum', () => {
  // document.md: positions are from the upstream edge; the splitting edge is a length farther on.
  it('is half or all of the sound hole away from the upstream edge', () => {
    const shift = (datum) => datumShift({ show: { datum }, sound_hole: { length_mm: 5 } });
    assert.deepEqual(['centre', 'upstream edge', 'splitting edge'].map(shift), [-2.5, 0, -5]);
  });
});

describe('rows', () => {
  const heights = [40, 60, 60, 60, 80];
  const apart = (tops) => tops.every((top, i) => i === 0 || top >= tops[i - 1] + heights[i - 1] - 1e-9);

  it('stay where they want to be where there is room', () => {
    assert.deepEqual(pack([0, 100, 200, 300, 400], heights, 600), [0, 100, 200, 300, 400]);
  });

  it('never overlap and never leave the sheet, whatever they want', () => {
    let seed = 7;
    const random = () => { seed = (seed * 48271) % 2147483647; return seed / 2147483647; };
    for (let trial = 0; trial < 500; trial += 1) {
      const wanted = heights.map(() => random() * 500 - 50).sort((a, b) => a - b);
      const tops = pack(wanted, heights, 320);
      assert.ok(apart(tops), `${wanted} gave ${tops}`);
      assert.ok(tops[0] >= 0 && tops[4] + heights[4] <= 320 + 1e-9, `${wanted} gave ${tops}`);
    }
  });

  it('share the shift where they crowd', () => {
    const tops = pack([190, 200, 210], [60, 60, 60], 600);
    assert.deepEqual(tops, [140, 200, 260]); // the middle one stays, the others give way equally
  });
});

describe('note picker', () => {
  it('goes by semitones, over the octave and from any spelling', () => {
    assert.equal(nextNote('G4', 1), 'A♭4');
    assert.equal(nextNote('B4', 1), 'C5');
    assert.equal(nextNote('C5', -1), 'B4');
    assert.equal(nextNote('bb4', 1), 'B4');
    assert.equal(nextNote('F#4', -1), 'F4');
    assert.equal(nextNote('Cb4', 1), 'C4');
    assert.equal(nextNote('nonsense', 1), undefined);
    let name = 'C4';
    for (let i = 0; i < 12; i += 1) name = nextNote(name, 1);
    assert.equal(name, 'C5');
  });
});

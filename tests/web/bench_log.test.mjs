// tests/web/bench_log.test.mjs -- an entry of the bench is kept first and reckoned second.
import assert from 'node:assert/strict';
import { beforeEach, describe, it } from 'node:test';
import { DOC, EXAMPLE, begin, stateOf } from './keep_browser.mjs';

globalThis.document ??= { addEventListener() {} };
const { createStore } = await import('../../web/state/store.js');
const { createDesk } = await import('../../web/state/desk.js');
const { createSession } = await import('../../web/bench/session.js');
const { cutEntry, madeWith } = await import('../../web/bench/log.js');
const { keep } = await import('../../web/state/keeper.js');
const { newest } = await import('../../web/state/slots.js');
const { hand } = await import('../../web/state/keep.js');

const SAWN = { foot: { at_mm: 400 } };
const tick = () => new Promise((later) => { setTimeout(later, 5); });
/** A bench whose core answers when it is told to. */
function open(doc = DOC) {
  const waiting = [];
  const stops = [];
  const workshop = { next: (of) => new Promise((answer) => { waiting.push({ of, answer }); }),
    stop: (verb) => stops.push(verb) };
  const store = createStore(stateOf(doc, { station: 'bench', example: JSON.stringify(EXAMPLE) }));
  const engine = { writeLength: (mm) => mm.toFixed(1) };
  const session = createSession(createDesk(store, engine, { defaults: {} }), workshop);
  return { store, session, waiting, stops, log: () => (store.get().doc.log ?? []).map(({ at: _, ...entry }) => entry),
    /** Answers all that waits, and what comes of that. */
    async all(reply) {
      await tick();
      for (const { of, answer } of waiting.splice(0)) answer(reply(of));
      await tick();
    } };
}
const step = { answer: { step: { do: 'read' }, notes: [], remedies: [] } };
beforeEach(begin);

describe('logging', () => {
  it('keeps the entry before anything is reckoned: it is there after a reload', async () => {
    const { store, session, log, all } = open();
    await all(() => step);
    void session.log([SAWN]);
    assert.deepEqual(log(), [SAWN]);
    keep(store.get());
    assert.equal(JSON.parse(newest(hand.id).json).doc.log[0].foot.at_mm, 400);
  });

  it('asks once for the entry and the next step, and is done when they are there', async () => {
    const { session, waiting, log, all } = open();
    await all(() => step);
    const said = session.log([SAWN]);
    await tick();
    assert.equal(waiting.length, 1);
    await all(() => step);
    assert.equal(await said, '');
    assert.deepEqual(log(), [SAWN]);
  });

  it('takes out again what cannot be true, and says why; what was heard for the step is back', async () => {
    const { session, log, all } = open();
    await all(() => step);
    session.proceed({ attempts: [390] });
    const said = session.log([SAWN]);
    assert.deepEqual(log(), [SAWN]);
    await all((of) => (of.log ? { violations: [{ code: 'too_large', path: 'log[0].foot.at_mm', value: 400, limit: 300 }] }
      : step));
    assert.match(await said, /[a-z]/);
    assert.deepEqual(log(), []);
    assert.deepEqual(session.progress().attempts, [390]);
    void session.log([SAWN]);
    assert.deepEqual(log(), [SAWN], 'and the next one is taken');
  });

  it('leaves what was logged meanwhile alone', async () => {
    const { store, session, all, log } = open();
    await all(() => step);
    const said = session.log([{ hole: { number: 9, at_mm: 1 } }]);
    store.change((s) => ({ ...s, doc: { ...s.doc, log: [...s.doc.log, SAWN] } }));
    await all((of) => (of.log?.length ? { violations: [{ code: 'bad_hole_number', path: 'log[0].hole.number' }] } : step));
    await said;
    assert.deepEqual(log(), [SAWN]);
  });

  it('keeps the entry when the reckoning fails or is stopped, and can ask again', async () => {
    for (const reply of [{ fault: 'it ended twice' }, { stopped: true }]) {
      const { store, session, waiting, log, all } = open();
      await all(() => step);
      const said = session.log([SAWN]);
      await all(() => reply);
      assert.equal(await said, '');
      assert.deepEqual(log(), [SAWN]);
      assert.equal(session.bench.get().stopped, reply.stopped === true);
      store.change((s) => ({ ...s, doc: { ...s.doc } }));
      await tick();
      assert.equal(waiting.length, 1, 'asked anew, not from memory');
    }
  });

  it('stops what is reckoned for the bench alone', async () => {
    const { session, stops } = open();
    session.stop();
    assert.deepEqual(stops, ['next']);
  });
});

describe('what made a hole', () => {
  const step = { do: 'hole', number: 5, at_mm: 300, diameter_mm: 6 };
  const owned = [{ mm: 6 }, { mm: 6.5 }];
  it('is told where its size was measured, and nowhere else', () => {
    assert.equal(madeWith(step, 6.3, owned), 6);
    assert.equal(madeWith(step, 6, owned), undefined, 'taken over from the card');
    assert.equal(madeWith({ ...step, wide_mm: 6.4 }, 6.4, owned), undefined, 'the same, as theirs come out');
    assert.equal(madeWith({ ...step, wide_mm: 6.4 }, 6.3, owned), 6);
    assert.equal(madeWith(step, 6.5, owned), undefined, 'as wide as another bit');
    assert.equal(madeWith(step, 6.3, []), undefined, 'any size: which drill it was, nobody knows');
    assert.equal(madeWith(step, 7.6, owned), undefined, 'no rod burns so wide');
    assert.equal(madeWith(step, undefined, owned), undefined);
  });
  it('stands in the entry', () => {
    assert.deepEqual(cutEntry(step, { at_mm: 300.2, diameter_mm: 6.3, bit_mm: 6 }),
      { hole: { number: 5, at_mm: 300.2, diameter_mm: 6.3, bit_mm: 6 } });
    assert.deepEqual(cutEntry(step, { at_mm: 300.2, diameter_mm: 6.3 }), { hole: { number: 5, at_mm: 300.2, diameter_mm: 6.3 } });
  });
});

describe('a note’s band', () => {
  const note = { open: [], name: 'G4', target_hz: 392, hz: 392, sigma_cents: 17.4, before_cents: 18.2, now_cents: null };
  const reply = () => ({ answer: { ...step.answer, notes: [note] } });
  const bands = ({ session }) => session.bench.get().next.notes.map((n) => [n.sigma_cents, n.before_cents]);

  it('is the one that Marks shows until something is heard, whichever of the two comes first', async () => {
    const bench = open({ ...DOC, log: [SAWN] });
    await bench.all(reply);
    assert.deepEqual(bands(bench), [[17.4, 18.2]], 'not known to Marks yet');
    bench.store.change((s) => ({ ...s, sure: { notes: [{ open: [], sigma_cents: 18.7 }] }, sureOf: s.answer }));
    assert.deepEqual(bands(bench), [[18.7, 18.7]]);
    bench.store.change((s) => ({ ...s, doc: { ...s.doc, name: 'another' } }));
    await bench.all(reply);
    assert.deepEqual(bands(bench), [[18.7, 18.7]]);
  });

  it('is the Bench’s once something is heard', async () => {
    const bench = open({ ...DOC, log: [SAWN, { read: { open: [], hz: 380 } }] });
    bench.store.change((s) => ({ ...s, sure: { notes: [{ open: [], sigma_cents: 18.7 }] }, sureOf: s.answer }));
    await bench.all(reply);
    assert.deepEqual(bands(bench), [[17.4, 18.2]]);
  });
});

// tests/web/plan.test.mjs -- a build under way keeps its plan: what another version of the page would
// move is said, and moves only when the maker says so.
import assert from 'node:assert/strict';
import { beforeEach, describe, it } from 'node:test';
import { DOC, begin, stateOf } from './keep_browser.mjs';
import { createStore } from '../../web/state/store.js';

const { BUILD, keepOld, keptMarks, marksOf, moves, planAlways, planOf, planned, takeNew, withPlan, withoutPlan }
  = await import('../../web/state/plan.js');
const { keep } = await import('../../web/state/keeper.js');
const { newest } = await import('../../web/state/slots.js');
const { hand } = await import('../../web/state/keep.js');
const { fluteText } = await import('../../web/shelf/files.js');
const { moveWords } = await import('../../web/shelf/moved.js');

const hole = (number, at_mm) => ({ hole: { number, at_mm, diameter_mm: 7 } });
const build = (...log) => ({ ...DOC, log: [{ foot: { at_mm: 400 } }, ...log] });
const notes = [{ open: [], name: 'G4', cents: 0 }, { open: [1], name: 'A4', cents: 2 }];
const answerOf = (doc, places, foot_mm = 380, diameter_mm = 7) => ({ ...doc, foot_mm, notes, binding: [],
  finger_holes: places.map((at_mm) => ({ at_mm, diameter_mm })) });
const doc = build();
const old = { ...marksOf(answerOf(doc, [171.2, 250])), by: 'an older version' };
const now = answerOf(doc, [172, 250]);

beforeEach(begin);

describe('what would move', () => {
  it('is told from a tenth of a millimetre, and from a cent where nothing else moved', () => {
    const found = (answer) => moves(doc, old, marksOf(answer)).map((m) => [m.what, m.number]);
    assert.deepEqual(found(now), [['hole', 1]]);
    assert.deepEqual(found(answerOf(doc, [171.29, 250.09], 380.09, 7.09)), []);
    assert.deepEqual(found(answerOf(doc, [171.2, 249.8], 380.2)), [['hole', 2], ['foot', 0]]);
    assert.deepEqual(found(answerOf(doc, [171.2, 250], 380, 7.2)), [['size', 1], ['size', 2]]);
    const off = (cents) => ({ ...answerOf(doc, [171.2, 250]), notes: [notes[0], { ...notes[1], cents }] });
    assert.deepEqual([found(off(2.9)), found(off(3.1))], [[], [['note', 1]]]);
  });

  it('is nothing for a hole that is cut, and nothing for another plan', () => {
    assert.deepEqual(moves(build(hole(1, 171.4)), old, marksOf(now)), []);
    assert.deepEqual(moves(doc, old, marksOf(answerOf(doc, [172]))), []);
  });

  it('is said in the maker’s unit, from the maker’s datum', () => {
    const engine = { writeLength: (mm, unit) => (unit === 'mm' ? mm.toFixed(1) : `${(mm / 25.4).toFixed(2)}″`) };
    const words = (show) => moves(doc, old, marksOf(now)).map((m) => moveWords(m, { doc: { ...doc, show } }, engine));
    assert.deepEqual(words({ unit: 'mm', datum: 'upstream edge' }), ['hole 1: 171.2 → 172.0 mm']);
    assert.deepEqual(words({ unit: 'mm', datum: 'centre' }), ['hole 1: 168.7 → 169.5 mm']);
    assert.deepEqual(words({ unit: 'inch', datum: 'upstream edge' }), ['hole 1: 6.74″ → 6.77″']);
  });
});

describe('a kept plan', () => {
  it('stands only in a build, only against another version, and only where something moves', () => {
    assert.equal(planOf(old, doc, now)?.marks, old);
    assert.equal(planOf(old, DOC, now), null, 'not a build');
    assert.equal(planOf({ ...old, by: BUILD }, doc, now), null, 'readings move marks of one version');
    assert.equal(planOf(old, doc, answerOf(doc, [171.2, 250])), null);
    const { by: _, ...before } = old;  // kept before versions were named
    assert.notEqual(planOf(before, doc, now), null);
    assert.notEqual(planOf({ ...old, by: BUILD, kept: true }, doc, now), null, 'a choice stays one');
    for (const junk of [null, 3, {}, { foot_mm: 3 }, { foot_mm: 3, finger_holes: [{}] }]) {
      assert.equal(planOf(junk, doc, now), null);
    }
  });

  it('is kept with the flute, and with the version, as long as it stands', () => {
    const kept = () => JSON.parse(newest(hand.id).json).marks;
    keep(stateOf(doc, { answer: now, plan: null }));
    assert.deepEqual([kept().by, kept().finger_holes[0].at_mm], [BUILD, 172]);
    keep(stateOf(doc, { answer: now, plan: planOf(old, doc, now) }));
    assert.deepEqual([kept().by, kept().finger_holes[0].at_mm], ['an older version', 171.2]);
  });

  it('goes with a link or a file and comes back, beside what else lies there', () => {
    for (const x of [undefined, { mine: 1 }]) {
      const with_x = x === undefined ? doc : { ...doc, x };
      const back = withoutPlan(JSON.parse(JSON.stringify(withPlan(with_x, old))));
      assert.deepEqual(back.doc, with_x);
      assert.deepEqual(moves(doc, back.marks, marksOf(now)), moves(doc, old, marksOf(now)));
      assert.equal(back.marks.by, old.by);
    }
    assert.equal(withPlan(DOC, old), DOC, 'only a build has one');
    const file = JSON.parse(fluteText({ doc, good: doc, typed: {}, aside: {}, marks: old }));
    assert.deepEqual(file.x.plan.finger_holes[0], { at_mm: 171.2, diameter_mm: 7 });
    assert.deepEqual(withoutPlan({ ...doc, x: { plan: 'junk' } }), { doc, marks: null });
  });
});

describe('while a plan stands', () => {
  /** The page with a core that reckons `places` for any build. */
  function page(places) {
    const asked = [];
    let after;
    const workshop = { sound: async (flute) => {
      asked.push(flute);
      return { answer: { notes: flute.notes.map((n) => ({ ...n, hz: 400, cents: 7 })) } };
    } };
    const store = createStore(stateOf(doc, { answer: now, plan: planOf(old, doc, now) }));
    planAlways({ store, engine: { workshop: async () => workshop, afterwards: (act) => { after = act; } } });
    return { store, asked, solve: async (d = store.get().doc) => (await after(d, { fingerings: {},
      layout: { answer: answerOf(d, places) } })).layout.answer };
  }

  it('the marks are the old ones, and the notes what those sound', async () => {
    const { store, asked, solve } = page([172, 250]);
    const answer = await solve();
    assert.deepEqual(answer.finger_holes.map((h) => h.at_mm), [171.2, 250]);
    assert.equal(asked[0].finger_holes[0].at_mm, 171.2);
    assert.deepEqual([answer.notes[0].cents, answer.worst_cents], [7, 7]);
    assert.equal(keptMarks(store.get()).finger_holes[0].at_mm, 171.2);
    takeNew(store);
    assert.equal((await solve()).finger_holes[0].at_mm, 172);
    assert.equal(store.get().plan, null);
  });

  it('a choice holds for its log; a new entry asks again, with what would move then', async () => {
    const { store, solve } = page([173, 250]);
    keepOld(store);
    await solve();
    assert.equal(store.get().plan.kept, true);
    store.change((s) => ({ ...s, doc: build(hole(2, 250.3)) }));
    const answer = await solve();
    assert.deepEqual(answer.finger_holes.map((h) => h.at_mm), [171.2, 250]);
    const { plan } = store.get();
    assert.equal(plan.kept, false);
    assert.deepEqual(moves(store.get().doc, plan.marks, plan.now).map((m) => [m.number, m.to]), [[1, 173]]);
  });

  it('another tube or song moves the marks as ever; another flute leaves the plan alone', async () => {
    const { store, solve } = page([172, 250]);
    const other = { ...doc, tube: { ...doc.tube, wall_mm: 4 } };
    assert.equal((await solve(other)).finger_holes[0].at_mm, 172);
    assert.notEqual(store.get().plan, null);
    store.change((s) => ({ ...s, doc: other }));
    assert.equal((await solve()).finger_holes[0].at_mm, 172);
    assert.equal(store.get().plan, null);
  });

  it('the bench’s next hole is where the plan has it', () => {
    const plan = planOf(old, doc, now);
    const next = (step) => planned({ step, expect_cents: 12 }, plan);
    assert.deepEqual(next({ do: 'hole', number: 1, at_mm: 172 }), { step: { do: 'hole', number: 1, at_mm: 171.2 },
      expect_cents: null });
    for (const step of [{ do: 'hole', number: 2, at_mm: 250.05 }, { do: 'foot', at_mm: 390 }, { do: 'read' },
      { do: 'hole', number: 1, at_mm: 172, until: { open: [1], hz: 440 } }]) {
      assert.deepEqual(next(step).step, step);
    }
    assert.equal(planned({ step: { do: 'hole', number: 1, at_mm: 172 } }, null).step.at_mm, 172);
  });
});

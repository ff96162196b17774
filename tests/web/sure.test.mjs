// tests/web/sure.test.mjs -- sentences on how sure the notes are, and bores found in other ways.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { describe, it } from 'node:test';
import { band, causeName, flutesWithin, worthRepeating } from '../../web/text/sure.js';
import { climateSentences } from '../../web/song/air/words.js';
import { parts, thousands, trialSentence } from '../../web/text/trial.js';
import { WAYS, bestWay, foundWords, wayName, wayWorth } from '../../web/text/ways.js';
import { sentence } from '../../web/text/violations.js';
import { unknown } from '../../web/text/known.js';
import { bandOf, strays, trialOf } from '../../web/state/sure.js';
import { BUILDS, startTrial, stopTrial } from '../../web/state/trial.js';
import { meanBore, withBoreAt, withMeanBore, withOutside } from '../../web/state/bore.js';
import { createStore } from '../../web/state/store.js';

const source = (path) => readFileSync(new URL(`../../core/${path}`, import.meta.url), 'utf8');
/** Names that the C++ function `const char* name(TYPE ..)` returns. */
const namesOf = (path, type) => {
  const text = source(path);
  const body = text.slice(text.indexOf(`const char* name(${type} `));
  return [...body.slice(0, body.indexOf('\n}')).matchAll(/return "([a-z_]+)";/g)].map((m) => m[1]);
};

const state = { doc: { show: { unit: 'mm' } } };
const note = (sigma, shop, model) => ({ open: [], name: 'G4', hz: 392, sigma_cents: sigma,
  shop_cents: shop, model_cents: model });

describe('bands', () => {
  it('are whole cents, finer where they are small', () => {
    assert.equal(band(9.2), '± 9 cents');
    assert.equal(band(1.44), '± 1.4 cents');
    assert.equal(band(0.98), '± 1 cent');
    assert.equal(band(null), '');
    assert.equal(parts(note(9.4, 5.2, 7.8)), 'the shop: ± 5, the voice not yet known: ± 8');
    assert.equal(parts({ open: [], hz: null, sigma_cents: null }), '');
  });
});

describe('the measurement worth repeating', () => {
  const causes = namesOf('layout/causes.cpp', 'What');

  it('has words of its own for every cause, the shop’s as something to do', () => {
    assert.ok(causes.length >= 14, String(causes));
    for (const cause of causes) {
      const words = causeName({ cause, hole: 3, of: 'shop', path: '', share: 0, cents: 1 });
      if (cause.includes('_')) assert.notEqual(words, cause.replaceAll('_', ' '));
      assert.doesNotMatch(words, /_|undefined/);
    }
    // The first six groups are the shop's (causes.hpp).
    const model = namesOf('layout/causes.cpp', 'Group').slice(6);
    for (const cause of causes.filter((c) => !model.includes(c))) {
      const text = worthRepeating({ notes: [note(5, 4, 3)],
        worth_repeating: { cause, hole: 3, of: 'shop', path: '', share: 0.36, cents: 3 } });
      assert.match(text, /^(Measure|Mark|Saw|Take|Read) .*(once more|care)( with .*)?: it alone puts/, text);
      assert.doesNotMatch(text, /Measure once more:|_|undefined/);
    }
  });

  it('says what is left: squares of what is independent subtract (JCGM 100:2008, 5.1)', () => {
    // 5^2 in all, 4^2 the shop's; a cause with 0.36 of the whole has 3^2: sqrt(16 - 9) = 2.6 stays.
    const text = worthRepeating({ notes: [note(5, 4, 3)],
      worth_repeating: { cause: 'place', hole: 2, of: 'shop', path: '', share: 0.36, cents: 3 } });
    assert.equal(text, 'Mark hole 2 with the most care: it alone puts the notes off by ± 3 cents. '
      + 'Without that, the shop’s ± 4.0 would be ± 2.6.');
    assert.match(worthRepeating({ notes: [note(3, 0, 3)], worth_repeating: null }), /^Nothing you/);
    assert.equal(worthRepeating({ notes: [], worth_repeating: null }), '');
  });

  it('and how many flutes come out', () => {
    const within = (ten) => ({ 5: 0, 10: ten, 20: 1 });
    assert.equal(flutesWithin(within(0.72)), '7 of 10 flutes made so have every note within 10 cents.');
    assert.equal(flutesWithin(within(0.13)), '1 of 10 flutes made so has every note within 10 cents.');
    assert.match(flutesWithin(within(0.98), within(1)), /^Nearly every flute made so has [^;]*\.$/);
    assert.match(flutesWithin(within(0.01)), /^Hardly a flute/);
    assert.match(flutesWithin(within(0.25), within(0.55)), /^3 of 10.*once the voice is known, 6 of 10\.$/);
    assert.match(flutesWithin(within(0.94)), /^9 of 10/, 'not "10 of 10" while one in twenty fails');
  });
});

describe('rooms', () => {
  const sure = { climate: { cents_10_to_30_c: 34.4, per_c: 1.7 }, at_c: 20 };
  it('say how far the flute moves and what the workshop has to read', () => {
    const text = climateSentences(sure, { air: { room_c: 15 }, song: { play_c: 20 } });
    assert.match(text, /moves by 34 cents between a room of 10 and one of 30 °C, 1\.7 cents for each/);
    assert.match(text, /played in, 20 °C: in the workshop at 15 °C it has to read 8\.5 cents flat/);
    assert.match(climateSentences(sure, { air: { room_c: 20 }, song: {} }), /your workshop, 20 °C\.$/);
    assert.match(climateSentences({ ...sure, at_c: -5 }, { air: { room_c: 5 }, song: { play_c: -5 } }),
      /−5 °C: .* 17 cents sharp/);
    assert.equal(climateSentences({ climate: null }, { song: {} }), '');
  });
});

describe('trial', () => {
  const answer = { notes: [] };
  const done = (more) => ({ of: answer, wanted: BUILDS, running: false, fault: '',
    result: { builds: BUILDS, failed: 0, notes: [], ...more } });

  it('is told in a sentence, stopped or not, agreeing or not', () => {
    assert.match(trialSentence(done(), []), /^The flutes bear out/);
    assert.match(trialSentence(done({ builds: 1200, failed: 3 }), []), /^Stopped after 1,200.* 3 of them/);
    assert.match(trialSentence(done(), ['G4']), /^For G4 the flutes differ by more than a tenth.*first\.$/);
    assert.match(trialSentence({ ...done(), fault: 'x' }, []), /our fault/);
    assert.equal(thousands(10000), '10,000');
    assert.deepEqual([0.89, 0.91, 1, 1.09, 1.11, null, NaN].map((over_linear) => strays({ over_linear })),
      [true, false, false, false, true, false, true]);
  });

  it('goes in pieces that are handed on, to the end', async () => {
    const asked = [];
    const store = createStore({ answer, trial: null });
    await startTrial(store, { builds: async (_of, from, to, _seed, sums) => {
      asked.push([from, to, sums]);
      return { answer: { monte_carlo: { builds: to, failed: 0, notes: [] }, sums: to } };
    } });
    assert.ok(asked.length > 2);
    asked.forEach(([from, to, sums], i) => {
      assert.ok(to > from);
      assert.equal(from, i === 0 ? 0 : asked[i - 1][1], 'each flute once');
      assert.equal(sums, i === 0 ? undefined : from);
    });
    assert.equal(asked.at(-1)[1], BUILDS);
    assert.equal(trialOf(store.get()).running, false);
  });

  it('stops at once and keeps what it has; another flute ends it; a fault is told', async () => {
    const store = createStore({ answer, trial: null });
    let pieces = 0;
    const piece = async (_of, _from, to) => {
      pieces += 1;
      if (pieces === 2) stopTrial(store);
      return { answer: { monte_carlo: { builds: to, failed: 0, notes: [] }, sums: to } };
    };
    await startTrial(store, { builds: piece });
    assert.equal(pieces, 2);
    assert.equal(store.get().trial.running, false);
    assert.ok(store.get().trial.result.builds > 0);
    await startTrial(store, { builds: async () => {
      store.change((s) => ({ ...s, answer: { notes: [] } }));
      return { answer: { monte_carlo: { builds: 50, failed: 0, notes: [] }, sums: 1 } };
    } });
    assert.equal(store.get().trial, null);
    await startTrial(store, { builds: async () => ({ fault: 'lost' }) });
    assert.equal(store.get().trial.fault, 'lost');
    assert.equal(store.get().trial.running, false);
  });

  it('gives the band where it strays, and only there', () => {
    const tried = [{ open: [], sigma_cents: 12, over_linear: 1.2 },
      { open: [5], sigma_cents: 9.1, over_linear: 1.01 }];
    const s = { answer, trial: done({ notes: tried }),
      sure: { notes: [{ open: [], sigma_cents: 10 }, { open: [5], sigma_cents: 9 }] } };
    assert.equal(bandOf(s, []), 12);
    assert.equal(bandOf(s, [5]), 9);
    assert.equal(bandOf({ ...s, trial: { ...s.trial, running: true } }, []), 10);
    assert.equal(bandOf({ ...s, answer: {} }, []), 10, 'a trial of another layout');
    assert.equal(bandOf({ ...s, sure: null, trial: null }, []), null);
  });
});

describe('ways to find the bore', () => {
  it('have words for every way of the core, and the most precise is named', () => {
    const ways = namesOf('layout/bore_ways.cpp', 'BoreWay');
    assert.ok(ways.length >= 5, String(ways));
    for (const way of ways) assert.notEqual(wayName({ way }), way);
    const asked = [.../\{"water_g".*?\}/.exec(source('verbs/bore.cpp'))[0]
      .matchAll(/"([a-z_]+)"/g)].map((m) => m[1]);
    assert.deepEqual(Object.keys(WAYS).sort(), asked.sort());
    assert.equal(bestWay([{ way: 'scale', sigma_mm: 0.02, cents: 0.87, best: true }]),
      'Most precise on this tube: water on a scale of 0.1 g, ± 0.9 cents over all notes.');
    assert.equal(wayWorth({ way: 'scale', sigma_mm: 0.0201, cents: 0.87, step_cents: 0.35 }, state),
      '± 0.02 mm, ± 0.9 cents; 0.1 g is 0.4 cents');
    assert.equal(foundWords({ diameter_mm: 18.0002, sigma_mm: 0.0216 }, state), 'Bore 18.00 mm, ± 0.022 mm');
    assert.match(foundWords({ outer_mm: 24, sigma_mm: 0.1 }, { doc: { show: { unit: 'inch' } } }),
      /^Outside 0\.945 in, ± 0\.0039 in$/);
  });

  it('are refused with a sentence that tells a maker what to do', () => {
    for (const [code, key] of [['too_small', 'amount'], ['too_large', 'amount'],
      ['out_of_order', 'no_go_mm']]) {
      assert.match(sentence({ code, path: `measure.${key}`, value: 2, limit: 3 }, state,
        { writeLength: String }), /Check both\.|thicker one\.$/);
    }
  });

  // Volume of a frustum, h pi/12 (a^2 + ab + b^2) (geometry): the even tube of the same volume.
  it('a mean bore is that of the even tube of the same volume', () => {
    const cone = [{ at_mm: 0, diameter_mm: 18 }, { at_mm: 400, diameter_mm: 16 }];
    assert.ok(Math.abs(meanBore(cone, 400) - Math.sqrt((18 ** 2 + 18 * 16 + 16 ** 2) / 3)) < 1e-9);
    assert.equal(meanBore([{ at_mm: 50, diameter_mm: 17 }], 400), 17);
    assert.ok(Math.abs(meanBore([{ at_mm: 0, diameter_mm: 18, across_mm: 16 }], 300)
      - Math.sqrt(18 * 16)) < 1e-9, 'an ellipse has the area of both axes');
    const half = meanBore([...cone, { at_mm: 800, diameter_mm: 16 }], 800) ** 2;
    assert.ok(Math.abs(half - (meanBore(cone, 400) ** 2 + 16 ** 2) / 2) < 1e-9);
  });

  it('is taken over with its taper kept and its error noted', () => {
    const doc = { tube: { bore: [{ at_mm: 0, diameter_mm: 18 }, { at_mm: 400, diameter_mm: 16 }],
      wall_mm: 3 } };
    const put = withMeanBore(doc, { diameter_mm: 17.5, sigma_mm: 0.0216 }, 400);
    assert.ok(Math.abs(meanBore(put.tube.bore, 400) - 17.5) < 0.001);
    assert.ok(Math.abs(put.tube.bore[0].diameter_mm / put.tube.bore[1].diameter_mm - 18 / 16) < 1e-3);
    assert.equal(put.shop.bore_mm, 0.022);
    const at = withBoreAt(doc, { diameter_mm: 15.75, sigma_mm: 0.144 }, 1);
    assert.deepEqual(at.tube.bore.map((b) => b.diameter_mm), [18, 15.75]);
    assert.deepEqual(withOutside(doc, { outer_mm: 24, sigma_mm: 0.1 }).tube,
      { bore: doc.tube.bore, outer_mm: 24 });
    assert.equal(doc.tube.bore[1].diameter_mm, 16, 'the document before is left alone');
  });
});

describe('what is not known', () => {
  it('is told with the figures of this flute', () => {
    const parted = (voice) => ({ parts: { voice, breath: 4, breath_share: 0, hole_size: 99 } });
    assert.match(unknown({ notes: [parted(3), parted(12)] }), /± 5 to ± 13 cents for it on this flute/);
    assert.doesNotMatch(unknown(null), /Infinity|NaN|this flute/);
  });
});

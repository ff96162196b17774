// tests/web/bench.test.mjs -- the bench's words: every code of the core has a sentence, entries are
// what the document's format wants, and an undo takes with it what cannot stand alone.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { describe, it } from 'node:test';
import { cutEntry, dependents, entriesByEar, entriesOfRescue, readEntry, standing, withLog, without }
  from '../../web/bench/log.js';
import { expectedHz, fingeringWords } from '../../web/bench/notes.js';
import { adviceWords, strokeWords } from '../../web/bench/tell_ear.js';
import { hearWords } from '../../web/ear/tell.js';
import { HELD, WHY_NOT } from '../../web/ear/words.js';
import { entryWords, logSentence, timeWords } from '../../web/bench/tell_log.js';
import { shrunk, toldWords } from '../../web/bench/tell_readings.js';
import { rescueWords } from '../../web/text/rescue.js';
import { amount, bitWords, expectation, standsWords, title, verdictWords } from '../../web/bench/tell_step.js';
import { WIDER, TROUBLE, WHY } from '../../web/bench/words.js';

const source = (path) => readFileSync(new URL(`../../core/${path}`, import.meta.url), 'utf8');
/** Names that the C++ function `const char* name(TYPE ..)` returns. */
const namesOf = (path, type) => {
  const text = source(path);
  const body = text.slice(text.indexOf(`const char* name(${type} `));
  return [...body.slice(0, body.indexOf('\n}')).matchAll(/return "([a-z_]+)";/g)].map((m) => m[1]);
};
const engine = {
  writeLength: (mm, unit) => (unit === 'mm' ? mm.toFixed(1) : `${(mm / 25.4).toFixed(2)}″`),
};
const doc = { format: 'canewright/1', show: { unit: 'mm', fraction: 32, datum: 'centre' },
  tube: { bore: [{ at_mm: 0, diameter_mm: 18 }], end_mm: 420 }, sound_hole: { length_mm: 6, width_mm: 9 },
  song: { lowest: 'G4', scale: 'x', holes: 5 } };
const state = { doc };
const step = (more, rest = {}) => ({ step: more, why: 'x', expect_cents: 14, sigma_cents: 4, overshoot: 0.003,
  notes: [{ open: [], name: 'G4', target_hz: 392, hz: 392, sigma_cents: 6, before_cents: 24, now_cents: -100 },
    { open: [5], name: 'Bb4', target_hz: 466, hz: 466, sigma_cents: 9, before_cents: 24, now_cents: null }],
  readings: [], unknowns: [], ...rest });

describe('codes of the core', () => {
  const all = (path, type, count) => {
    const names = namesOf(path, type);
    assert.ok(names.length >= count, `${type}: ${names.length}`);
    return names;
  };
  it('every reason of a step has a sentence, and none is for nothing', () => {
    assert.deepEqual(Object.keys(WHY).sort(), all('bench/names.cpp', 'Why', 15).sort());
    assert.deepEqual(Object.keys(TROUBLE).sort(),
      all('bench/names.cpp', 'Trouble', 7).filter((n) => n !== 'none').sort());
  });
  it('so has every state of the ear, and every reason of it', () => {
    assert.deepEqual(Object.keys(HELD).sort(), all('listen/held_tone.cpp', 'Held', 6).sort());
    assert.deepEqual(Object.keys(WHY_NOT).sort(), all('listen/pitch_frame.cpp', 'NoTone', 11).sort());
  });
  it('every way out of trouble says what to do', () => {
    for (const what of all('bench/names.cpp', 'Remedy', 13)) {
      const words = rescueWords({ what, reversible: true, number: 3, size_mm: 7, length_mm: 4, target_hz: 392,
        shift_cents: -20, costs_cents: 6 }, state, engine);
      assert.ok(words.how.length > 10 && !words.name.includes('_'), what);
      assert.equal(words.cost, `Lowers it by 20 cents; leaves ${['widen', 'shorten'].includes(what) ? 'it 6 cents flat'
        : 'a note 6 cents sharp'}; can be taken back.`);
    }
  });
  it('every unknown has a name', () => {
    const names = all('bench/names.cpp', 'Unknown', 6);
    const words = toldWords(step({}, { unknowns: names.map((name) => ({ name, mean: 0.02, sigma: 0.01,
      prior_sigma: 0.02, told: true })) }));
    assert.equal(words.length, names.length);
    for (const line of words) assert.doesNotMatch(line, /_/);
  });
  it('no unknown is told by a word and a sign at once, nor nothing by a sign', () => {
    const told = (name, mean, sigma) => toldWords(step({}, { unknowns: [{ name, mean, sigma, prior_sigma: 0.1, told: true }] }))[0];
    assert.equal(told('bore', -0.02, 0.01), 'Bore: acts narrower than measured (2 % ± 1 %).');
    assert.equal(told('drift', -6, 2), 'Your breath: lets the high notes sag (6 ± 2 cents an octave).');
    assert.equal(told('sound_hole', -0.0001, 0.04), 'Sound hole: as reckoned (0 % ± 4 %).');
    assert.equal(told('bore', -0.01, 0.02), 'Bore: as reckoned (−1 % ± 2 %).');
  });
  it('every advice of the strokes is one sentence', () => {
    for (const what of all('bench/names.cpp', 'Stroke', 4)) {
      assert.match(adviceWords({ what, count: 2 }, true), /^[A-Z].*\.$/);
    }
    assert.equal(adviceWords({ what: 'more', count: 2 }, true), 'Two more like that.');
    assert.equal(adviceWords({ what: 'more', count: 1 }, false), 'One stroke.');
  });
});

describe('the step in words', () => {
  it('counts places from the maker’s datum, and names the bit by its label', () => {
    assert.deepEqual(title(step({ do: 'foot', at_mm: 303 }), state, engine),
      { before: 'Saw the foot at', figure: '300.0 mm', after: '' });
    // Before anything was heard there is no sound hole yet, only its line.
    assert.equal(amount(step({ do: 'foot', at_mm: 303 }), state, engine),
      'From the line for the sound hole’s centre; 117.0 mm off.');
    const heard = { doc: { ...doc, log: [{ read: { open: [], hz: 380 } }] } };
    assert.equal(amount(step({ do: 'foot', at_mm: 303 }), heard, engine), 'From the sound hole’s centre; 117.0 mm off.');
    // 0.05 mm are 2.5 cents of a note that a tenth moves by 5: more than nobody hears.
    const notes = [{ open: [5], cents_per_tenth_mm: 5 }];
    const bits = { doc: { ...doc, shop: { bits: [{ mm: 2.778, label: '7/64 in' }] } }, answer: { notes } };
    assert.equal(bitWords(2.778, 5, bits, engine), 'with the 7/64 in bit');
    assert.equal(bitWords(6, 5, bits, engine), '6.0 mm wide');
    assert.equal(bitWords(6.05, 5, bits, engine), '6.05 mm wide');
    assert.equal(bitWords(6.02, 5, bits, engine), '6.0 mm wide');
    const edge = { ...bits, doc: { ...doc, show: { ...doc.show, datum: 'upstream edge', unit: 'inch' } } };
    assert.equal(title(step({ do: 'hole', number: 5, at_mm: 254, diameter_mm: 6 }), edge, engine).figure, '10.00″');
  });
  it('the centre moves when the sound hole has been opened', () => {
    const opened = { doc: { ...doc, log: [{ sound_hole: { length_mm: 8, width_mm: 9 } }] } };
    assert.equal(title(step({ do: 'foot', at_mm: 303 }), opened, engine).figure, '299.0 mm');
  });
  it('says what to expect, with band and risk', () => {
    // 1200 log2(380 / 392) = -53.8 and 1200 log2(455 / 466) = -41.4 cents
    assert.equal(expectation(step({ do: 'foot', at_mm: 1, expect_hz: 380, of: [] })),
      'Then it should sound 380.0 Hz, G4 −54 cents ± 4. Chance of too sharp: under 1 %.');
    assert.equal(expectation(step({ do: 'hole', at_mm: 1, expect_hz: 455, of: [5] }, { overshoot: 0.04 })),
      'Then it should sound 455.0 Hz, B♭4 −41 cents ± 4: the rest by ear. Chance of too sharp: 4 %.');
    assert.equal(expectation(step({ do: 'read', open: [] })),
      'It should sound 370.0 Hz, G4 −100 cents, known to ± 4 cents before you blow.');
    // by ear the panel says what it should be, and what was blown: nothing else beside it
    assert.equal(expectation(step({ do: 'hole', until: { open: [5], hz: 466 } })), '');
  });
  it('says where the flute stands, and how far the finish line is', () => {
    const at = (prospect, more = { do: 'read', open: [] }) => standsWords(step(more, { prospect }));
    const prospect = { within_cents: 6.2, good_enough_cents: 5, chance: 0.5, all_cut: true, steps_left: 6 };
    assert.equal(at(prospect), 'Every note within 7 cents, probably; about 6 more steps for 5.');
    assert.equal(at({ ...prospect, steps_left: 1 }), 'Every note within 7 cents, probably; about one more step for 5.');
    assert.equal(at({ ...prospect, all_cut: false, steps_left: 20 }),
      'About 20 more steps, and then every note within 7 cents, probably.');
    assert.equal(at(prospect, { do: 'done' }), '');
  });
  it('a hole that is only likely to be too wide is not called so', () => {
    const heading = (why, number) => title(step({ do: 'rescue', number }, { why }), state, engine).before;
    assert.equal(heading('too_sharp_hole', 5), 'Hole 5 is cut too far');
    assert.equal(heading('likely_sharp_hole', 5), 'Hole 5 is perhaps cut too far');
    assert.equal(heading('too_sharp_foot', 0), 'The foot is too short');
  });
  it('a rescue says how sure its amount is', () => {
    const words = rescueWords({ what: 'narrow', reversible: true, number: 3, size_mm: 2.5, shift_cents: -38,
      sigma_cents: 6.3, costs_cents: 0 }, state, engine);
    assert.equal(words.cost, 'Lowers it by 38 cents ± 6; can be taken back.');
  });
  it('errors larger than usual are said in words, each kind its own', () => {
    for (const name of namesOf('bench/names.cpp', 'Wider').filter((n) => n !== 'none'))
      assert.match(WIDER[name]('6'), /^[A-Z].*\.$/, name);
  });
  it('a fingering is said as it is held', () => {
    assert.equal(fingeringWords([], 0), 'the tube without holes');
    assert.equal(fingeringWords([], 3), 'all holes covered');
    assert.equal(fingeringWords([5], 1), 'hole 5 open');
    assert.equal(fingeringWords([3, 4, 5], 3), 'holes 3, 4 and 5 open');
  });
  it('what is expected now is the target, off by as much as the note is off', () => {
    assert.ok(Math.abs(expectedHz(step({}), []) - 392 * 2 ** (-100 / 1200)) < 1e-9);
    assert.equal(expectedHz(step({}), [5]), 466);
    assert.equal(expectedHz(step({}), [1, 3]), 0);
  });
  it('a verdict says where, how sure, and whether it is enough', () => {
    assert.equal(verdictWords({ cents: -1.2, sigma_cents: 2.4, within: true }), '1 cent flat, known to ± 2 cents');
    assert.match(verdictWords({ cents: 14, sigma_cents: 3, within: false }), /^14 cents sharp.*beyond what you allow$/);
  });
  it('before and after: the band that shrank most', () => {
    assert.match(shrunk(step({})), /^Nothing has been heard/);
    assert.equal(shrunk(step({}, { readings: [{ entry: 0, trusted: true }] })),
      'One reading has shrunk the band of G4 from ± 24 to ± 6 cents.');
  });
});

describe('what the ear says', () => {
  const hearing = { on: 'on', trouble: '', filtered: false, frame: null, held: null, taken: false };
  it('one thing at a time, the most useful', () => {
    assert.equal(hearWords({ ...hearing, on: 'off', trouble: 'Denied.' }), 'Denied.');
    assert.equal(hearWords({ ...hearing, frame: { why_not: 'silence' }, held: { state: 'no_tone' } }), WHY_NOT.silence);
    assert.equal(hearWords({ ...hearing, held: { state: 'jumped' } }), HELD.jumped);
    assert.equal(hearWords({ ...hearing, held: { state: 'ready' }, taken: true }), 'Got it. Breathe.');
  });
  it('strokes are counted in whole and light ones', () => {
    assert.equal(strokeWords(0, 0.4), 'no stroke');
    assert.equal(strokeWords(2, 0.4), '2 strokes');
    assert.equal(strokeWords(1.4, 0.4), '1 stroke and a light one');
    assert.equal(strokeWords(0.8, 0.4), '2 light strokes');
  });
});

describe('entries of the log', () => {
  it('by measure and by ear, in the document’s own form', () => {
    assert.deepEqual(cutEntry({ do: 'hole', number: 5, at_mm: 300 }, { at_mm: 300.4, diameter_mm: 6.1 }),
      { hole: { number: 5, at_mm: 300.4, diameter_mm: 6.1 } });
    assert.deepEqual(cutEntry({ do: 'foot', at_mm: 390 }, {}), { foot: { at_mm: 390 } });
    assert.deepEqual(cutEntry({ do: 'foot', at_mm: 390 }, { at_mm: 391, error_mm: 1.5 }),
      { foot: { at_mm: 391 }, error_mm: 1.5 });
    const until = { do: 'hole', number: 5, at_mm: 300, until: { open: [5], hz: 466 } };
    // what was blown before the first stroke is told too: one breath blew both
    const heard = { hz: 465.127, sigma_cents: 1.234, first_hz: 458.3, first_sigma_cents: 4 };
    assert.deepEqual(entriesByEar(until, {}, heard, true, 18.5),
      [{ read: { open: [5], hz: 458.3, sigma_cents: 4 }, room_c: 18.5 }, { hole: { number: 5, at_mm: 300 } },
        { read: { open: [5], hz: 465.13, sigma_cents: 1.23 }, room_c: 18.5 }]);
    assert.equal(entriesByEar(until, {}, heard, false, undefined).length, 1);
    assert.deepEqual(readEntry([], { hz: 392, sigma_cents: 0.01 }, undefined).read.sigma_cents, 0.1);
    const under = { do: 'undercut', number: 2, until: { open: [2], hz: 466 } };
    assert.deepEqual(cutEntry(under, {}), { undercut: { number: 2 } });
  });
  it('a rescue amounts to one entry, or to none', () => {
    const stand = standing(doc);
    const of = (what) => entriesOfRescue({ what, number: 3 }, 7, stand);
    assert.deepEqual(of('narrow'), [{ narrow: { number: 3, diameter_mm: 7 } }]);
    assert.deepEqual(of('foot_disc'), [{ foot_plug: { opening_mm: 7 } }]);
    assert.deepEqual(of('shade_sound_hole'), [{ sound_hole: { length_mm: 7, width_mm: 9 } }]);
    assert.deepEqual(of('accept'), []);
  });
  const log = [{ foot: { at_mm: 400 } }, { read: { open: [], hz: 390 } }, { hole: { number: 5, at_mm: 300, diameter_mm: 6 } },
    { read: { open: [5], hz: 460 } }, { hole: { number: 5, at_mm: 300 } }, { hole: { number: 4, at_mm: 260, diameter_mm: 6 } },
    { read: { open: [4, 5], hz: 500 } }, { read: { open: [], hz: 391 } }, { undercut: { number: 5 } }];
  it('taking out the cut that made a hole takes all that rests on that hole', () => {
    assert.deepEqual(dependents(log, 2), [3, 4, 6, 8]);
    assert.deepEqual(dependents(log, 5), [6]);
    assert.deepEqual(dependents(log, 4), [], 'a later opening carries nothing');
    assert.deepEqual(dependents(log, 0), []);
    assert.deepEqual(without(log, [2, ...dependents(log, 2)]).map((e) => Object.keys(e)[0]),
      ['foot', 'read', 'hole', 'read']);
  });
  it('an empty log leaves the document as it was', () => {
    assert.deepEqual(withLog(withLog(doc, log), []), doc);
  });
  it('the tube as the entries leave it', () => {
    const stand = standing(withLog(doc, [...log, { sound_hole: { length_mm: 7, width_mm: 9.5 } }]));
    assert.equal(stand.foot_mm, 400);
    assert.equal(stand.sound_hole.length_mm, 7);
    assert.deepEqual([...stand.holes.keys()], [5, 4]);
    assert.equal(standing(withLog(doc, log), 1).holes.size, 0);
  });
  it('each in words', () => {
    const words = log.map((_, i) => entryWords(log, i, doc, step({}), state, engine));
    assert.equal(words[0], 'Foot cut to 397.0 mm');
    assert.equal(words[1], 'Heard 390.0 Hz: G4, the tube without holes');
    assert.equal(words[2], 'Hole 5 drilled at 297.0 mm, 6.0 mm wide');
    assert.equal(words[4], 'Hole 5 opened a little');
    assert.equal(words[6], 'Heard 500.0 Hz: holes 4 and 5 open');
    assert.equal(words[8], 'Hole 5 undercut');
    const noon = new Date(2026, 5, 1, 12, 0, 0);
    assert.match(timeWords(noon.getTime() / 1000, noon), /12[:.]00/);
    assert.match(timeWords(noon.getTime() / 1000, new Date(2026, 5, 3)), /1.*12[:.]00/);
  });
  it('what cannot be true is told in the maker’s own measures', () => {
    const grown = withLog(doc, [{ hole: { number: 4, at_mm: 310 } }]);
    assert.match(logSentence({ code: 'out_of_order', path: 'log[0].hole.at_mm', value: 310, limit: 300 }, grown, state,
      engine), /^Hole 4 would lie beyond its neighbour at 297\.0 mm/);
    assert.match(logSentence({ code: 'too_small', path: 'log[0].foot.at_mm', value: 200, limit: 300 }, grown, state,
      engine), /297\.0 mm/);
    assert.match(logSentence({ code: 'too_large', path: 'log[0].hole.diameter_mm', value: 30, limit: 18 }, grown, state,
      engine), /at most 18\.0 mm/);
  });
});

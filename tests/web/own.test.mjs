// tests/web/own.test.mjs -- a flute that exists: entries to a document, its song, rows that are pasted; words of a hand.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { DOC, EXAMPLE, begin, named } from './keep_browser.mjs';
import { freshDoc, lastOwn } from '../../web/state/fresh.js';
import { write } from '../../web/state/keeper.js';
import { recounted } from '../../web/shelf/own/recount.js';
import { believed, cutHoles, lineOf, nearestScale, ownDoc, pastedRows, pitches, rootOf, silentDoc, songOf, upwards } from '../../web/shelf/own/own_doc.js';
import { finishedAt, handWords, whyNot } from '../../web/shelf/own/hand.js';
import { wordsOf } from '../../web/shelf/own/own_told.js';

const near = (a, b, within) => assert.ok(Math.abs(a - b) <= within, `${a} is not ${b} within ${within}`);

const OWN = { bore: 18.4, wall: 3.1, length: 5, width: 9.5, room: 21, name: 'Old one',
  holes: [{ at: 150, wide: 7, hz: 700 }, { at: 200, hz: 600 }, { at: 250, wide: 7 }],
  foot: { at: 385, hz: 400 } };

describe('a flute that exists', () => {
  it('becomes a log: foot, holes from the foot up, what was heard', () => {
    const doc = ownDoc(OWN, songOf([400, 500, 600, 700], 'in tune'));
    assert.deepEqual(doc.log.map((entry) => Object.keys(entry)[0]), ['foot', 'hole', 'hole', 'hole', 'read', 'read', 'read']);
    assert.deepEqual(doc.log.slice(1, 4).map((entry) => entry.hole.number), [3, 2, 1]);
    assert.deepEqual(doc.log[2].hole, { number: 2, at_mm: 200 }, 'a width that was not measured is not made up');
    assert.deepEqual(doc.log.slice(4).map(({ read }) => [read.open, read.hz]), [[[], 400], [[2, 3], 600], [[1, 2, 3], 700]]);
    assert.equal(doc.log[4].room_c, 21);
  });

  it('half made: a hole without a place is not cut, and no note is read through it', () => {
    const half = { ...OWN, holes: [{}, { at: 200, wide: 7, hz: 600 }, { at: 250, wide: 7, hz: 500 }] };
    const doc = ownDoc(half, songOf([400, 500, 600, 700], 'in tune'));
    assert.deepEqual(cutHoles(half).map((hole) => hole.number), [2, 3]);
    assert.equal(doc.finger_holes, undefined);
    assert.deepEqual([silentDoc(half).notes, silentDoc(half).finger_holes.length], [[{ open: [] }], 2], 'its lowest note alone');
    assert.equal(doc.log.filter((entry) => entry.read).length, 3);
    assert.deepEqual(pitches(OWN, [1, 2, 3, 4]), [400, 2, 600, 700]);
  });

  it('gives its scale as it is, or put in tune, from any note', () => {
    assert.deepEqual(upwards(3), [[], [3], [2, 3], [1, 2, 3]]);
    // G4 of equal temperament at A4 = 440 is 391.995 Hz, a minor third above it 466.164 (ISO 16)
    const hz = [391.995 * 2 ** (20 / 1200), 466.164 * 2 ** (-10 / 1200), 523.251];
    const tuned = songOf(hz, 'in tune');
    near(tuned.lowest.hz, 391.995, 0.01);
    assert.deepEqual(tuned.scale.cents, [0, 300, 500]);
    const as = songOf(hz, 'as it is');
    near(as.lowest.hz, hz[0], 0.001);
    near(as.scale.cents[1], 270, 0.1);
    near(songOf(hz, 'as it is', 440).lowest.hz, 440, 1e-9);
    assert.deepEqual(songOf(hz, 'as it is', 440).scale, as.scale);
  });

  it('half made is to play the nearest note and scale; upwards while only the foot is cut', () => {
    // ISO 16: A4 is 440 Hz; of equal temperament G4 is 391.995 Hz and A flat 4 415.305 Hz
    near(rootOf(391.995 * 2 ** (-30 / 1200), false), 391.995, 0.001);
    near(rootOf(391.995 * 2 ** (30 / 1200), false), 391.995, 0.001);
    near(rootOf(391.995 * 2 ** (30 / 1200), true), 415.305, 0.001);
    near(rootOf(391.995 * 2 ** (5 / 1200), true), 391.995, 0.001);
    near(rootOf(400, false, 442), 391.995 * 442 / 440, 0.001);
    const scales = [{ name: 'minor', cents: [0, 300, 500, 700, 1000, 1200] }, { name: 'major', cents: [0, 200, 400, 700, 900, 1200] }];
    const up = (...cents) => cents.map((c) => (c === null ? undefined : 392 * 2 ** (c / 1200)));
    assert.equal(nearestScale(scales, up(0, 212, 380)).name, 'major');
    assert.equal(nearestScale(scales, up(0, null, 490)).name, 'minor');
    assert.equal(nearestScale(scales, up(0, null, null, null, null, null, 1395)).name, 'major', 'above the octave too');
    assert.equal(nearestScale(scales, up(0)).name, 'minor', 'where nothing tells the first');
  });

  it('takes rows from a table', () => {
    assert.deepEqual(pastedRows('147.2\t7.4\tG4 -3\n\n200\t\t'), [['147.2', '7.4', 'G4 -3'], ['200', '', '']]);
    assert.deepEqual(pastedRows('147,2; 7,4; 587\n200 7 G4 +2 cents'), [['147,2', '7,4', '587'], ['200', '7', 'G4 +2 cents']]);
    assert.deepEqual(pastedRows('Hole\tWidth\tNote\n1 3/4\t5/16\tG4'), [['1 3/4', '5/16', 'G4']], 'a heading is none');
    assert.deepEqual(pastedRows('1 3/4 5/16 G4 -3'), [['1 3/4', '5/16', 'G4 -3']]);
    assert.deepEqual(pastedRows('11 1/2 0.3 590'), [['11 1/2', '0.3', '590']]);
    assert.deepEqual(pastedRows('\t\t\n\t\t\n250\t7\t523\n'), [['', '', ''], ['', '', ''], ['250', '7', '523']], 'holes that are not cut');
    assert.deepEqual(pastedRows('1\t147.2\t7.4\t789\n2\t167\t7.4\t696'), [['147.2', '7.4', '789'], ['167', '7.4', '696']], 'a column of numbers');
    assert.deepEqual(pastedRows('147.2, 7.4, 789'), [['147.2', '7.4', '789']]);
    assert.equal(pastedRows('147.2\t7.4\t789\tgood')[0].length, 4, 'more than there is room for is not dropped in silence');
  });

  it('keeps each entry at its hole, and the foot’s at the foot, when it has another number of holes', () => {
    const five = { holes: '5', at5: '284', wide5: '7', hz5: '464', at6: '383', hz6: 'G4 -9', bore: '17' };
    const six = recounted(five, 5, 6);
    assert.deepEqual([six.at5, six.at6, six.hz6, six.at7, six.hz7, six.holes], ['284', undefined, undefined, '383', 'G4 -9', '6']);
    const four = recounted(six, 6, 4);
    assert.deepEqual([four.at5, four.hz5, four.wide5, four.at6], ['383', 'G4 -9', undefined, undefined]);
    assert.deepEqual(recounted(four, 4, 5), five);
  });

  it('lets a reading that does not fit decide no scale: what the others say of its note does', () => {
    const note = (open, target_hz, now_cents) => ({ open, target_hz, now_cents });
    const next = { notes: [note([], 400, 0), note([3], 500, -100), note([2, 3], 600, 0)], readings: [{ trusted: true }, { trusted: false }, { trusted: true }] };
    const own = { ...OWN, foot: { at: 400, hz: 400 }, holes: [{}, { at: 200, hz: 600 }, { at: 250, hz: 500 }] };
    const hz = [400, 500, 600, undefined];
    near(believed(hz, next, own)[1], 500 * 2 ** (-100 / 1200), 1e-9);
    assert.deepEqual([believed(hz, next, own)[0], believed(hz, next, own)[2]], [400, 600]);
    assert.equal(believed(hz, { ...next, readings: next.readings.map(() => ({ trusted: true })) }, own), hz);
  });

  it('knows whose line the core refuses', () => {
    const doc = ownDoc(OWN, songOf([400, 500, 600, 700], 'in tune'));
    for (const [path, line] of [['finger_holes[1].diameter_mm', 'wide2'], ['finger_holes[0].at_mm', 'at1'],
      ['log[1].hole.diameter_mm', 'wide3'], ['log[3].hole.at_mm', 'at1'], ['log[0].foot.at_mm', 'at4'], ['tube.end_mm', 'at4'],
      ['log[5].read.hz', 'hz2'], ['tube.bore[0].diameter_mm', 'bore'], ['tube.wall_mm', 'wall'], ['sound_hole.length_mm', 'length'],
      ['sound_hole.width_mm', 'width'], ['air.room_c', 'room'], ['log[4].room_c', 'room'], ['song.scale', '']]) {
      assert.equal(lineOf(path, doc, 3), line, path);
    }
  });

  it('advises no cut for a note whose measurements are doubted, nor for one that was made up', () => {
    const note = (open, now_cents) => ({ open, name: null, now_cents });
    const way = (open) => ({ open, cents: 40, sigma_cents: 4, options: [{ what: 'widen' }] });
    const words = wordsOf({ ways: [way([3]), way([2, 3]), way([1, 2, 3])], unknowns: [],
      notes: [note([], 0), note([3], -40), note([2, 3], 91), note([1, 2, 3], -20)],
      readings: [{ trusted: true }, { trusted: false, off_cents: 40 }, { trusted: true }] },
    { ...OWN, holes: [OWN.holes[0], { at: 200 }, { at: 250, hz: 500 }] }, ({ what }) => ({ name: what, cost: '' }), [false, false, true, false]).join('\n');
    assert.match(words, /Hole 3 does not fit/);
    assert.match(words, /Flat, and can be opened: Hole 1\./);
    assert.doesNotMatch(words, /Sharp|91|Hole 3, 40|Hole 2/);
    assert.equal(words.match(/widen/g).length, 1);
  });

  it('says of its voice, holes and breath what the readings tell, and of what they tell nothing', () => {
    const unknown = (name, mean, told) => ({ name, mean, sigma: 0.01, told });
    const words = wordsOf({ ways: [], notes: [], readings: [{ trusted: true }],
      unknowns: [unknown('sound_hole', 0.02, true), unknown('sound_speed', 0, true), unknown('holes', 0.005, true), unknown('drift', 0, false)] },
    { ...OWN, holes: [{}] }, () => ({}));
    assert.deepEqual(words.slice(0, 3), ['Its voice sounds 2 % longer than measured, give or take 1 %.',
      'Its finger holes act as measured, give or take 1 %.', 'Of its breath these readings say nothing yet.']);
  });

  it('tells no mend of a hole whose width was not measured, nor of a note that nobody blew', () => {
    const words = (hole) => wordsOf({ ways: [{ open: [3], cents: -9.4, sigma_cents: 4.2, options: [{ what: 'widen' }] }], unknowns: [],
      notes: [{ open: [3], name: null, now_cents: -9.4 }], readings: [{ trusted: true }] },
    { ...OWN, foot: { at: 400, hz: 392 }, holes: [{}, {}, hole] }, ({ what }) => ({ name: what, cost: '' })).join('\n');
    assert.match(words({ at: 250, wide: 7, hz: 460 }), /widen/);
    assert.match(words({ at: 250, hz: 460 }), /mend Hole 3 is not told: measure its width first/);
    assert.match(words({ at: 250, wide: 7 }), /blow Hole 3\./);
    for (const hole of [{ at: 250, hz: 460 }, { at: 250, wide: 7 }]) assert.doesNotMatch(words(hole), /widen|Nothing to mend/);
  });

  it('says which reading does not fit, and what can be opened', () => {
    const sized = { ...OWN, holes: OWN.holes.map((hole) => ({ wide: 7, ...hole })) };
    const note = (open, now_cents) => ({ open, name: null, now_cents });
    const words = (trusted) => wordsOf({ ways: [{ open: [2, 3], cents: 9.4, sigma_cents: 4.2, options: [{ what: 'narrow' },
      { what: 'one_side' }, { what: 'accept' }] }, { open: [3], cents: 0, sigma_cents: 4, options: [] }],
    notes: [note([], -12), note([3], 0), note([2, 3], 9)], unknowns: [],
    readings: [{ trusted: true }, { trusted, off_cents: 31.4 }, { trusted: true }] }, sized,
    ({ what }) => ({ name: what, cost: 'Lowers it.' })).join('\n');
    assert.match(words(false), /Hole 2 does not fit the others: what it sounds is 31 cents higher/);
    const fits = words(true);
    assert.match(fits, /Flat, and can be opened: Foot\./);
    assert.match(fits, /Sharp, and nothing comes off again: Hole 2\./);
    assert.match(fits, /Hole 3: in tune, not heard/);
    assert.match(fits, /^Hole 2, 9 ± 4 cents sharp\. narrow\. Lowers it\. Or: one_side\. Lowers it\.$/m);
    assert.equal(fits.match(/±/g).length, 1, 'nothing to mend where it is near enough');
  });
});

it('a hand is said in words', () => {
  const diagonal = (...all) => all.map((value, i) => all.map((_, j) => (i === j ? value * value : 0)));
  const words = handWords({ of: [], flutes: 3, unknowns: ['sound_hole', 'sound_speed', 'holes', 'drift'],
    mean: [0.02, 0.0001, -0.03, 6], between: diagonal(0.01, 0.002, 0.01, 2), covariance: diagonal(0.005, 0.002, 0.01, 1),
    odd: [{ flute: 1, of: 'Two', unknown: 'holes', named: true }, { flute: 2, of: 'Three', unknown: 'drift', named: false }],
    changed: [{ after: 4, unknown: 'drift' }] });
  assert.match(handWords({ of: ['One', 'Two'], unknowns: [], odd: [], changed: [{ after: 1, unknown: 'drift' }] })[0],
    /^From \u2068‘Two’\u2069 on your breath changed/);
  assert.deepEqual(words.slice(0, 4), ['Your voices sound 2 % longer than measured, give or take 1 %.',
    'The air in your flutes is as expected, give or take 0.2 %.',
    'Your finger holes act 3 % narrower than measured, give or take 1 %.',
    'Your breath lifts high notes by 6 cents an octave, give or take 2 cents.']);
  assert.match(words[4], /^Two is unlike the others in its finger holes/);
  assert.match(words[5], /^Three may be unlike the others in its breath\. Measure it again/);
  assert.match(words[6], /From flute 5 on your breath changed/);
  const burn = (mean_mm) => handWords({ of: [], flutes: 1, unknowns: [], mean: [], between: [], covariance: [], odd: [], changed: [],
    burn: { mean_mm, sigma_mm: 0.05, between_mm: 0.12, holes: 5 } });
  assert.deepEqual(burn(0.42), ['Your holes come out 0.4 mm wider than their bit, give or take 0.1 mm.']);
  assert.deepEqual(burn(0.02), ['Your holes come out as wide as their bit, give or take 0.1 mm.']);
});

describe('flutes that teach', () => {
  const flute = (log, begun, id = '') => ({ id, at: 5, kept: { doc: { song: { holes: 2 }, log }, aside: { begun } } });
  const cut = [{ hole: { number: 2 } }, { hole: { number: 1 } }, { read: { open: [], hz: 400 } }];

  it('are ticked where they are the maker’s own and finished; of others it is said why not', () => {
    for (const begun of [undefined, 'empty']) assert.equal(whyNot(flute(cut, begun)), '');
    for (const begun of ['sheet', 'link', 'file']) assert.equal(whyNot(flute(cut, begun)), begun);
    assert.equal(whyNot(flute(cut.slice(1), 'empty')), 'half');
    assert.equal(whyNot(flute([...cut.slice(1), cut[1]], 'empty')), 'half', 'one hole opened twice is one');
  });

  it('come in the order in which they were finished, not looked at', () => {
    assert.equal(finishedAt(flute([{ ...cut[0], at: 1000 }, { ...cut[1], at: 3000 }, cut[2]])), 3000e3);
    assert.equal(finishedAt(flute([{ ...cut[0], at: '2026-03-01T10:00:00Z' }])), Date.UTC(2026, 2, 1, 10));
    assert.equal(finishedAt(flute(cut, 'sheet', `${(1234567890123).toString(36)}abcde`)), 1234567890123);
    assert.equal(finishedAt(flute(cut, 'sheet', '')), 5);
  });
});

describe('the next tube', () => {
  const example = { format: 'canewright/1', show: { unit: 'mm' }, air: { room_c: 19, humidity_percent: 40 },
    song: { lowest: 'G4', scale: 'major', holes: 6 }, shop: { hands: [3, 3], ruler_mm: 0.3, spacing_mm: { min: 20, max: 38 } } };
  const hand = { of: ['a', 'b'], between: [[1]] };
  const mine = { ...example, show: { unit: 'inch', fraction: 32, datum: 'splitting edge' }, air: { room_c: 16, humidity_percent: 40 },
    shop: { hands: [2, 3], bits: [{ mm: 6 }], ruler_mm: 0.3, bore_mm: 0.04, spacing_mm: { min: 20, max: 40 } } };
  const next = (doc, more = {}) => freshDoc({ doc, typed: {}, aside: {}, ...more }, example);

  it('begins with the hand, not with one flute’s pattern or anything of the example', () => {
    assert.deepEqual(next({ ...mine, pattern: hand }).pattern, hand);
    assert.equal(next({ ...mine, pattern: { of: 'a' } }).pattern, undefined);
    assert.equal(freshDoc(null, example).pattern, undefined);
    assert.equal(freshDoc(null, example).shop, undefined);
    assert.equal(next({ ...example, pattern: 'x' }).shop, undefined);
  });

  it('of a flute that came of the example has what is another, or was typed', () => {
    const fresh = next(mine);
    assert.deepEqual([fresh.show, fresh.air], [mine.show, { room_c: 16 }]);
    assert.deepEqual(fresh.shop, { hands: [2, 3], bits: [{ mm: 6 }], spacing_mm: { max: 40 } });
    const typed = Object.fromEntries(['shop.ruler_mm', 'shop.bore_mm', 'shop.spacing_mm.min', 'air.humidity_percent', 'song.lowest']
      .map((path) => [path, { text: '', unit: 'mm', value: 0, problem: null }]));
    const said = next(mine, { typed });
    assert.deepEqual([said.shop, said.air], [mine.shop, mine.air]);
    assert.deepEqual(said.song, { lowest: 'G4', scale: 'minor pentatonic', holes: 5, lift_cents: 5 });
    assert.equal(next({ ...mine, song: { ...mine.song, lift_cents: 12 } }).song.lift_cents, 12);
  });

  it('of a flute that was begun empty has every habit, also those that the example has too; of the tube nothing', () => {
    const fresh = next({ ...mine, shop: { ...mine.shop, hands: [3, 3] } }, { aside: { begun: 'empty' } });
    const { bore_mm: _, ...habits } = mine.shop;
    assert.deepEqual(fresh.shop, { ...habits, hands: [3, 3] });
    assert.deepEqual([fresh.air, fresh.song, fresh.show], [mine.air, { ...mine.song, lift_cents: 5 }, mine.show]);
  });

  it('is begun after my own last flute; after one that a link or a file brought only where there is no other', () => {
    begin();
    const json = (doc, aside) => JSON.stringify({ doc: { ...DOC, ...doc }, good: DOC, typed: {}, aside });
    write('a', 0, json({ name: 'mine' }, { begun: 'empty' }));
    write('b', 0, json({ name: 'a friend’s' }, { begun: 'file' }));
    const state = (doc, aside) => ({ doc, typed: {}, aside, example: JSON.stringify(EXAMPLE) });
    assert.equal(lastOwn(state(EXAMPLE, {})).doc.name, 'mine');
    assert.equal(lastOwn(state(named('linked'), { begun: 'link' })).doc.name, 'mine');
    assert.equal(lastOwn(state(named('in hand'), {})).doc.name, 'in hand');
    for (const key of localStorage.keys().filter((each) => each.includes('/a/'))) localStorage.removeItem(key);
    assert.equal(lastOwn(state(EXAMPLE, {})).doc.name, 'a friend’s');
    assert.equal(lastOwn(state(named('linked'), { begun: 'link' })).doc.name, 'linked');
  });
});

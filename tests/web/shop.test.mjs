// tests/web/shop.test.mjs -- what is said of materials, hands and bits: nothing hot near plastic, nothing poisonous at the
// mouth.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { cautions } from '../../web/text/cautions.js';
import { MATERIALS, POISONS, aboutMaterial, bitName, choiceWords, handHas, handWarning, insteadWords, isPoison, lookForWords, materialOf,
  mendGain, mendName, mendedLimit, verdictWords } from '../../web/suits/words.js';
import { bitsReader } from '../../web/state/bits.js';
import { engine, flute, stateOf } from './paper_flutes.mjs';

/** All that stands below a material on Cane. */
const said = (material) => [...materialOf(material)?.work ?? [], ...(materialOf(material)?.hazards ?? []).map(({ line }) => line),
  ...cautions(material).flatMap(({ lines }) => lines)].join(' ');

describe('what each material asks for', () => {
  it('is found by its name on Cane, and by what is printed on a pipe', () => {
    for (const [name, kind] of [['bamboo', 'bamboo'], ['river cane', 'river cane'], ['reed grass', 'reed grass'], ['wood', 'wood'],
      ['plastic pipe', 'plastic'], ['PVC pipe', 'PVC'], ['CPVC pipe', 'CPVC'], ['', undefined], ['bone', undefined]]) {
      assert.equal(materialOf(name)?.kind, kind);
    }
    assert.equal(aboutMaterial('PVC pipe'), 'Working with PVC pipe');
  });

  it('differs in the work from one to the next, and each has what can hurt', () => {
    const all = MATERIALS.map(({ work }) => work.join(' '));
    assert.equal(new Set(all).size, MATERIALS.length);
    for (const { kind, work, hazards } of MATERIALS) {
      assert.ok(work.length >= 2 && hazards.length >= 1, kind);
      for (const { line, from } of [...hazards, POISONS]) assert.ok(line.length > 20 && /[A-Z].*\d{3}/.test(from), line);
    }
  });

  it('never offers a hot rod for plastic, and forbids the smoke', () => {
    for (const name of ['plastic pipe', 'PVC pipe', 'CPVC pipe', 'ABS pipe', 'acrylic', 'nylon rod', 'HDPE', 'polycarbonate']) {
      assert.match(said(name), /never heat it, burn it or bore it hot/);
      assert.equal(/hydrogen chloride/.test(said(name)), /PVC/.test(name), name);
      assert.match(said(name), /Never burn plastic pipe/);
      const titles = cautions(name).map(({ title }) => title);
      assert.ok(titles.includes('No hot rod') && !titles.includes('Hot rod'), name);
      assert.doesNotMatch(materialOf(name).work.join(' '), /\brod|burn/);
    }
  });

  it('where a rod may be used, says which never, and why, and where', () => {
    for (const name of ['bamboo', 'river cane', 'reed grass', 'wood']) {
      assert.match(said(name), /never galvanised, plated or painted metal/);
      assert.match(said(name), /Zinc fume from a galvanised rod/);
      assert.match(said(name), /outdoors or with extraction/);
    }
  });

  it('says of every plant what is never stock; of every tube whose mouth and ears it is, and who stands by a child', () => {
    for (const name of ['', 'bamboo', 'river cane', 'reed grass', 'wood']) {
      for (const plant of ['elder', 'oleander', 'yew', 'hemlock', 'hogweed', 'treated', 'sprayed', 'unknown']) {
        assert.match(said(name), new RegExp(plant), `${name}: ${plant}`);
      }
    }
    for (const name of ['', ...MATERIALS.map(({ kind }) => kind)]) {
      assert.match(said(name), /a mouthpiece each, or disinfect/);
      assert.match(said(name), /ear plugs/);
      assert.match(said(name), /Children drill and burn only with an adult/);
      assert.match(said(name), /Local rules, and people trained or licensed/);
    }
    for (const plant of ['bamboo', 'river cane', 'reed grass']) assert.match(said(plant), /sharp as a knife/);
  });

  it('warns of a stem that is never stock, and of no other', () => {
    for (const name of ['elder', 'oleander', 'yew', 'water hemlock', 'giant hogweed', 'treated wood']) {
      assert.equal(aboutMaterial(name), `Never a flute of ${name}`);
    }
    for (const name of ['bamboo', 'alder', 'plastic pipe', '', 'untreated bamboo', 'unsprayed reed', 'heat-treated ash', 'heat treated ash']) {
      assert.equal(isPoison(name), false, name);
    }
    for (const name of ['copper pipe', 'bamboo pipe']) assert.equal(materialOf(name)?.kind === 'plastic', false, name);
  });
});

describe('hands', () => {
  it('have their holes, in words', () => {
    const hole = (number, hand) => ({ number, hand });
    assert.equal(handHas([hole(1, 'upper'), hole(2, 'upper'), hole(3, 'lower')]), 'Upper hand: holes 1 and 2; lower hand: hole 3');
    assert.equal(handHas([hole(1, 'upper')]), 'Upper hand: hole 1');
  });

  it('are told what is out of reach, and whose limit that is', () => {
    const state = stateOf(flute());
    assert.equal(handWarning({ code: 'far', holes: [3, 4], mm: 39, limit_mm: 38, own: true }, state, engine),
      'Holes 3 and 4 lie 39.0 mm apart: your limit is 38.0 mm at most.');
    assert.equal(handWarning({ code: 'wide', holes: [2], mm: 11, limit_mm: 10, own: false }, state, engine),
      'Hole 2 is 11.0 mm wide: a grown-up’s hand is at ease with 10.0 mm at most.');
  });
});

describe('bits', () => {
  it('are asked for by their own names', () => {
    assert.equal(bitName({ mm: 6.5 }), '6.5 mm');
    assert.equal(bitName({ mm: 6.746875, label: '17/64 in' }), '17/64 in');
    assert.equal(bitName({ mm: 6.5278, label: 'F' }), 'F (6.53 mm)');
    assert.equal(bitName({ mm: 4.9149, label: '#10' }), '#10 (4.91 mm)');
  });

  it('that are on the bench may be typed by name, and typed again once they are taken out', () => {
    let owned = [{ mm: 4.9149, label: '#10' }, { mm: 6.4, label: '6 mm rod' }];
    const own = { readLength: (text) => (/^[\d.]+$/.test(text) ? { mm: Number(text) } : { violations: [{ code: 'not_a_length', path: '' }] }) };
    const read = bitsReader(own, () => owned);
    assert.deepEqual(read('#10, 6 mm rod, 8', 'mm').value, [...owned, { mm: 8 }]);
    owned = [{ mm: 8 }];
    assert.deepEqual(read('6 mm rod, 8', 'mm').value, [{ mm: 6.4, label: '6 mm rod' }, { mm: 8 }]);
    assert.equal(read('#11, 8', 'mm').problem.code, 'not_a_bit');
  });
});

describe('a tube that is not worth the work', () => {
  it('is called so, with what it could become', () => {
    const answer = { choices: [], worth: false, carries: 0, reaches: { hz: 984, lowest: 'B5' }, refused: [], wish: null, look_for: null,
      not_tried: 0, without_shop: false };
    const limits = { lowest: 'B5', holes: 5, code: 'limits', value: 20, limit: 10 };
    assert.match(verdictWords({ ...answer, not_tried: 90 }), /^Not worth the work.*no note from there up is eight bores long/);
    assert.match(verdictWords({ ...answer, refused: [limits] }), /none of the 1 tried can be laid out\.$/);
    assert.match(verdictWords({ ...answer, refused: [limits], not_tried: 3 }), /shorter than eight bores was not tried\.$/);
    const hands = verdictWords({ ...answer, refused: [limits], without_shop: true });
    assert.match(hands, /^Not with your bits and hands.*It is not the tube/);
    assert.doesNotMatch(hands, /worth the work/);
    const poor = verdictWords({ ...answer, choices: [{}], carries: 3, refused: [limits] });
    assert.match(poor, /^It carries 3 of 4 tried\. None is good.*hardly worth the work/);
    assert.doesNotMatch(verdictWords({ ...answer, choices: [{}], carries: 3, without_shop: true }), /another tube/);
    const none = { hz: 984, name: 'B5', second_hz: 1900, bores: 5 };
    assert.match(insteadWords({ fewer_holes: null, fewer_tried: true, no_holes: none }), /Nor is it better with three holes or two\. Without holes it sounds near B5, and overblows/);
    assert.match(insteadWords({ fewer_holes: null, fewer_tried: false, no_holes: none }), /nothing was tried/);
    assert.match(insteadWords({ fewer_tried: true, fewer_holes: { lowest: 'C5', scale: 'minor pentatonic', holes: 3, score: 60, foot_mm: 200 }, no_holes: none }),
      /could become: C5, minor pentatonic, three holes\./);
  });
});

describe('what a tube can be', () => {
  const state = stateOf(flute());
  const reason = (code, value, limit, ok = false) => ({ code, value, limit, ok });
  const words = (score, ...reasons) => choiceWords({ lowest: 'G4', scale: 'major', holes: 6, score, reasons,
    layout: { foot_mm: 389.9, finger_holes: [], worst_cents: 0 } }, state, engine);

  it('is told with its figures, also where nothing speaks against it', () => {
    const good = words(100, reason('length_to_bore', 20.04, 28, true), reason('stretch', 24.6, 35, true), reason('largest_hole', 7.3, 10, true),
      reason('breath', 118.4, 40, true));
    assert.equal(good, 'Very good. 389.9 mm from sound hole to foot, 20 bores, fingers at most 24.6 mm apart, holes to 7.3 mm and a breath near 118 Pa.');
  });

  it('says on which side of its limit a number is, however near', () => {
    assert.match(words(60, reason('length_to_bore', 12.996, 13)), /short for its bore \(13 bores long\): a weak lowest note/);
    assert.match(words(60, reason('length_to_bore', 28.01, 28)), /long for its bore \(28 bores\): it jumps/);
    assert.match(words(60, reason('octave_strength', 0.947, 0.95)), /a thin upper register/);
    assert.match(words(60, reason('octave_strength', 1.354, 1.35)), /comes too readily/);
    assert.match(words(60, reason('breath', 400.4, 400)), /a hard breath \(about 400 Pa\)/);
    assert.match(words(60, reason('breath', 39.7, 40)), /a very gentle breath \(about 40 Pa\)/);
    assert.match(words(60, reason('crowded', 16.98, 17)), /fingers only 17\.0 mm apart\./);
    assert.match(words(60, reason('crowded', 15.2, 17)), /only 15\.2 mm apart \(17\.0 mm is easy\)/);
  });

  it('is called poor with its reasons, fair in spite of them', () => {
    assert.match(words(30, reason('evenness', 2.1, 1.4)), /^Poor: holes of uneven sizes \(the widest 2\.1 times the narrowest\)\./);
    assert.match(words(60, reason('bits', 5, 3)), /^Fair, but 5 different bits \(3 are soon changed\)\./);
  });

  it('names the limit that a change moves, and what it gains', () => {
    const bound = { ...state, answer: { ...state.answer, binding: [
      { constraint: 'spacing_max', path: 'finger_holes[2].at_mm', costs_cents: 4 }, { constraint: 'spacing_max', path: 'finger_holes[3].at_mm', costs_cents: 12 }] } };
    const mend = { code: 'wider_spacing', set: [], amount_mm: 27, worst_cents: 3, gains_cents: 9, in_tune: true };
    assert.match(mendedLimit(mend, bound, engine), /^Hole 4 .*12 cents/);
    assert.equal(mendedLimit({ ...mend, code: 'higher_lowest' }, bound, engine), '');
    assert.equal(mendName(mend, state, engine), 'Let fingers lie 27.0 mm apart');
    assert.equal(mendGain(mend), 'all in tune, 3 cents at most');
    assert.equal(mendGain({ ...mend, in_tune: false, worst_cents: 20 }), '9 cents better, 20 still off');
  });

  it('names a tube to look for, and whether the hands are heeded in it', () => {
    const look = { lowest_hz: 392, carries: true, bore_mm: { min: 14, max: 25 }, length_mm: { min: 407, max: 430 }, wall_mm: { min: 1.6, max: 4 }, above_mm: 26 };
    assert.match(lookForWords(look, state, engine), /^For the song on Song, with your bits and hands.*bore of 14\.0 to 25\.0 mm/);
    assert.match(lookForWords({ ...look, carries: false }, state, engine), /^No tube that was tried carries/);
  });
});

// tests/web/shop.test.mjs -- what is said of materials, hands and bits: nothing hot near plastic, nothing poisonous at the
// mouth.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { cautions } from '../../web/text/cautions.js';
import { MATERIALS, POISONS, aboutMaterial, bitName, handHas, handWarning, insteadWords, isPoison, materialOf,
  verdictWords } from '../../web/suits/words.js';
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
      for (const { line, from } of [...hazards, POISONS]) assert.ok(line.length > 20 && /[A-Z]{3}/.test(from), line);
    }
  });

  it('never offers a hot rod for plastic, and forbids the smoke', () => {
    for (const name of ['plastic pipe', 'PVC pipe', 'CPVC pipe', 'ABS pipe']) {
      assert.match(said(name), /hydrogen chloride.*never heat it, burn it or bore it hot/);
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
    for (const name of ['bamboo', 'alder', 'plastic pipe', '']) assert.equal(isPoison(name), false, name);
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
    const answer = { choices: [], worth: false, carries: 0, reaches: { hz: 984, lowest: 'B5' }, refused: [], wish: null, look_for: null };
    assert.match(verdictWords(answer), /^Not worth the work/);
    const [short, limits] = ['too_short', 'limits'].map((code) => ({ lowest: 'B5', holes: 5, code, value: 1, limit: 8 }));
    assert.match(verdictWords({ ...answer, refused: [short, short] }), /too short for its bore: no note from there up is eight bores long/);
    assert.match(verdictWords({ ...answer, refused: [short, limits] }), /no lowest note that is at least eight bores long carries a scale/);
    assert.match(verdictWords({ ...answer, refused: [limits] }), /no lowest note up to two octaves above carries a scale/);
    const none = { hz: 984, name: 'B5', second_hz: 1900, bores: 5 };
    assert.match(insteadWords({ fewer_holes: null, no_holes: none }), /three holes or two\. Without holes it sounds near B5, and overblows/);
    assert.match(insteadWords({ fewer_holes: { lowest: 'C5', scale: 'minor pentatonic', holes: 3, score: 60, foot_mm: 200 }, no_holes: none }),
      /could become: C5, minor pentatonic, three holes\./);
  });
});

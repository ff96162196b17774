// tests/web/words.test.mjs -- every code that the core can send has words of its own on the page.
import assert from 'node:assert/strict';
import { readFileSync, readdirSync } from 'node:fs';
import { describe, it } from 'node:test';
import { sentence } from '../../web/text/violations.js';
import { bindingShort, holeOf } from '../../web/text/bindings.js';
import { bindingSentence } from '../../web/text/limits.js';
import { warning } from '../../web/text/verdict.js';
import { cautions } from '../../web/text/cautions.js';
import { linkSentence } from '../../web/shelf/words.js';
import { centsWords, noteName, offWords, signed } from '../../web/text/numbers.js';

globalThis.document ??= { addEventListener() {} };
const { pitchWords } = await import('../../web/bench/typed_line.js');

const core = new URL('../../core/', import.meta.url);
const source = (path) => readFileSync(new URL(path, core), 'utf8');

/** Names that a C++ function returns, from its `name(..)` switch. */
const returned = (text) => [...text.matchAll(/return "([a-z_]+)";/g)].map((m) => m[1]);

const engine = { writeLength: (mm, unit) => (unit === 'inch' ? `${mm / 25.4}″` : mm.toFixed(1)) };
const state = { doc: { show: { unit: 'mm', fraction: 32 } },
  answer: { shop: { spacing_mm: { min: 18, max: 36 }, diameter_mm: { min: 3, max: 9 } } } };

describe('sentences', () => {
  const codes = returned(source('base/violation.cpp'));

  it('for every violation code, none of them the last resort', () => {
    assert.ok(codes.length >= 15);
    const lastResort = sentence({ code: 'no_such_code', path: 'tube.wall_mm' }, state, engine);
    assert.match(lastResort, /not work here: no such code/);
    // Those of links, and of pitches, come only where those are, and their words with them.
    const ofLinks = codes.filter((code) => /link/.test(code));
    const said = ofLinks.map((code) => linkSentence({ violations: [{ code, path: 'link' }] }));
    assert.ok(ofLinks.length >= 5 && new Set(said).size === said.length);
    for (const text of said) assert.doesNotMatch(text, /a figure in it cannot be/, text);
    const ofPitches = ['not_a_pitch', 'second_register', 'octave_below'];
    assert.equal(new Set(ofPitches.map((code) => pitchWords({ code, path: 'x' }, '7'))).size, 3);
    for (const code of codes.filter((each) => ![...ofLinks, ...ofPitches].includes(each))) {
      const text = sentence({ code, path: 'tube.wall_mm', value: 3, limit: 2 }, state, engine);
      assert.doesNotMatch(text, /not work here:/, text);
      assert.match(text, /^[A-Z0-9“].*\.$/, text);
      assert.match(sentence({ code, path: 'x', value: null, limit: null }, state, engine), /^[A-Z]/);
    }
  });

  it('say the limit in the maker’s unit', () => {
    const small = { code: 'too_small', path: 'tube.wall_mm', value: -1, limit: 0.3 };
    assert.equal(sentence(small, state, engine), '-1.0 mm is too small; it takes at least 0.3 mm.'
      .replace('-', '−'));
    assert.match(sentence({ code: 'too_large', path: 'song.a4_hz', value: 900, limit: 600 }, state,
      engine), /900 Hz.*600 Hz/);
    assert.match(sentence({ code: 'too_large', path: 'air.room_c', value: 90, limit: 50 }, state,
      engine), /90 °C.*50 °C/);
  });

  it('for every limit of the layout', () => {
    const limits = returned(readdirSync(new URL('layout/', core)).filter((f) => f.endsWith('.cpp'))
      .map((f) => source(`layout/${f}`)).find((text) => text.includes('"spacing_min"')));
    assert.ok(limits.length >= 10);
    for (const constraint of limits) {
      for (const path of ['finger_holes[2].at_mm', 'foot_mm']) {
        const binding = { constraint, path, costs_cents: 4 };
        const text = bindingSentence(binding, state, engine);
        // No limit is to blame where the fingerings are: there is nothing to be saved.
        assert.match(text, constraint === 'fingerings' ? /cannot give these notes on this tube\.$/ : /: costs 4 cents\.$/);
        assert.doesNotMatch(text, /held by (?!w)|undefined|_/, text);
        assert.doesNotMatch(bindingShort(binding), /undefined|_/);
      }
    }
    assert.equal(holeOf('finger_holes[2].at_mm'), 3);
    assert.equal(holeOf('foot_mm'), 0);
  });

  it('for every warning about the tube', () => {
    const codes = [...source('verbs/layout_cane.cpp').matchAll(/"([a-z]+(?:_[a-z]+)+)"\);/g)]
      .map((m) => m[1]).filter((code) => source('verbs/layout_cane.cpp').includes(`warn(`)
        && !code.endsWith('_hz'));
    assert.ok(codes.length >= 5, String(codes));
    for (const code of codes) assert.doesNotMatch(warning(code), /^Take care: /, code);
    assert.match(warning('no_such_code'), /^Take care: no such code/);
  });
});

describe('cautions', () => {
  const text = (material) => JSON.stringify(cautions(material));

  it('fit the material', () => {
    assert.match(text('plastic pipe'), /Never burn plastic/);
    assert.doesNotMatch(text('plastic pipe'), /oleander/);
    for (const material of ['bamboo', 'river cane', 'wood', '', 'something else']) {
      for (const word of [/[Cc]lamp/, /[Dd]ust mask/, /eye protection/, /oleander/, /galvanised/,
        /gloves/, /water at hand/, /Never burn plastic pipe/, /only with an adult/, /Local rules/]) {
        assert.match(text(material), word, material);
      }
    }
  });
});

describe('numbers in words', () => {
  it('tell flat from sharp by word and sign', () => {
    assert.equal(offWords(0.3), 'in tune');
    assert.equal(offWords(-0.3), 'in tune');
    assert.equal(offWords(4.2), '4 sharp');
    assert.equal(offWords(-12.4), '12 flat');
    assert.equal(signed(0.04), '0');
    assert.equal(signed(-9.96), '−10');
    assert.equal(centsWords(1), '1 cent');
    assert.equal(centsWords(2.44), '2.4 cents');
    assert.equal(noteName('Bb4'), 'B♭4');
    assert.equal(noteName('b4'), 'b4');
    assert.equal(noteName(null), '');
  });
});

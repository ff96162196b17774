// tests/web/voice.test.mjs -- the voice's words: every code of the core has some; and the section's geometry.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { describe, it } from 'node:test';
import fc from 'fast-check';
import { picked } from '../../web/voice/cut/cut.js';
import { cause } from '../../web/voice/making/faults.js';
import { partWorth, slideWords } from '../../web/voice/cut/words.js';
import { CAUSES, SYMPTOMS } from '../../web/voice/making/words.js';
import { calibrationWords, endsWords, noMap, noteWhy, octaveWords, octavesClean } from '../../web/voice/breath/words.js';
import { ADVICE, adviceWords, RULES, partName, proposalWords, sizeWords, breathWanted, shapeWords } from '../../web/voice/words.js';
import { sectionOf, spaced } from '../../web/widgets/section.js';
import { withValue } from '../../web/state/path.js';

const source = (path) => readFileSync(new URL(`../../core/${path}`, import.meta.url), 'utf8');
const engine = { writeLength: (mm, unit) => (unit === 'mm' ? mm.toFixed(1) : `${(mm / 25.4).toFixed(2)}″`) };
const state = { doc: { show: { unit: 'mm', fraction: 32 } } };
const inches = { doc: { show: { unit: 'inch', fraction: 32 } } };

const DOC = { tube: { bore: [{ at_mm: 0, diameter_mm: 18 }], wall_mm: 3, end_mm: 430, above_mm: 160 },
  plug: { offset_mm: 0.5, thickness_mm: 9 }, sound_hole: { length_mm: 5, width_mm: 10, ramp_mm: 9, edge_mm: 0.4 },
  block: { height_mm: 6, front_mm: 0.5, side_walls: { height_mm: 2, thickness_mm: 2 } },
  track: { depth_mm: 0.8, width_mm: 10, length_mm: 14 }, chamber: { length_mm: 100, air_hole_mm: 8 }, song: {} };
const JET = { flow_ml_s: 137.5, seconds: 21.8, jet_m_s: 19.6, reynolds: 1252, ratio: 5, pa: 237, water_mm: 24.17, band: 'good', why: null };
const note = (pa, more = {}) => ({ open: [], register: 1, hz: 392, pa: { soft: 77, at_pitch: pa, hard: 816 },
  water_mm: { soft: 77 / 9.80665, at_pitch: pa / 9.80665, hard: 816 / 9.80665 },
  jumps_up_pa: 816, pa_factor: 1.4, ...more });
const answer = (more = {}) => ({ voice: JET, missing: [], notes: [note(237), note(610, { open: [1] })],
  calibrated: null, as_cut: { lowest_cents: -12, sigma_cents: 9, parts: [] }, proposed: [], advice: [], faults: [], ...more });
const part = (path, known, mm = 2, slope = 3) => ({ path, mm, known, cents_per_mm: slope });

describe('codes of the core', () => {
  const data = source('verbs/voice/voice_faults.cpp');
  const lists = data.slice(data.indexOf('kFaults = {'));
  it('every symptom and every cause has words, and none is for nothing', () => {
    const symptoms = [...lists.matchAll(/\{"([a-z_]+)",\n/g)].map((m) => m[1]);
    const causes = [...lists.matchAll(/\{"([a-z_]+)", k/g)].map((m) => m[1]);
    assert.ok(symptoms.length >= 8 && causes.length >= 60, `${symptoms.length}, ${causes.length}`);
    assert.deepEqual(Object.keys(SYMPTOMS).sort(), symptoms.sort());
    assert.deepEqual(Object.keys(CAUSES).sort(), [...new Set(causes)].sort());
    for (const [what, test, act] of Object.values(CAUSES)) assert.ok(what.length > 8 && test.length > 8 && act.length > 8);
  });

  it('what takes material away says what not to cut yet', () => {
    for (const [, code] of lists.matchAll(/\{"([a-z_]+)", kCuts/g)) {
      if (!['track_shallow'].includes(code)) assert.ok(CAUSES[code][3]?.length > 8, code);
    }
  });

  it('every number that advice is given by, or a fault hangs on, has a sentence', () => {
    const numbers = source('verbs/voice/voice_parts.hpp').match(/enum class VoiceNumber \{([^}]*)\}/)[1]
      .split(',').map((each) => each.trim()).filter((each) => each !== 'none');
    assert.deepEqual(Object.keys(ADVICE).sort(), numbers.sort());
    for (const code of numbers) {
      const words = adviceWords({ code, path: 'track.depth_mm', value: 2, limit: 3 }, state, engine);
      assert.match(words, /^[A-Z].*\.$/, code);
      assert.doesNotMatch(words, /undefined|_/, code);
    }
    const far = { code: 'octave_off', path: 'notes', value: 41, limit: 30 };
    const sung = { ...state, answer: { ...state.answer, notes: [{ open: [1], name: 'A4' }] } };
    assert.match(adviceWords({ ...far, open: [1] }, sung, engine), /^The octave of A4 comes 41 cents off/);
    assert.match(adviceWords({ ...far, open: [2, 1] }, sung, engine), /^The octave of 2, 1 open comes/);
    for (const [, code, number] of lists.matchAll(/\{"([a-z_]+)", k[A-Z]\w+, [\d.]+, Number::(\w+)\}/g)) {
      const symptom = number === 'track_shallow' ? 'chokes_wet' : 'hisses_only';
      const out = { path: 'block.front_mm', value: 2, limit: 3, out: true };
      const { figure } = cause(symptom, { code, number: out }, state, engine);
      assert.equal(figure, adviceWords({ code: number, ...out }, state, engine), code);
    }
  });

  it('every rule of a proposal has words', () => {
    const text = source('verbs/voice/voice_proposals.cpp');
    const named = [...text.matchAll(/"([a-z0-9]+(?:_[a-z0-9]+)+)"/g)].map((m) => m[1]);
    assert.deepEqual(Object.keys(RULES).sort(), [...new Set(named)].sort());
  });

  it('and every reason why a voice is out, or a note does not sound', () => {
    for (const code of ['reynolds', 'short_window', 'long_window', 'fast_jet', 'no_resonance']) {
      const out = { ...JET, flow_ml_s: null, seconds: null, pa: null, band: 'out', flow_range_ml_s: [2, 9], flow_range_pa: [100, 1000],
        why: { code, value: 12.34, limit: 40 } };
      assert.match(noMap(answer({ voice: out })), /no breath is foretold.*\(100 to 1000 Pa\) 2 to 9 ml a second/);
    }
    const said = ['no_resonance', 'hole_not_cut', 'not_converged', 'no_gain', 'never_holds'].map((code) =>
      noteWhy({ code, value: null, limit: null }));
    assert.equal(new Set(said).size, said.length);
  });
});

describe('sentences', () => {
  it('the breath in words, in both units, and how long it lasts', () => {
    assert.equal(breathWanted(answer()), 'This voice wants an easy breath, as to cool soup: 240 Pa (24 mm of water) at the '
      + 'lowest note, 610 Pa (62 mm of water) at its highest. It takes about 140 ml a second; a breath lasts 22 seconds.');
    assert.match(breathWanted(answer({ voice: null, with_proposed: JET, missing: ['track.depth_mm'] })),
      /^With the sizes proposed below this voice would want/);
    assert.match(breathWanted(answer({ voice: null, with_proposed: null, missing: ['track.depth_mm'] })),
      /needs: depth of the track\.$/);
  });

  it('where the pitch comes from, and what is not known', () => {
    const cut = (...parts) => ({ lowest_cents: -12, sigma_cents: 9, parts });
    assert.equal(shapeWords(cut(part('block.side_walls.height_mm', 'taken'), part('sound_hole.wall_mm', 'taken'))),
      'As it is cut, the lowest note sounds about 12 cents flatter than over a bare opening; not knowing the side walls '
      + 'leaves it ± 9 cents.');
    assert.match(shapeWords(cut(part('sound_hole.ramp_mm', 'seen'))), /not having measured the ramp leaves/);
    assert.match(shapeWords(cut(part('sound_hole.ramp_mm', 'measured'))), /All of it is measured/);
    assert.match(shapeWords({ lowest_cents: -12, sigma_cents: null, sigma_why: 'heard', parts: [] }),
      /flatter than over a bare opening\. It has been heard: the Bench says/);
    assert.match(shapeWords({ lowest_cents: 0.1, sigma_cents: 3, parts: [] }), /as high as over a bare opening/);
  });

  it('what passes a track as thin as paper, with the gap under the block and without', () => {
    const out = { ...JET, flow_ml_s: null, seconds: null, pa: null, band: 'out', why: { code: 'reynolds', value: 30, limit: 1600 },
      flow_range_pa: [100, 1000], flow_range_ml_s: [1.8, 14], flow_sealed_ml_s: [0.23, 2.3] };
    const said = (gap) => breathWanted(answer({ voice: { ...out, flow_gap_from: gap } }));
    assert.match(said('proposed'), /1\.8 to 14 ml a second pass the track and the gap under the block that is proposed, by friction alone; without the gap 0\.23 to 2\.3\.$/);
    assert.match(said('given'), /pass the track and the gap under the block, by friction alone; without the gap/);
    assert.match(said('none'), /pass the track, by friction alone\.$/);
  });

  it('what a step of the maker’s ruler does', () => {
    assert.equal(partWorth(part('block.height_mm', 'measured', 6, -0.5), undefined, state, engine), '1 mm more: 0.5 cents flatter.');
    assert.equal(partWorth(part('block.front_mm', 'taken', 0, 10), undefined, inches, engine),
      'Reckoned as flush. 1/32 in more: 7.9 cents sharper.');
    const one = { path: 'block.height_mm', mm: 6, rule: 'sound_hole_and_a_bit', of: [{ path: 'sound_hole.length_mm', mm: 5 }] };
    assert.match(partWorth(part('block.height_mm', 'taken', 6), one, state, engine), /^Reckoned as 6.0 mm: a little more/);
    assert.equal(slideWords({ back_1_mm_cents: 5.6, over_1_mm_cents: -10.2 }, state), 'Sliding the block tunes, and can be '
      + 'undone: 1 mm back is 5.6 cents sharper, 1 mm over the hole is 10 cents flatter.');
    assert.equal(proposalWords(one, false, state, engine),
      'Proposed 6.0 mm: a little more than the sound hole’s length (length of the sound hole 5.0 mm).');
    assert.equal(sizeWords('track.depth_mm', 0.683, state, engine), '0.68 mm');
    assert.equal(partName('block.side_walls.height_mm'), 'Height of the side walls');
  });

  it('where a note jumps up and falls back', () => {
    const second = (back, more = {}) => ({ ...note(930), register: 2, falls_back_pa: back, ...more });
    assert.equal(endsWords(note(237), second(302)), 'Jumps up at 820 Pa, falls back below 300 Pa.');
    const endless = note(237, { jumps_up_pa: null, pa: { soft: 77, at_pitch: 237, hard: null } });
    assert.equal(endsWords(endless, second(302)), 'Its octave falls back below 300 Pa.');
    assert.equal(endsWords(endless, undefined), '');
    assert.equal(endsWords(note(237, { jumps_up_pa: null }), second(302)),
      'Breaks off above 820 Pa; its octave falls back below 300 Pa.');
    assert.equal(endsWords(note(237), second(2046)), 'Jumps up at 820 Pa, falls back below 2000 Pa; between the two it warbles.');
    assert.equal(endsWords(note(237), second(null, { null_why: { falls_back_pa: 'falls_silent' } })),
      'Jumps up at 820 Pa; its octave, blown softer, falls silent.');
  });

  it('a note that is not to be had in tune', () => {
    const kept = (by, more = {}) => note(1300, { pitch_kept_by: by, ...more });
    assert.equal(endsWords(kept('dies_before', { jumps_up_pa: null }), undefined),
      'Breaks off above 820 Pa, before it is in tune, at 1300 Pa.');
    assert.equal(endsWords(kept('jumps_before'), undefined), 'Jumps up at 820 Pa before it is in tune, at 1300 Pa.');
    assert.equal(endsWords(kept('begins_above', { jumps_up_pa: null, pa: { soft: 1500, at_pitch: 1300, hard: null } }), undefined),
      'Does not hold below 1500 Pa: in tune it would be at 1300 Pa.');
  });

  it('whether an octave is clean', () => {
    const second = (octave) => ({ ...note(930), register: 2, octave });
    assert.equal(octaveWords(second({ there: true, clean: true, why: null })), 'clean');
    assert.equal(octaveWords(second({ there: true, clean: false, why: { code: 'weak', value: 1.6, limit: 2 } })), 'weak');
    assert.equal(octaveWords(second({ there: true, clean: null, why: { code: 'fast_jet', value: 80, limit: 70 } })), 'not foretold');
    const of = (name, clean, code) => ({ name, second: second({ there: true, clean, why: code ? { code, value: 1, limit: 2 } : null }) });
    assert.equal(octavesClean([of('G4', true), of('A4', true), of('C5', false, 'weak')]), 'Clean: G4, A4. Not clean: C5 (weak).');
    // a hole that is not cut yet has no octave to judge
    assert.equal(octavesClean([of('G4', null, 'fast_jet'), of('A4', null, 'hole_not_cut')]),
      'Whether that of G4 is clean cannot be foretold.');
    // each flaw that the core names has words of its own
    const flaws = [...source('verbs/voice/voice_octave.cpp').matchAll(/return "([a-z_]+)";/g)].map((m) => m[1])
      .filter((code) => code !== 'beyond_the_model');
    assert.ok(flaws.length >= 8);
    const said = flaws.map((code) => octaveWords(second({ there: true, clean: false, why: { code, value: 1, limit: 2 } })));
    assert.ok(!said.includes('not foretold'));
    assert.equal(new Set(said).size, new Set(flaws).size);
  });

  it('how far a pressure may be off', () => {
    assert.match(calibrationWords(answer()), /^Not calibrated: each pressure may be 40 % off/);
    assert.match(calibrationWords(answer({ calibrated: { factor: 1.1, from_entry: 2, band_factor: 1.2 } })), /entry 3 of the log.*20 %/);
    assert.match(calibrationWords(answer({ voice: { ...JET, band: 'rough' } })), /at the rim/);
  });
});

describe('the section', () => {
  const of = (section, what) => section.bodies.filter((body) => body.what === what);
  const reach = (body, k) => [Math.min(...body.points.map((p) => p[k])), Math.max(...body.points.map((p) => p[k]))];

  it('has every part where the document puts it', () => {
    const section = sectionOf(DOC, null);
    assert.deepEqual(reach(of(section, 'plug')[0], 0), [-9.5, -0.5]);
    assert.deepEqual(reach(of(section, 'plug')[0], 1), [-9, 9]);
    const [block] = of(section, 'block');
    assert.equal(reach(block, 0)[1], -0.5, 'its front stands behind the datum');
    assert.deepEqual(reach(block, 1), [12, 18]);
    assert.deepEqual(reach(of(section, 'side walls')[0], 1), [12, 14]);
    const floor = of(section, 'wall')[2];
    assert.deepEqual(reach(floor, 0), [-14, 0], 'the track runs from the air hole to the sound hole');
    assert.ok(Math.abs(reach(floor, 1)[1] - 11.2) < 1e-9, 'a depth below the outside');
    const foot = of(section, 'wall')[3].points;
    assert.ok(foot.some(([at, up]) => at === 5 && Math.abs(up - 9.4) < 1e-9), 'the edge above the bore');
    assert.ok(foot.some(([at, up]) => at === 14 && up === 12), 'the ramp’s end at the outside');
    assert.ok(section.terms.every((term) => !term.dashed));
    assert.ok(section.broken, 'the chamber goes on');
  });

  it('lifts the block by the gap that is entered or proposed', () => {
    const foot = (doc, voice = null) => {
      const [block] = of(sectionOf(doc, voice), 'block');
      return [Math.round(reach(block, 1)[0] * 1e6) / 1e6, block.dashed];
    };
    assert.deepEqual(foot(DOC), [12, false]);
    assert.deepEqual(foot(withValue(DOC, 'track.block_gap_mm', 0.1)), [12.1, false]);
    const proposed = { proposed: [{ path: 'track.block_gap_mm', mm: 0.08, rule: 'as_high_as_a_thin_track', of: [] }], as_cut: { parts: [] } };
    assert.deepEqual(foot(DOC, proposed), [12.08, true]);
  });

  it('dashes what nobody has said, and leaves out what is not there', () => {
    const { track, ...bare } = DOC;
    assert.ok(track);
    const section = sectionOf({ ...bare, block: 'none', sound_hole: { length_mm: 5, width_mm: 10, ramp: 'none' } }, answer({
      proposed: [{ path: 'track.depth_mm', mm: 0.7, rule: 'depth_by_bore', of: [] }],
      as_cut: { lowest_cents: 0, sigma_cents: 1, parts: [part('sound_hole.ramp_mm', 'seen', 0)] } }));
    assert.deepEqual(of(section, 'block'), []);
    assert.deepEqual(of(section, 'side walls'), []);
    assert.deepEqual(section.terms.filter((term) => term.dashed).map((term) => term.what), ['track']);
    assert.ok(!section.terms.some((term) => term.what === 'ramp'));
  });

  it('is drawn of numbers, within its bounds, whatever is entered', () => {
    const mm = (min, max) => fc.double({ min, max, noNaN: true });
    const some = (arbitrary) => fc.option(arbitrary, { nil: undefined });
    fc.assert(fc.property(fc.record({ bore: mm(3, 60), wall: mm(0.3, 20), thin: some(mm(0.2, 20)), length: mm(1, 40), ramp: some(mm(0, 60)),
      edge: some(mm(0, 20)), height: some(mm(0.5, 60)), front: some(mm(-3, 10)), walls: some(mm(0.1, 40)), depth: some(mm(0.05, 5)),
      track: some(mm(1, 200)), gap: some(mm(0, 5)), chamber: some(mm(5, 1000)), air: some(mm(1, 60)), plug: some(mm(0.3, 100)),
      off: some(mm(0, 50)), above: some(mm(0, 1000)) }), (o) => {
      const section = sectionOf({ tube: { bore: [{ at_mm: 0, diameter_mm: o.bore }], wall_mm: o.wall, end_mm: 400, above_mm: o.above },
        plug: { offset_mm: o.off, thickness_mm: o.plug }, sound_hole: { length_mm: o.length, width_mm: 8, wall_mm: o.thin,
          ramp_mm: o.ramp, edge_mm: o.edge }, block: { height_mm: o.height, front_mm: o.front,
          side_walls: { height_mm: o.walls, thickness_mm: 1 } },
        track: { depth_mm: o.depth, length_mm: o.track, block_gap_mm: o.gap },
        chamber: { length_mm: o.chamber, air_hole_mm: o.air }, song: {} }, null);
      const { from, to, low, high } = section;
      assert.ok(from < to && low < high);
      for (const [at, up] of section.bodies.flatMap((body) => body.points)) {
        assert.ok(Number.isFinite(at) && Number.isFinite(up));
        assert.ok(at <= to + 1e-9 && up >= low - 1e-9 && up <= high + 1e-9, `${at} ${up}`);
      }
      for (const term of section.terms) assert.ok(term.at >= from && term.at <= to && term.up <= high, term.what);
    }), { numRuns: 300, seed: 7 });
  });

  it('labels keep their order and their distance', () => {
    fc.assert(fc.property(fc.array(fc.double({ min: 0, max: 300, noNaN: true }), { minLength: 1, maxLength: 9 }), (wanted) => {
      const rows = spaced([...wanted].sort((a, b) => a - b), 20, 300);
      rows.forEach((y, i) => {
        assert.ok(y >= 10 - 1e-9 && y <= 290 + 1e-9, String(y));
        if (i > 0) assert.ok(y - rows[i - 1] >= 20 - 1e-9);
      });
    }), { numRuns: 200, seed: 7 });
  });
});

describe('a choice between words and figures', () => {
  const ramp = { key: 'ramp', paths: ['sound_hole.ramp', 'sound_hole.ramp_mm'], figures: 'measured',
    now: (s) => s.doc.sound_hole.ramp ?? 'measured',
    write: (doc, value) => (value === 'measured' ? doc : withValue(doc, 'sound_hole.ramp', value)) };
  it('brings back what it set aside, what could not be read too', () => {
    const typed = { 'sound_hole.ramp_mm': { text: '9 or so', unit: 'mm', value: null, problem: { code: 'not_a_length', path: '' } },
      name: { text: 'x', unit: 'mm', value: 'x', problem: null } };
    const first = { doc: DOC, typed, aside: {} };
    const short = { ...first, ...picked(first, ramp, 'short') };
    assert.deepEqual(short.doc.sound_hole, { length_mm: 5, width_mm: 10, edge_mm: 0.4, ramp: 'short' });
    assert.deepEqual(Object.keys(short.typed), ['name']);
    const again = { ...short, ...picked(short, ramp, 'measured') };
    assert.equal(again.doc.sound_hole.ramp_mm, 9);
    assert.equal(again.doc.sound_hole.ramp, undefined);
    assert.deepEqual(again.typed, typed);
  });

  it('a block of which nothing is measured stays a block', () => {
    const doc = { block: { height_mm: 5 } };
    assert.deepEqual(withValue(doc, 'block.height_mm', undefined), { block: {} });
    assert.deepEqual(withValue({}, 'block.height_mm', undefined), {});
    assert.deepEqual(withValue(doc, 'block', undefined), {});
  });
});

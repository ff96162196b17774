// tests/web/above.test.mjs -- what is above the sound hole, on paper and on Marks: entered, proposed for
// this tube, or blank; three tubes that are not the example.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { aboveMarks, aboveSizes, misfits, withProposed } from '../../web/state/above.js';
import { factsOf } from '../../web/paper/facts.js';
import { cardSheets } from '../../web/paper/card.js';
import { listSheets, rowsOf } from '../../web/paper/list.js';
import { strip } from '../../web/paper/strip.js';
import { partsOf, voiceSheets } from '../../web/paper/voice.js';
import { BODY, SHEET, widthOf } from '../../web/paper/sheet.js';
import { THIN, WIDE, bare, engine, flute, stateOf } from './paper_flutes.mjs';

/** Invented sizes, as the core would propose them; by no rule of its. */
const PROPOSED = [
  { path: 'track.depth_mm', mm: 0.31, rule: 'depth_by_bore', of: [{ path: 'tube.bore', mm: 7 }] },
  { path: 'track.width_mm', mm: 4.4, rule: 'as_wide_as_sound_hole', of: [{ path: 'sound_hole.width_mm', mm: 4.4 }] },
  { path: 'track.length_mm', mm: 8.2, rule: 'at_least_8_mm', of: [] },
  { path: 'plug.thickness_mm', mm: 3.7, rule: 'half_the_bore', of: [{ path: 'tube.bore', mm: 7 }] },
  { path: 'chamber.length_mm', mm: 41.3, rule: 'above_less_plug_and_mouth', of: [{ path: 'tube.above_mm', mm: 60 }] },
  { path: 'chamber.air_hole_mm', mm: 3.3, rule: 'half_the_bore', of: [{ path: 'tube.bore', mm: 7 }] },
  { path: 'block.height_mm', mm: 4.1, rule: 'sound_hole_and_a_bit', of: [] },
  { path: 'block.width_mm', mm: 9.1, rule: 'as_wide_as_the_tube', of: [] },
  { path: 'sound_hole.ramp_mm', mm: 6.6, rule: 'twice_the_sound_hole', of: [] },
  { path: 'sound_hole.edge_mm', mm: 0.17, rule: 'share_of_the_wall', of: [] },
];
const VOICE = { proposed: PROPOSED, as_cut: { parts: [] }, notes: [], faults: [] };
const open = (answer) => ({ ...answer, track: undefined, chamber: undefined, plug: { offset_mm: 0 } });
const facts = (answer, voice) => factsOf(stateOf(answer), engine, { voice });
const words = (parts) => parts.filter((part) => part.is === 'text').map((part) => part.text);

describe('marks above the sound hole', () => {
  it('lie where the sizes put them, by the definition of the datum', () => {
    const { flute: whole } = withProposed(open(THIN), PROPOSED);
    const at = Object.fromEntries(aboveMarks(whole).map(({ what, at_mm: mm }) => [what, Math.round(mm * 1e6) / 1e6 + 0]));
    // Towards the mouth from the upstream edge: track, half the air hole more; plug, then the chamber.
    assert.deepEqual(at, { mouth: -60, chamber: -45, 'plug top': -3.7, plug: 0, 'air hole': -9.85, flat: -11.5,
      track: -8.2, block: 0, 'upstream edge': 0, centre: 2.75, 'splitting edge': 5.5, ramp: 12.1 });
  });

  it('of a tube of which nothing is told or proposed are none', () => {
    assert.deepEqual(aboveMarks(bare()).map(({ what }) => what), ['plug', 'upstream edge', 'centre', 'splitting edge']);
    assert.ok(aboveSizes(bare(), new Map()).filter(({ path }) => !path.startsWith('sound_hole'))
      .every(({ mm }) => mm === null));
  });

  it('what is entered is never replaced by a proposal', () => {
    const { flute: whole, proposals } = withProposed(flute(), PROPOSED);
    assert.deepEqual([whole.track, whole.chamber], [flute().track, flute().chamber]);
    assert.deepEqual([...proposals.keys()], ['block.height_mm', 'block.width_mm', 'sound_hole.ramp_mm',
      'sound_hole.edge_mm']);
    const none = withProposed({ ...flute(), block: 'none' }, PROPOSED);
    assert.equal(none.flute.block, 'none');
  });

  it('are not made of sizes that cannot be on this tube; it is said what they need', () => {
    const wrong = { ...THIN, tube: { ...THIN.tube, above_mm: 82 }, plug: { thickness_mm: 10 },
      track: { length_mm: 18 }, chamber: { length_mm: 100, air_hole_mm: 10 } };
    assert.deepEqual(misfits(wrong), [{ path: 'chamber.length_mm', needs_mm: 110, has_mm: 82 },
      { path: 'chamber.air_hole_mm', needs_mm: 10, has_mm: 7 }]);
    const marks = aboveMarks(wrong).map(({ what }) => what);
    assert.ok(!marks.includes('chamber') && !marks.includes('air hole'));
    const text = words(listSheets(facts(wrong, null))[0].parts).join(' ');
    assert.match(text, /Length of the chamber does not fit: it needs 110\.0 mm, there is 82\.0 mm/);
    assert.doesNotMatch(words(strip(facts(wrong, null), 'wrap').parts).join(' '), /10\.0|112/);
  });
});

describe('paper of tubes with proposals', () => {
  for (const [name, answer] of Object.entries({ thin: open(THIN), wide: open(WIDE), usual: open(flute()) })) {
    it(`shows each and says that it is one: ${name}`, () => {
      const f = facts(answer, VOICE);
      const list = rowsOf(f);
      for (const [mark, mm] of [['Track begins *', -8.2], ['Air hole, centre *', -9.85],
        ['Plug or node, upper face (inside) *', -3.7], ['Ramp ends *', 12.1], ['Block, front *', 0]]) {
        assert.ok(list.some((row) => row.mark === mark && Math.abs(row.at_mm - mm) < 1e-9), mark);
      }
      const strips = words(strip(f, 'wrap').parts);
      for (const head of ['TRACK BEGINS *', 'AIR HOLE ⌀ 3.3 MM *', 'CHAMBER, UPPER END *', 'RAMP ENDS *']) {
        assert.ok(strips.includes(head), `${head}: ${strips}`);
      }
      const parts = partsOf(f);
      assert.equal(parts.find(({ path }) => path === 'track.depth_mm')?.size, '0.31 mm', 'not rounded to a tenth');
      assert.match(parts.find(({ path }) => path === 'chamber.length_mm').where, /^proposed: .*\(tube above the line 60/);
      assert.equal(parts.find(({ path }) => path === 'sound_hole.length_mm').where, 'entered');
    });
  }

  it('without an answer of the core has blanks on strip and voice sheet', () => {
    const [{ parts }] = voiceSheets(facts(bare(), null));
    const told = partsOf(facts(bare(), null));
    assert.ok(told.filter(({ size }) => size === '').length >= 10);
    assert.ok(parts.filter((p) => p.is === 'line' && p.pen === 'hair' && Math.abs(p.x2 - p.x1 - 17) < 1e-9).length >= 10);
    assert.match(words(strip(facts(bare(), null), 'wrap').parts).join(' '), /____ wide|____/);
  });

  it('keep the voice sheet within its frame, and the card free of these sizes', () => {
    for (const answer of [open(THIN), open(WIDE), open(flute()), bare(), flute()]) {
      for (const voice of [VOICE, null]) {
        const [{ parts }] = voiceSheets(facts(answer, voice));
        for (const part of parts.filter(({ is }) => is === 'text')) {
          assert.ok(part.x >= 0 && part.y <= SHEET.height, part.text);
          if (part.turned || part.anchor !== 'start' || part.y > BODY.y + BODY.height) continue;
          assert.ok(part.x + widthOf(part.text, part.size, part) <= SHEET.width, part.text);
        }
        const body = parts.filter((part) => part.is === 'text' && part.y > 20 && part.y < 246).map(({ y }) => y);
        assert.ok(Math.max(...body.filter((y) => y < 246)) <= BODY.y + BODY.height, `${Math.max(...body)}`);
        const card = words(cardSheets(facts(answer, voice), null, '')[0].parts).join(' ');
        assert.doesNotMatch(card, /41\.3|8\.2 mm|track length/);
      }
    }
  });
});

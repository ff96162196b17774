// tests/web/paper_geometry.test.mjs -- the marking strip's geometry: every mark where the answer has
// it, nothing lost between the sheets, nothing beyond what every printer can print.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import fc from 'fast-check';
import { BODY, CORNERS, SHEET, widthOf } from '../../web/paper/sheet.js';
import { factsOf } from '../../web/paper/facts.js';
import { flatHalf, sawFirst } from '../../web/paper/cuts.js';
import { FLAP_MM, marksOf, strip } from '../../web/paper/strip.js';
import { OVERLAP_MM, piecesOf, spans, stripSheets } from '../../web/paper/tiles.js';
import { listSheets } from '../../web/paper/list.js';
import { cardSheets } from '../../web/paper/card.js';
import { logSheets } from '../../web/paper/log.js';
import { ALL, LONG, THIN, WIDE, bare, engine, flute, stateOf } from './paper_flutes.mjs';

const EXACT_MM = 1e-9;
/** What the Bench might say first. */
const SAW = { step: { do: 'foot', at_mm: 396.137 }, why: 'saw_long' };
const near = (a, b) => Math.abs(a - b) < EXACT_MM;
const facts = (answer, show) => factsOf(stateOf(answer, show), engine);
const WAYS = ['wrap', 'edge'];

/** Where the strip's point lies on the sheets: on each piece that shows it. */
const places = (pieces, x, y) => pieces.filter((p) => x >= p.x0 && x <= p.x1 && y >= p.y0 && y <= p.y1)
  .map((p) => ({ sheet: p.sheet, x: p.x + x - p.x0, y: p.y + y - p.y0 }));

/** Horizontal lines of a sheet at this height that reach over this x. */
const across = (sheet, x, y) => sheet.parts.filter((part) => part.is === 'line' && near(part.y1, y)
  && near(part.y2, y) && Math.min(part.x1, part.x2) < x + 0.5 && Math.max(part.x1, part.x2) > x + 1);

describe('every mark', () => {
  for (const [name, answer] of Object.entries(ALL)) {
    for (const way of WAYS) {
      it(`of the ${name} flute, ${way}: hole centres with cross lines, foot, edges, exact`, () => {
        const { sheets, pieces } = stripSheets(facts(answer), way);
        for (const hole of answer.finger_holes) {
          const found = places(pieces, 0, hole.at_mm);
          assert.ok(found.length >= 1, `hole at ${hole.at_mm} is on a sheet`);
          for (const { sheet, x, y } of found) {
            assert.ok(across(sheets[sheet], x, y).length >= 1, `a line across at ${hole.at_mm}`);
            if (way === 'edge') continue;  // half of each circle is beyond the edge there
            const rings = sheets[sheet].parts.filter((part) => part.is === 'circle'
              && near(part.x, x) && near(part.y, y));
            assert.ok(rings.some((ring) => near(2 * ring.r, hole.diameter_mm)), 'its circle, true to size');
          }
        }
        // The sound hole's two edges by the definition of the datum in the document's format.
        for (const mm of [0, answer.sound_hole.length_mm, answer.foot_mm]) {
          const found = places(pieces, 0, mm);
          assert.ok(found.length >= 1);
          for (const { sheet, x, y } of found) assert.ok(across(sheets[sheet], x, y).length >= 1, `${mm}`);
        }
      });
    }
  }

  it('lies where the document’s own keys put it', () => {
    const answer = flute({ plug: { offset_mm: 0.75, thickness_mm: 9.5 } });
    const at = Object.fromEntries(marksOf(answer, SAW).filter((m) => m.what !== 'hole')
      .map((m) => [m.what, m.at_mm]));
    assert.deepEqual(at, { mouth: -150, chamber: -110.25, 'plug top': -10.25, plug: -0.75,
      'air hole': -23, flat: -28, track: -18, 'upstream edge': 0, centre: 2.75, 'splitting edge': 5.5,
      foot: 388.137, saw: 396.137, end: 420 });
    assert.deepEqual(marksOf(answer).filter((m) => m.what === 'hole').map((m) => m.at_mm),
      answer.finger_holes.map((hole) => hole.at_mm));
  });

  it('that nobody entered is a blank to fill in, not a figure', () => {
    const marks = marksOf(bare()).map((mark) => mark.what);
    for (const what of ['mouth', 'chamber', 'air hole', 'track', 'plug top']) {
      assert.ok(!marks.includes(what), what);
    }
    const words = strip(facts(bare()), 'wrap').parts.filter((part) => part.is === 'text')
      .map((part) => part.text);
    for (const head of ['MOUTH END', 'CHAMBER', 'AIR HOLE', 'TRACK']) {
      const i = words.indexOf(head);
      assert.ok(i >= 0 && /____/.test(words[i + 1]), `${head}: ${words[i + 1]}`);
    }
  });

  it('of what is sawn off follows the log, and where nothing is left there is no saw mark', () => {
    assert.ok(near(sawFirst(flute(), SAW), 8), 'where the Bench saws');
    assert.equal(sawFirst(flute(), null), 0, 'no figure of its own while the Bench has not been asked');
    assert.equal(sawFirst(flute(), { step: { do: 'read', open: [] } }), 0);
    assert.equal(sawFirst(flute(), { step: { do: 'foot', at_mm: 390, until: { open: [], hz: 392 } } }), 0, 'by ear');
    assert.ok(near(sawFirst(flute({ log: [{ foot: { at_mm: 392 } }] }), SAW), 392 - 388.137), 'never beyond the end');
    assert.ok(!marksOf(flute({ end: 388.137 })).some((m) => m.what === 'saw' || m.what === 'end'));
  });
});

describe('the strip', () => {
  it('is as wide as the tube is round, with a flap beyond', () => {
    for (const answer of [flute(), LONG, WIDE, THIN]) {
      const outer = answer.tube.bore[0].diameter_mm + 2 * answer.tube.wall_mm;
      const { parts } = strip(facts(answer), 'wrap');
      const upright = parts.filter((p) => p.is === 'line' && near(p.x1, p.x2)
        && Math.abs(p.y2 - p.y1) > 100).map((p) => p.x1).sort((a, b) => a - b);
      const seam = [upright[0], upright[upright.length - 2], upright[upright.length - 1]];
      assert.ok(near(seam[1] - seam[0], Math.PI * outer), `${seam}`);
      assert.ok(near(seam[2] - seam[1], FLAP_MM), `${seam}`);
      assert.ok(near(seam[0] + seam[1], 0), 'the seam lies opposite the centre line');
    }
  });

  it('shows the flat as wide as the circle’s segment is, or not at all', () => {
    // A chord at depth d in a circle of radius R is 2 sqrt(d (2R - d)), its arc 2 R asin(chord / 2R).
    const answer = flute({ bore: 24, wall: 3 });  // R = 15
    answer.sound_hole.wall_mm = 1.2;              // d = 1.8
    const chord = 2 * Math.sqrt(1.8 * (30 - 1.8));
    assert.ok(Math.abs(2 * flatHalf(answer) - 30 * Math.asin(chord / 30)) < 1e-9);
    answer.sound_hole.wall_mm = 2.7;              // a chord of 5.97, narrower than the sound hole
    assert.equal(flatHalf(answer), 0);
  });

  it('says each figure from the datum chosen, in both units', () => {
    for (const [datum, shift] of [['centre', -2.75], ['upstream edge', 0], ['splitting edge', -5.5]]) {
      for (const [unit, fraction] of [['mm', 32], ['mm', 64], ['inch', 32], ['inch', 64]]) {
        const words = strip(facts(flute(), { unit, fraction, datum }), 'wrap').parts
          .filter((part) => part.is === 'text').map((part) => part.text);
        for (const { at_mm: at } of flute().finger_holes) {
          assert.ok(words.includes(`${(at + shift).toFixed(1)} mm`), `${datum} ${at}`);
          assert.ok(words.includes(engine.writeLength(at + shift, 'inch', fraction)), `${datum} ${at}`);
        }
      }
    }
  });
});

describe('the words of the strip', () => {
  it('are never cut off with its left edge', () => {
    for (const outer of [22, 23, 24, 26, 30]) {
      for (const unit of ['mm', 'inch']) {
        const made = strip(facts(flute({ bore: outer - 5, wall: 2.5 }), { unit, fraction: 64, datum: 'centre' }), 'wrap');
        for (const { text, x, size, bold, caps, anchor } of made.parts.filter((part) => part.is === 'text')) {
          if (anchor === 'end') assert.ok(x - widthOf(text, size, { bold, caps }) > made.x0, `${outer} ${unit} ${text}`);
        }
      }
    }
  });
});

describe('the sheets', () => {
  it('cover the strip without a gap, each piece overlapping the next', () => {
    fc.assert(fc.property(fc.double({ min: 30, max: 3000, noNaN: true }), fc.double({ min: 40, max: 224,
      noNaN: true }), fc.array(fc.double({ min: 0, max: 3000, noNaN: true }), { maxLength: 12 }),
    (length, most, marks) => {
      const found = spans(0, length, most, marks);
      assert.equal(found[0][0], 0);
      assert.ok(near(found[found.length - 1][1], length));
      found.forEach(([start, end], i) => {
        assert.ok(end - start <= most + 1e-6, `${end - start} of ${most}`);
        if (i > 0) assert.ok(near(found[i - 1][1] - start, OVERLAP_MM), 'overlap');
      });
      // No more pieces than there must be.
      assert.ok(found.length <= Math.max(1, Math.ceil((length - OVERLAP_MM) / (most - OVERLAP_MM) - 1e-9)));
    }));
  });

  it('hold every point of long and wide strips, apart from one another', () => {
    for (const answer of Object.values(ALL)) {
      for (const way of WAYS) {
        const whole = strip(facts(answer), way);
        const pieces = piecesOf(whole, whole.marks.map((mark) => mark.at_mm));
        for (let i = 0; i <= 400; i += 1) {
          for (let k = 0; k <= 40; k += 1) {
            const x = whole.x0 + (whole.x1 - whole.x0) * k / 40;
            const y = whole.y0 + (whole.y1 - whole.y0) * i / 400;
            assert.ok(places(pieces, x, y).length >= 1, `${x}, ${y}`);
          }
        }
        for (const a of pieces) {
          assert.ok(a.x >= BODY.x && a.x + a.x1 - a.x0 <= BODY.x + BODY.width + EXACT_MM);
          assert.ok(a.y >= BODY.y && a.y + a.y1 - a.y0 <= BODY.y + BODY.height + EXACT_MM);
          assert.ok(pieces.every((b) => b === a || b.sheet !== a.sheet || b.x >= a.x + a.x1 - a.x0
            || a.x >= b.x + b.x1 - b.x0), 'side by side, not on one another');
        }
      }
    }
    assert.ok(stripSheets(facts(LONG), 'wrap').sheets.length >= 2);
    const wide = stripSheets(facts(WIDE), 'wrap').pieces;
    assert.ok(new Set(wide.map((p) => p.x0)).size >= 2, 'a bore of 60 mm needs two across');
  });

  it('show every word of the strip whole on some sheet, and none in the wrong place', () => {
    for (const answer of Object.values(ALL)) {
      for (const way of WAYS) {
        const whole = strip(facts(answer), way);
        const { sheets, pieces } = stripSheets(facts(answer), way);
        for (const word of whole.parts.filter((part) => part.is === 'text')) {
          const seen = pieces.some((p) => sheets[p.sheet].parts.some((part) => part.is === 'text'
            && part.text === word.text && near(part.x, p.x + word.x - p.x0)
            && near(part.y, p.y + word.y - p.y0)));
          assert.ok(seen, `${way}: ${word.text}`);
        }
      }
    }
  });

  it('have nothing beyond what A4 and Letter can both print, and both rules of 100 mm', () => {
    const all = Object.values(ALL).flatMap((answer) => {
      const f = factsOf(stateOf({ ...answer, name: 'W'.repeat(80) }), engine, { maker: 'M'.repeat(60) });
      return [...WAYS.flatMap((way) => stripSheets(f, way).sheets), ...listSheets(f),
        ...cardSheets(f, null, 'No link.'), ...logSheets(f)];
    });
    assert.ok(SHEET.width <= 210 - 20 && SHEET.height <= 279.4 - 20);  // ISO 216; ANSI/ASME Y14.1
    for (const { label, parts } of all) {
      for (const part of parts) {
        const [xs, ys] = extent(part);
        const words = `${label}: ${JSON.stringify(part)}`;
        assert.ok(xs.every((x) => x >= -1e-6 && x <= SHEET.width + 1e-6), words);
        assert.ok(ys.every((y) => y >= -1e-6 && y <= SHEET.height + 1e-6), words);
      }
      const lines = parts.filter((part) => part.is === 'line');
      assert.ok(lines.some((l) => near(l.y1, l.y2) && near(Math.abs(l.x2 - l.x1), 100)), label);
      assert.ok(lines.some((l) => near(l.x1, l.x2) && near(Math.abs(l.y2 - l.y1), 100)), label);
      assert.ok(parts.some((part) => part.is === 'text' && /100 %.*actual size/.test(part.text)), label);
    }
    const inches = listSheets(facts(flute(), { unit: 'inch', fraction: 32, datum: 'centre' }))[0].parts;
    const rules = inches.filter((part) => part.is === 'line' && part.pen === 'fine');
    // Whoever has only an inch rule checks with four inches: 101.6 mm.
    assert.ok(rules.some((l) => near(l.y1, l.y2) && near(Math.abs(l.x2 - l.x1), 101.6)));
    assert.ok(rules.some((l) => near(l.x1, l.x2) && near(Math.abs(l.y2 - l.y1), 101.6)));
    assert.ok(inches.some((part) => part.is === 'text' && /4 inches/.test(part.text)));
    assert.ok(CORNERS.x2 - CORNERS.x1 > 189 && CORNERS.y2 - CORNERS.y1 > 250);
  });
});

/** @returns {[number[], number[]]} */
function extent(part) {
  if (part.is === 'line') return [[part.x1, part.x2], [part.y1, part.y2]];
  if (part.is === 'circle') return [[part.x - part.r, part.x + part.r], [part.y - part.r, part.y + part.r]];
  if (part.is === 'block') return [[part.x, part.x + part.width], [part.y, part.y + part.height]];
  const wide = widthOf(part.text, part.size, part);
  if (part.turned) return [[part.x - part.size * 0.75, part.x], [part.y - wide, part.y]];
  const before = part.anchor === 'end' ? wide : part.anchor === 'middle' ? wide / 2 : 0;
  return [[part.x - before, part.x - before + wide], [part.y - part.size * 0.75, part.y]];
}

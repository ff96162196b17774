// tests/e2e/paper_measure.test.mjs -- what comes out on paper, measured with a rule: the PDF that the
// page makes and the PDF that Chromium makes of the print view, on A4 and Letter, drawn at 600 dots
// an inch by Poppler. Where the marks belong is asked of the core, not of the page.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after, before, describe, it } from 'node:test';
import { DESK, open, site } from './page.mjs';
import { pages, poppler } from './paper_raster.mjs';
import { CORNERS, RULES } from '../../web/paper/sheet.js';
import { factsOf } from '../../web/paper/facts.js';
import { stripSheets } from '../../web/paper/tiles.js';
import { pdfOf } from '../../web/paper/pdf.js';
import { LONG, WIDE, engine, stateOf } from '../web/paper_flutes.mjs';

const DPI = 600;
const ALLOWED_MM = 0.1;               // what the project promises
const DOT_MM = 25.4 / DPI;            // what the bitmap resolves: one dot
/** ISO 216 and ANSI/ASME Y14.1 [mm]; margin 10 mm, what is printed begins there. */
const PAPERS = { A4: [210, 297], Letter: [215.9, 279.4] };

let where;
let answer;
let told;          // what is proposed above the sound hole, and the Bench's first cut
const made = {};  // by paper and maker: the bitmaps

before(async () => {
  where = await site();
  const { page, context, faults } = await open(where, { viewport: DESK });
  // The core itself, beside the page: the example's layout.
  ({ answer, told } = await page.evaluate(async () => {
    const { default: create } = await import(new URL('core/workshop.js', document.baseURI).href);
    const core = await create();
    const ask = (verb, of) => JSON.parse(core.run(verb, of === '' ? '' : JSON.stringify(of))).answer;
    const example = ask('example', '');
    const laid = ask('layout', example);
    return { answer: laid, told: { voice: ask('voice', laid), next: ask('next', example) } };
  }));
  await page.getByRole('button', { name: 'Print', exact: true }).click();
  await page.waitForFunction(() => [...document.querySelectorAll('.previews text')]
    .some((e) => e.textContent === 'SAW HERE FIRST'));
  for (const paper of Object.keys(PAPERS)) {
    const [saved] = await Promise.all([page.waitForEvent('download'),
      page.getByRole('button', { name: paper === 'A4' ? 'Strip as PDF, A4' : 'Strip as PDF, Letter' })
        .click()]);
    const own = readFileSync(await saved.path());
    const printed = await page.pdf({ format: paper, preferCSSPageSize: false, printBackground: false });
    made[paper] = { 'own PDF': own, 'print view': printed };
  }
  assert.deepEqual(faults, []);
  await context.close();
});
after(async () => { await where?.close(); });

/** Measures every hole and the foot from the upstream edge: along one piece with the rule; over a
 * joint as a maker does, to the cut and on from it. @returns {number} how many were measured */
function along(pieces, answer, lineOn) {
  const zero = lineOn(pieces.find((piece) => piece.y0 < 0 && piece.y1 > 10), 0.5, 0, true, 0.5);
  let joint = null;  // of the piece above, by what was measured so far [mm]
  let seen = 0;
  pieces.forEach((piece, i) => {
    const x = 6.5 * (answer.finger_holes[0].diameter_mm > 9 ? 2 : 1);  // between holes and words
    const here = (mm) => lineOn(piece, x, mm, true);
    // The joint is dashed, 1.6 mm and a gap of 1.1: in the middle of a dash.
    const dash = piece.x0 + 2.7 * Math.round((x - piece.x0) / 2.7) + 0.8;
    const cutAt = (mm) => lineOn(piece, dash, mm, true);
    const known = i === 0 ? (y) => y - zero : ((start) => (y) => y - start + joint)(cutAt(piece.y0 + 6));
    for (const mm of [...answer.finger_holes.map((hole) => hole.at_mm), answer.foot_mm]) {
      if (mm < piece.y0 + 6 || mm > piece.y1 - 6) continue;
      const found = known(here(mm));
      assert.ok(Math.abs(found - mm) <= ALLOWED_MM, `${mm} is at ${found}`);
      seen += 1;
    }
    if (i < pieces.length - 1) joint = known(cutAt(piece.y1 - 6));
  });
  return seen;
}

/** @returns {{x: number, y: number}} where the sheet's corner lies on the paper [mm] */
const origin = (paper, maker) => ({ y: 10,
  x: maker === 'own PDF' ? (PAPERS[paper][0] - 190) / 2 : 10 });

for (const paper of Object.keys(PAPERS)) {
  for (const maker of ['own PDF', 'print view']) {
    describe(`${maker} on ${paper}`, () => {
      let sheets;
      let pieces;
      let at;
      let whole;
      before(() => {
        sheets = pages(made[paper][maker], DPI);
        ({ pieces } = stripSheets(factsOf(stateOf(answer), engine, told), 'wrap'));
        at = origin(paper, maker);
        whole = Math.PI * (answer.tube.bore[0].diameter_mm + 2 * answer.tube.wall_mm);
      });

      /** Middle of the line near the strip's point on a piece. */
      const lineOn = (piece, x, y, down, within = 1.2) => sheets[piece.sheet].lineNear({ down, within,
        x: at.x + piece.x + x - piece.x0, y: at.y + piece.y + y - piece.y0, lane: 0.2 });

      it('has the paper’s size, as many sheets as there must be, and is not to be scaled', () => {
        const said = poppler('pdfinfo', [], made[paper][maker]);
        const [, wide, high] = /Page size:\s+([\d.]+) x ([\d.]+) pts/.exec(said).map(Number);
        assert.ok(Math.abs(wide * 25.4 / 72 - PAPERS[paper][0]) < 0.5, said);
        assert.ok(Math.abs(high * 25.4 / 72 - PAPERS[paper][1]) < 0.5, said);
        assert.equal(sheets.length, pieces[pieces.length - 1].sheet + 1);
        if (maker === 'own PDF') assert.match(made[paper][maker].toString('latin1'), /\/PrintScaling \/None/);
      });

      it('has check rules of 100 mm in both axes on every sheet', () => {
        for (const sheet of sheets) {
          const { lying, upright } = RULES;
          const ticks = [0, 10, 50, 100].map((mm) => sheet.lineNear({ down: false, within: 0.45,
            x: at.x + lying.x + mm, y: at.y + lying.y - 2.2, lane: 0.2 }));
          const ups = [0, 10, 50, 100].map((mm) => sheet.lineNear({ down: true, within: 0.45,
            x: at.x + upright.x - 2.2, y: at.y + upright.y + mm, lane: 0.2 }));
          for (const found of [ticks, ups]) {
            [10, 50, 100].forEach((mm, i) => assert.ok(Math.abs(found[i + 1] - found[0] - mm) < DOT_MM,
              `${mm} mm is ${found[i + 1] - found[0]}`));
          }
        }
      });

      it('is true over its whole height and width, square, beyond 250 mm', () => {
        for (const sheet of sheets) {
          const { x1, y1, x2, y2 } = CORNERS;
          const lying = [[x1, y1], [x1, y2], [x2, y1], [x2, y2]].map(([x, y]) => sheet.lineNear({ down: true,
            within: 0.8, x: at.x + x + (x === x1 ? 1.2 : -1.2), y: at.y + y, lane: 0.2 }));
          const upright = [[x1, y1], [x2, y1], [x1, y2], [x2, y2]].map(([x, y]) => sheet.lineNear({ down: false,
            within: 0.8, x: at.x + x, y: at.y + y + (y === y1 ? 1.2 : -1.2), lane: 0.2 }));
          for (const [a, b, mm] of [[lying[0], lying[1], y2 - y1], [lying[2], lying[3], y2 - y1],
            [upright[0], upright[1], x2 - x1], [upright[2], upright[3], x2 - x1]]) {
            assert.ok(Math.abs(b - a - mm) <= ALLOWED_MM, `${mm} mm is ${b - a}`);
          }
          assert.ok(Math.abs(lying[0] - lying[2]) <= DOT_MM && Math.abs(upright[0] - upright[2]) <= DOT_MM);
          assert.ok(y2 - y1 > 250);
        }
      });

      it('has every finger hole, the foot and both edges where the core has them', () => {
        const seen = along(pieces, answer, lineOn);
        assert.equal(seen, answer.finger_holes.length + 1);
      });

      it('has the sound hole, the finger holes and the tube’s girth true to size', () => {
        const first = pieces[0];
        const { length_mm: length, width_mm: width } = answer.sound_hole;
        const row = length * 0.8;
        const sides = [-1, 1].map((side) => lineOn(first, side * width / 2, row, false, 0.7));
        assert.ok(Math.abs(sides[1] - sides[0] - width) <= ALLOWED_MM, `${sides[1] - sides[0]}`);
        for (const piece of pieces) {
          // Edge and seam, between the words.
          const y = piece.y0 + 30;
          const edges = [-1, 1].map((side) => lineOn(piece, side * whole / 2, y, false, 0.7));
          assert.ok(Math.abs(edges[1] - edges[0] - whole) <= ALLOWED_MM, `${edges[1] - edges[0]} ${whole}`);
          for (const hole of answer.finger_holes) {
            if (hole.at_mm < piece.y0 + 8 || hole.at_mm > piece.y1 - 8) continue;
            // Half a radius from the middle the circle is sqrt(3) radii high and wide.
            const r = hole.diameter_mm / 2;
            const off = r * Math.sqrt(3) / 2;
            const high = [-1, 1].map((s) => lineOn(piece, r / 2, hole.at_mm + s * off, true, 0.9));
            const wide = [-1, 1].map((s) => lineOn(piece, s * off, hole.at_mm + r / 2, false, 0.9));
            for (const [a, b] of [high, wide]) {
              assert.ok(Math.abs(b - a - r * Math.sqrt(3)) <= ALLOWED_MM, `${b - a} of ${2 * r}`);
            }
            const middle = lineOn(piece, 0, hole.at_mm + r / 2, false, 0.9);
            assert.ok(Math.abs((wide[0] + wide[1]) / 2 - middle) <= ALLOWED_MM, 'on the centre line');
          }
        }
      });
    });
  }
}

describe('strips of several sheets, over their joints', () => {
  const cases = async (flute) => {
    const { sheets, pieces } = stripSheets(factsOf(stateOf(flute), engine), 'wrap');
    const bitmaps = pages(Buffer.from(await (await pdfOf(sheets, 'A4', { title: 'test' })).arrayBuffer()), DPI);
    const lineOn = (piece, x, y, down, within = 1.2) => bitmaps[piece.sheet].lineNear({ down, within,
      x: 10 + piece.x + x - piece.x0, y: 10 + piece.y + y - piece.y0, lane: 0.2 });
    return { pieces, lineOn };
  };

  it('a flute of 700 mm: every hole and the foot', async () => {
    const { pieces, lineOn } = await cases(LONG);
    assert.ok(pieces.length >= 4);
    assert.equal(along(pieces, LONG, lineOn), LONG.finger_holes.length + 1);
  });

  it('a bore of 60 mm: its girth, and the holes on the piece with the centre line', async () => {
    const { pieces, lineOn } = await cases(WIDE);
    const [first] = pieces;
    const second = pieces.find((piece) => piece.x0 > first.x0 && piece.y0 === first.y0);
    const girth = Math.PI * (60 + 2 * 6);
    const y = first.y0 + 2.7 * 12 + 0.8;  // in the middle of a dash
    const left = lineOn(first, -girth / 2, y, false, 0.8);
    const cut = lineOn(first, first.x1 - 4, y, false, 0.8);
    const seam = lineOn(second, girth / 2, y, false, 0.8) - lineOn(second, second.x0 + 4, y, false, 0.8);
    assert.ok(Math.abs(cut - left + seam - girth) <= ALLOWED_MM, `${cut - left + seam} of ${girth}`);
    const middle = pieces.filter((piece) => piece.x0 === first.x0);
    assert.equal(along(middle, WIDE, lineOn), WIDE.finger_holes.length + 1);
  });
});

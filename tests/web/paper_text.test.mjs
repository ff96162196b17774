// tests/web/paper_text.test.mjs -- words on paper: their widths, hostile names, what list, log and
// card say, the printed QR code read by a second library.
import assert from 'node:assert/strict';
import { createRequire } from 'node:module';
import { describe, it } from 'node:test';
import { correction, generate } from 'lean-qr';
import { notes } from '../../web/state/readers.js';
import { widthOf, wrapped } from '../../web/paper/sheet.js';
import { factsOf } from '../../web/paper/facts.js';
import { fileName, forPdf, inPdfFonts, plain } from '../../web/paper/names.js';
import { listSheets, rowsOf, slack } from '../../web/paper/list.js';
import { logSheets, stepsOf } from '../../web/paper/log.js';
import { cardSheets, care, codeParts, codeSize } from '../../web/paper/card.js';
import { stripSheets } from '../../web/paper/tiles.js';
import { HOSTILE, bare, engine, flute, stateOf } from './paper_flutes.mjs';

const require = createRequire(import.meta.url);
const { jsPDF } = require('jspdf');
const jsQR = require('jsqr');
const facts = (answer, more) => factsOf(stateOf(answer), engine, more);
const wordsOf = (sheets) => sheets.flatMap(({ parts }) => parts.filter((p) => p.is === 'text')
  .map((p) => p.text));

describe('widths of words', () => {
  const pdf = new jsPDF();
  const TEXTS = ['Hole 5', '153.5 mm', '10 17/32', 'AIR HOLE', 'Tape round the tube, keeps it from splitting.',
    ...Array.from({ length: 95 }, (_, i) => String.fromCharCode(32 + i))];

  // jsPDF carries the widths of the PDF standard's fonts (Adobe font metrics) itself, to two decimals,
  // and some rounded down.
  const ROUNDED = 0.01;
  for (const [style, bold] of [['normal', false], ['bold', true]]) {
    it(`are those of the PDF’s sans-serif, ${style}`, () => {
      pdf.setFont('helvetica', style);
      for (const text of TEXTS) {
        const theirs = pdf.getStringUnitWidth(text, { doKerning: false });
        const off = Math.abs(widthOf(text, 1, { bold }) - theirs);
        assert.ok(off < ROUNDED * text.length, `“${text}” by ${off}`);
      }
    });
  }

  it('keep lines within theirs and lose nothing', () => {
    for (const text of ['one two three four five six seven', 'W'.repeat(80), 'a', '', ...HOSTILE.map(plain)]) {
      const lines = wrapped(text, 3, 30);
      for (const line of lines) assert.ok(widthOf(line, 3) <= 30 + 1e-9, line);
      assert.equal(lines.join('').replace(/\s/g, ''), text.replace(/\s/g, ''));
    }
  });
});

describe('hostile names', () => {
  it('become one line of well-formed text without controls, turns of direction or towers', () => {
    for (const name of HOSTILE) {
      const shown = plain(name);
      assert.ok(shown.length > 0, JSON.stringify(name));
      assert.doesNotMatch(shown, /[\u0000-\u001F\u007F-\u009F\u202A-\u202E\u2066-\u2069\u200B\uFEFF]/);
      assert.doesNotMatch(shown, /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/);
      assert.doesNotMatch(shown, /\p{M}{3}/u);
      assert.equal(plain(shown), shown);
    }
    assert.equal(plain('<img src=x onerror=alert(1)>'), '<img src=x onerror=alert(1)>');
    assert.equal(plain(') Tj \\ ((('), ') Tj \\ (((');
  });

  it('become file names that every system takes', () => {
    for (const name of [...HOSTILE, '', '   ']) {
      const file = fileName(name, 'strip, A4.pdf');
      assert.match(file, /, strip, A4\.pdf$/);
      assert.doesNotMatch(file, /[<>:"/\\|?*\u0000-\u001F]|^[\s.]|\.\./u);
      assert.ok(Buffer.byteLength(file) <= 255, file);  // most file systems' limit
      // Names Windows keeps for devices are so only where they stand alone before the first dot.
      assert.doesNotMatch(file.split('.')[0], /^(con|prn|aux|nul|com\d|lpt\d)$/i);
    }
  });

  it('stand on the sheets as their text, and as the same on card and log', () => {
    for (const name of HOSTILE) {
      const f = facts({ ...flute(), name }, { maker: name });
      for (const sheets of [stripSheets(f, 'wrap').sheets, listSheets(f), logSheets(f),
        cardSheets(f, null, 'none')]) {
        for (const { parts } of sheets) {
          const own = parts.filter((p) => p.is === 'text' && p.own).map((p) => p.text);
          assert.ok(own.length >= 1);
          assert.ok(own.every((text) => plain(name).replace(/\s/g, '')
            .includes(text.replace(/[\s…]/g, ''))), `${own}`);
        }
      }
      assert.ok(wordsOf(cardSheets(f, null, 'none')).includes(plain(name)) || plain(name).length > 30);
    }
  });

  it('are refused by the PDF’s fonts exactly where these lack a letter', () => {
    for (const text of ['Crème brûlée', '“curly” – dash…', 'Willow bank (2) \\', 'B♭4 ⌀ 7 6 1/32″ −3']) {
      assert.ok(inPdfFonts(text), text);
      assert.ok([...forPdf(text)].every((c) => c.codePointAt(0) < 256 || /[“”–…]/.test(c)), text);
    }
    for (const text of ['тростник', '竹', 'a\u0301\u0302', 'flute 🎋', 'قصب']) assert.ok(!inPdfFonts(text), text);
  });
});

describe('the marks list', () => {
  it('has every mark in order, with its distance from the datum and from the centre', () => {
    const rows = rowsOf(facts(flute()));
    assert.deepEqual(rows.map((row) => row.at_mm), rows.map((row) => row.at_mm).sort((a, b) => a - b));
    for (const hole of flute().finger_holes) assert.ok(rows.some((row) => row.at_mm === hole.at_mm));
    const state = stateOf(flute(), { unit: 'mm', fraction: 32, datum: 'splitting edge' });
    const words = wordsOf(listSheets(factsOf(state, engine)));
    for (const { at_mm: at } of flute().finger_holes) {
      assert.ok(words.includes(`${(at - 5.5).toFixed(1)} mm`), 'from the datum');
      assert.ok(words.includes(`${(at - 2.75).toFixed(1)} mm`), 'from the centre');
    }
  });

  it('says how far a mark may be off: the cents allowed over the cents a millimetre makes', () => {
    const note = { cents_per_mm: -4, cents_per_mm_foot: 2.5 };
    assert.equal(slack(note, 10, false), 2.5);
    assert.equal(slack(note, 10, true), 4);
    assert.equal(slack({ cents_per_mm: null }, 10, false), null);
    assert.equal(slack(undefined, 10, false), null);
  });

  it('names what nobody entered as a blank', () => {
    const words = wordsOf(listSheets(facts(bare()))).join(' ');
    for (const what of ['mouth end', 'thickness', 'chamber', 'air hole', 'track']) {
      assert.match(words, new RegExp(`${what}[^,]* ____`));
    }
    assert.doesNotMatch(wordsOf(listSheets(facts(flute()))).join(' '), /____/);
  });
});

describe('the bench log', () => {
  it('begins with the voice on a long tube and goes from the foot upwards', () => {
    const steps = stepsOf(facts(flute(), { next: { step: { do: 'foot', at_mm: 396.137 } } }));
    const unasked = stepsOf(facts(flute())).slice(0, 3).map((s) => [s.step, s.plan]);
    assert.deepEqual(unasked, [['Foot, sawn long', ''], ['Voice made, no holes', ''], ['Foot, taken back', '385.4']]);
    assert.deepEqual(steps.slice(0, 3).map((s) => s.plan), ['393.4', '', '385.4']);
    assert.deepEqual(steps.slice(3).map((s) => s.step.split(',')[0]),
      ['Hole 5', 'Hole 4', 'Hole 3', 'Hole 2', 'Hole 1']);
  });

  it('has a column for each thing that the page’s log takes', () => {
    const words = wordsOf(logSheets(facts(flute())));
    for (const head of ['STEP', 'MEASURED', 'FINGERS', 'HEARD HZ', 'ROOM °C', 'REMARKS']) {
      assert.ok(words.includes(head), head);
    }
  });
});

describe('the owner’s card', () => {
  it('has key, each note with its holes, date, maker and care', () => {
    const [{ parts }] = cardSheets(facts(flute(), { maker: 'The shed', today: '3 May 2031' }), null, 'none');
    const words = parts.filter((p) => p.is === 'text').map((p) => p.text);
    for (const text of ['G4', 'minor pentatonic, five holes', 'The shed', '3 May 2031', 'none']) {
      assert.ok(words.includes(text), text);
    }
    const rings = parts.filter((p) => p.is === 'circle' && p.r > 1);
    assert.equal(rings.length, 6 * 5);
    assert.equal(rings.filter((p) => p.filled).length, 5 + 4 + 3 + 2 + 1, 'all covered is lowest');
    assert.notDeepEqual(care('plastic pipe'), care('bamboo'));
  });

  it('has room for the longest name of a key, in every way of saying it', () => {
    const held = notes.say;
    notes.say = (name) => name.replace('G4', 'Sol♭4');
    try {
      const [{ parts }] = cardSheets(facts(flute()), null, '');
      const key = parts.find((part) => part.size === 9);
      assert.equal(key.text, 'Sol♭4');
      const beside = parts.find((part) => part.is === 'text' && part.text.startsWith('minor'));
      assert.ok(beside.x > key.x + widthOf(key.text, 9, { bold: true }) + 2, `${beside.x}`);
    } finally {
      notes.say = held;
    }
  });

  it('leaves a line to sign on where no maker is named', () => {
    const [{ parts }] = cardSheets(facts(flute()), null, 'none');
    const label = parts.find((p) => p.text === 'MADE BY');
    assert.ok(parts.some((p) => p.is === 'line' && p.y1 === p.y2 && Math.abs(p.y1 - label.y) < 1
      && p.x1 > label.x && p.x2 - p.x1 > 30));
  });

  // Read by jsQR, another library than the one that drew it.
  it('has a QR code of at least 30 mm and 0.4 mm a module that reads as the link', () => {
    for (const length of [40, 120, 200, 500]) {
      const link = `https://example.org/flutes/#1.${'aB3-_x'.repeat(200).slice(0, length)}Z`;
      const code = generate(link, { minCorrectionLevel: correction.M });
      const { wide, module, inset } = codeSize(code);
      assert.ok(wide >= 30 && module >= 0.4 - 1e-9, `${wide} ${module}`);
      assert.ok(Math.abs(inset - 4 * module) < 1e-9 && Math.abs((code.size + 8) * module - wide) < 1e-9);
      const [{ parts }] = cardSheets(facts(flute()), code, '');
      const blocks = parts.filter((p) => p.is === 'block');
      const [left, top] = [Math.min(...blocks.map((b) => b.x)), Math.min(...blocks.map((b) => b.y))];
      assert.deepEqual(blocks, codeParts(code, left, top, module));
      assert.equal(read(blocks, left - inset, top - inset, wide), link);
    }
  });
});

/** Blocks as a bitmap of 20 dots a millimetre, read. */
function read(blocks, left, top, wide) {
  const dots = Math.round(wide * 20);
  const data = new Uint8ClampedArray(dots * dots * 4).fill(255);
  for (const { x, y, width, height } of blocks) {
    for (let row = Math.round((y - top) * 20); row < Math.round((y + height - top) * 20); row += 1) {
      for (let at = Math.round((x - left) * 20); at < Math.round((x + width - left) * 20); at += 1) {
        data.fill(0, (row * dots + at) * 4, (row * dots + at) * 4 + 3);
      }
    }
  }
  return jsQR(data, dots, dots)?.data;
}

// tests/web/shelf.test.mjs -- the shelf's words, names of files, files, and its QR codes read back.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import fc from 'fast-check';
import jsQR from 'jsqr';
import { buildWords, isRead, keyWords, linkSentence, nameOf, noLinkSentence } from '../../web/shelf/words.js';
import { copyName, fileName, fitted } from '../../web/shelf/names.js';
import { fresh, fluteText } from '../../web/shelf/files.js';
import { LARGEST_VERSION, QUIET, code } from '../../web/widgets/qr.js';

const bytes = (text) => Buffer.byteLength(text);

describe('names of files', () => {
  // What no common file system takes: Microsoft, "Naming Files, Paths, and Namespaces"; POSIX '/'.
  const allowed = (name) => {
    assert.doesNotMatch(name, /[\\/:*?"<>|\p{Cc}\p{Cs}\p{Cf}]/u, JSON.stringify(name));
    assert.doesNotMatch(name, /^[. ]|[. ]$/, JSON.stringify(name));
    assert.doesNotMatch(name, /^(con|prn|aux|nul|com\d|lpt\d)$/i);
    assert.ok(name.length > 0 && bytes(`${name}.json`) <= 255);
  };

  it('are allowed everywhere, whatever the flute is called', () => {
    for (const name of ['', ' ', '.', '..', '../../etc/passwd', 'con', 'LPT1', '\u202Egnp.exe', '\uD800',
      'a\uDFFFb', '\u0000', 'e\u0301'.repeat(200), '\u0301\u0302', '<img src=x onerror=alert(1)>',
      '\u200B', '🎋'.repeat(60), 'x'.repeat(500)]) allowed(fileName(name));
    fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 120 }), (name) => allowed(fileName(name))));
    fc.assert(fc.property(fc.array(fc.integer({ min: 0, max: 0xffff }), { maxLength: 40 }),
      (units) => allowed(fileName(String.fromCharCode(...units)))));
  });

  it('leave a decent name as it is', () => {
    for (const name of ['Otter bank (third)', 'Heron reach 4.2', 'Флейта из тростника', '竹笛 No. 3',
      'Ménage café']) assert.equal(fileName(name), name);
  });

  it('keep no more than two marks over a letter', () => {
    assert.equal(fileName(`z${'\u0302'.repeat(40)}!`), 'z\u0302\u0302');
  });
});

describe('names of flutes', () => {
  it('fit the document’s 80 bytes, whole characters only', () => {
    fc.assert(fc.property(fc.string({ unit: 'grapheme', maxLength: 120 }), (name) => {
      for (const made of [fitted(name), copyName(name)]) {
        assert.ok(bytes(made) <= 80);
        assert.equal(made, Buffer.from(made).toString(), 'no half character');
      }
      assert.ok(copyName(name).endsWith(' (copy)'));
    }));
    assert.equal(fitted('  Otter \n bank '), 'Otter bank');
    assert.equal(nameOf({ name: ' ' }), 'A flute without a name');
  });
});

describe('words', () => {
  const song = { lowest: 'G4', scale: 'minor pentatonic', holes: 5 };
  const doc = (log) => ({ song, log });
  const hole = (number) => ({ hole: { number, at_mm: 200 } });
  const reading = { read: { open: [], hz: 390 } };

  it('say the key and how far the build has come', () => {
    assert.equal(keyWords({ song }, { lowest: 'Bb4' }), 'B♭4 minor pentatonic, five holes');
    assert.equal(keyWords({ song: { ...song, scale: { cents: [0] } } }, null), 'The lowest note own scale, five holes');
    assert.deepEqual([undefined, [], [{ foot: { at_mm: 1 } }], [reading], [hole(5), hole(5), reading],
      [1, 2, 3, 4, 5].map(hole), [...[1, 2, 3, 4, 5].map(hole), reading, reading]]
      .map((log) => buildWords(doc(log))),
    ['planned', 'planned', 'begun, no hole yet', 'begun, no hole yet, 1 reading',
      'one of five holes cut, 1 reading', 'all holes cut', 'all holes cut, 2 readings']);
    assert.equal(isRead(doc([hole(1)])), false);
    assert.equal(isRead(doc([reading])), true);
  });

  it('say what is wrong with a link, each in its own way', () => {
    const codes = ['not_a_link', 'link_cut_off', 'link_damaged', 'link_newer', 'link_too_long'];
    const said = codes.map((name) => linkSentence({ violations: [{ code: name, path: 'link' }] }));
    assert.equal(new Set(said).size, codes.length);
    for (const sentence of said) assert.match(sentence, /^[A-Z].*\.$/);
    assert.match(linkSentence({ violations: [{ code: 'too_small', path: 'tube.wall_mm' }] }), /tube\.wall_mm: too small/);
    assert.match(linkSentence({ fault: 'abort' }), /our fault/);
    const long = { violations: [{ code: 'link_too_long', path: 'link' }] };
    assert.match(noLinkSentence(long, true), /Leave the log out/);
    assert.doesNotMatch(noLinkSentence(long, false), /log/);
  });
});

describe('files', () => {
  it('are made of fresh objects; keys of the language are left out, depth has an end', () => {
    const read = fresh(JSON.parse('{"a":[{"__proto__":{"x":1},"b":2}],"constructor":{"prototype":{}},"c":null}'));
    assert.deepEqual(read, { a: [{ b: 2 }], c: null });
    assert.equal(Object.getPrototypeOf(read.a[0]), Object.prototype);
    assert.equal(read.a[0].x, undefined);
    assert.throws(() => fresh(JSON.parse(`${'['.repeat(50)}${']'.repeat(50)}`)));
    fc.assert(fc.property(fc.json({ maxDepth: 5 }), (text) => {
      const once = fresh(JSON.parse(text));
      assert.deepEqual(fresh(once), once);
      assert.ok(!JSON.stringify(once).includes('"__proto__":'));
    }));
  });

  it('of a whole flute are the plain document, of an unfinished one say more', () => {
    const doc = { format: 'canewright/1', name: 'a' };
    assert.deepEqual(JSON.parse(fluteText({ doc, good: doc, typed: {}, aside: {} })), doc);
    const typed = { 'tube.wall_mm': { text: 'thick', unit: 'mm', value: null, problem: { code: 'x', path: '' } } };
    assert.deepEqual(JSON.parse(fluteText({ doc, good: doc, typed, aside: {} })).x.typed, typed);
  });
});

describe('QR codes', () => {
  /** Drawn at so many dots a module, black on white. */
  function dots(drawn, per) {
    const side = (drawn.size + 2 * QUIET) * per;
    const data = new Uint8ClampedArray(side * side * 4).fill(255);
    for (let y = 0; y < side; y += 1) {
      for (let x = 0; x < side; x += 1) {
        if (!drawn.get(Math.floor(x / per) - QUIET, Math.floor(y / per) - QUIET)) continue;
        data.fill(0, (y * side + x) * 4, (y * side + x) * 4 + 3);
      }
    }
    return { data, side };
  }
  const readBack = (text, per) => {
    const { data, side } = dots(code(text), per);
    return jsQR(data, side, side)?.data;
  };
  const address = (length) => `https://flute.example/#1.${'Ab3-_xYz'.repeat(60)}`.slice(0, length - 1).concat('Z');

  it('are read back by another library, from short to the longest, at four dots a module', () => {
    for (const length of [40, 110, 172, 209, 300, 400, 412]) {
      assert.equal(readBack(address(length), 4), address(length));
    }
  });

  it('have the sizes of the standard at level M, and end at version 15', () => {
    // Bytes that fit, level M: ISO/IEC 18004 table 7 (from memory): version 7 122, 9 180, 10 213, 15 412.
    for (const [version, fits] of [[7, 122], [9, 180], [10, 213], [15, 412]]) {
      assert.equal(code(address(fits)).size, 17 + 4 * version);
      if (version < LARGEST_VERSION) assert.equal(code(address(fits + 1)).size, 17 + 4 * (version + 1));
    }
    assert.equal(code(address(413)), null);
  });
});

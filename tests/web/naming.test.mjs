// tests/web/naming.test.mjs -- notes in the names of several languages, to the core's spelling and back.
//
// Sources: H and B of German: metacpan.org, Music::PitchNum::German 0.03 (pitchname(70) is b, 71 h; aes' is 68) and
// lilypond.org, "Changing the chord names to German notation" (B and Bes become H and B). Octaves of France:
// aprlmusic.com, 2011 ("A4 in USA while labelled La3 in France"; "does not include 0"). The rest, as the words for
// sharp and flat, is common practice, from memory, no source.
import assert from 'node:assert/strict';
import { beforeEach, describe, it } from 'node:test';

const shelf = new Map();
globalThis.localStorage = { getItem: (key) => shelf.get(key) ?? null, setItem: (key, text) => shelf.set(key, text) };
/** The module as a page that is opened finds it. */
let opened = 0;
async function open(language = 'en-GB') {
  const module = await import(`../../web/text/naming.js?${opened += 1}`);
  module.useNaming(language);
  return module;
}
beforeEach(() => shelf.clear());

describe('what is typed', () => {
  it('is a note in signs, words and endings, alone or in a tune', async () => {
    const { inLetters } = await open();
    for (const [typed, text] of [['A flat 4', 'A♭4'], ['A-flat4', 'A♭4'], ['f sharp 5', 'F♯5'], ['As4', 'A♭4'], ['aes4', 'A♭4'],
      ['es5', 'E♭5'], ['fis5', 'F♯5'], ['Ais4', 'A♯4'], ['H4', 'B4'], ['His4', 'B♯4'], ['Hes4', 'B♭4'], ['sol', 'G'],
      ['la bémol', 'A♭'], ['La bemol', 'A♭'], ['si bemolle', 'B♭'], ['sol#', 'G♯'], ['do dièse', 'C♯'], ['fa sostenido', 'F♯'],
      ['Re\u0301', 'D'], ['ut', 'C'], ['sib', 'B♭'], ['C5 As4 H4 sol', 'C5 A♭4 B4 G'], ['G 4', 'G4']]) {
      assert.deepEqual(inLetters(typed), { text, asks: null }, typed);
    }
  });

  it('stays as it is where the core reads it, or where it is no note', async () => {
    const { inLetters } = await open();
    for (const typed of ['A4', 'f#5', 'Bb4', 'bb4', 'G♮4', 'D♯', '383 Hz', '587,3', 'X4', 'Ass4', 'cents', '']) {
      const { text, asks } = inLetters(typed);
      assert.equal(text, typed);
      assert.equal(asks, null);
    }
  });

  it('off a meter is read at its beginning alone, with its octave', async () => {
    const { inLetters } = await open();
    assert.equal(inLetters('As4 −3', true).text, 'A♭4 −3');
    assert.equal(inLetters('H4 +12 cents', true).text, 'B4 +12 cents');
    for (const typed of ['−12', '+5 c', 'E flat', '383 Hz as 4', 'G4 −3']) assert.equal(inLetters(typed, true).text, typed);
  });
});

describe('a B', () => {
  it('is the core’s where nothing speaks for another', async () => {
    assert.deepEqual((await open()).inLetters('B4'), { text: 'B4', asks: null });
    assert.equal((await open('nl')).said('B4'), 'B4');
  });

  it('is asked about once where H is known or was typed, by the next visit too', async () => {
    for (const [language, before] of [['de-AT', ''], ['pl', ''], ['nb-NO', ''], ['en-GB', 'H4']]) {
      shelf.clear();
      const first = await open(language);
      first.inLetters(before);
      assert.equal(first.inLetters('C5 b4').asks, 'B');
      assert.equal(first.said('B4'), 'B♮4');
      assert.equal(first.inLetters('Bb4').asks, null);
      assert.equal((await open(language)).inLetters('B4').asks, 'B', 'never answered, it is asked again');
      first.answer('B♭');
      const next = await open(language);
      assert.deepEqual(next.inLetters('B4 H4 Bb4'), { text: 'B♭4 B4 Bb4', asks: null });
      assert.deepEqual(['B4', 'B♭4', 'B♯4', 'F♯4', 'B', ''].map(next.said), ['H4', 'B4', 'H♯4', 'F♯4', 'H', '']);
      assert.notEqual(next.inLetters('B#4').text, 'B#4', 'no note: who says H raises that');
      next.answer('B');
      assert.deepEqual((await open(language)).inLetters('B4'), { text: 'B4', asks: null });
    }
  });
});

describe('do re mi', () => {
  it('asks where 440 Hz lies, once; either way and back', async () => {
    const la4 = await open();
    assert.deepEqual(la4.inLetters('sol4'), { text: 'sol4', asks: 'La' });
    la4.answer('la4');
    assert.equal(la4.inLetters('sol4 la bémol 4').text, 'G4 A♭4');
    assert.deepEqual(['C4', 'D4', 'E♭4', 'F♯4', 'G4', 'A4', 'B♭4', 'B4'].map(la4.said),
      ['Do4', 'Re4', 'Mi♭4', 'Fa♯4', 'Sol4', 'La4', 'Si♭4', 'Si4']);
    la4.choose('la3');
    assert.deepEqual(['A4', 'C4', 'B3', 'C2', 'C1', 'C0'].map(la4.said), ['La3', 'Do3', 'Si2', 'Do1', 'Do-1', 'Do-2']);
    assert.equal(la4.inLetters('la3 do1 do-1 do-2').text, 'A4 C2 C1 C0');
    assert.equal(la4.inLetters('do0').text, 'do0?');
  });

  it('is a way of saying; what a B means stays open', async () => {
    const { answer, inLetters, said, undecided } = await open('de');
    answer('la4');
    assert.equal(said('B♭4'), 'Si♭4');
    assert.equal(inLetters('B4').asks, 'B');
    answer('B♭');
    assert.equal(said('B♭4'), 'Si♭4');
    assert.equal(inLetters('B4').text, 'B♭4');
    assert.equal(undecided(), false);
  });

  it('what was kept and is none of it is not taken', async () => {
    shelf.set('canewright/notes', '{"way":3,"b":"B♭","x":1}');
    assert.equal((await open()).inLetters('B4').text, 'B♭4');
    shelf.set('canewright/notes', 'null');
    assert.equal((await open()).said('B4'), 'B4');
  });
});

// tests/web/bench_ear.test.mjs -- pitches typed from any other meter, and frames that become blows.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { noteHz, readPitch } from '../../web/bench/typed_pitch.js';

globalThis.document ??= { addEventListener() {} };
const { createEar } = await import('../../web/bench/listen.js');

const number = (text) => Number(text.replace(',', '.'));
const note = { name: 'D5', from_hz: 587.33, a4_hz: 440, expected_hz: 587.33 };
const read = (text, of = note) => readPitch(text, of, number);
/** Apart from what is expected [cents]. */
const cents = (text, hz, of) => 1200 * Math.log2(read(text, of).hz / hz);

describe('a pitch as typed', () => {
  // Equal temperament on A4 = 440 Hz: D5 is 5 semitones above, 587.3295 Hz (arithmetic).
  const D5 = 440 * 2 ** (5 / 12);
  it('notes have their frequencies', () => {
    assert.ok(Math.abs(noteHz('D5', 440) - D5) < 1e-9);
    assert.ok(Math.abs(noteHz('B♭4', 440) - 440 * 2 ** (1 / 12)) < 1e-9);
    assert.ok(Math.abs(noteHz('C4', 440) - 440 * 2 ** (-9 / 12)) < 1e-9);
    assert.ok(Math.abs(noteHz('A4', 415) - 415) < 1e-9);
    assert.equal(noteHz('H4', 440), null);
  });
  it('hertz, with comma or point', () => {
    for (const text of ['587,3 Hz', '587.3', ' 587.3hz ', '587,3 hertz']) assert.equal(read(text).hz, 587.3, text);
  });
  it('cents from the note, with sign or word', () => {
    for (const [text, off] of [['+12', 12], ['−7', -7], ['-7 cents', -7], ['12 flat', -12], ['3,5 sharp', 3.5],
      ['+0', 0], ['0', 0], ['D5 +12', 12], ['D5', 0], ['d5 −3', -3]]) {
      assert.ok(Math.abs(cents(text, D5) - off) < 1e-9, text);
    }
  });
  it('cents from another note that is named', () => {
    assert.ok(Math.abs(cents('C#5 +40', D5) + 60) < 1e-9);
    assert.ok(Math.abs(cents('E♭5 -30', D5) - 70) < 1e-9);
  });
  it('where the note has no name, from its own frequency', () => {
    assert.ok(Math.abs(cents('+12', 600, { ...note, name: null, from_hz: 600, expected_hz: 600 }) - 12) < 1e-9);
  });
  it('nonsense gets a sentence', () => {
    for (const text of ['', 'abc', '12', '+12 flat', '5,8,7', '1e3', 'D5 +', '++3', '+9999', '20 Hz', '5000', 'Infinity',
      'NaN', 'H4 +3', '٣', '9'.repeat(400)]) {
      assert.match(read(text).wrong ?? '', /\.$/, `“${text.slice(0, 20)}”`);
    }
  });
  it('another octave is told, not taken', () => {
    assert.match(read('1174').wrong, /second register/);
    assert.match(read('1770').wrong, /second register/);
    assert.match(read('293,7').wrong, /octave lower/);
    assert.equal(read('700').hz, 700, 'a third of an octave off is a reading');
  });
});

describe('frames become blows', () => {
  /** A workshop of our own: the sample's first value says what it hears. */
  const workshop = {
    async pitchFrame(samples) { return { tone: samples[0] > 0.1, why_not: 'silence', level_db: -20 }; },
    async heldTone(frames) {
      let held = 0;
      for (let i = frames.length - 1; i > 0 && frames[i].pitch.tone; i -= 1) held = frames.at(-1).s - frames[i].s;
      const tone = frames.at(-1).pitch.tone;
      return { state: !tone ? 'no_tone' : held < 0.4 ? 'hold_longer' : 'ready', hz: tone ? 440 : null,
        uncertainty_cents: 1, held_s: held };
    },
  };
  async function play(pieces) {
    const heard = { taken: [], lost: 0, said: [] };
    const ear = createEar(workshop, () => 48000, { wanted: () => 440, gone: () => false,
      tell: (news) => { if (news.held) heard.said.push(news.held.state); },
      take: (tone) => heard.taken.push(tone), lost: () => { heard.lost += 1; } });
    let s = 0;
    for (const [value, seconds] of pieces) {
      for (let n = Math.round(seconds / 0.05); n > 0; n -= 1) {
        s += 0.05;
        await ear(new Float32Array([value]), s);
      }
    }
    return heard;
  }
  it('a held tone is taken once, however long it is', async () => {
    const { taken, said } = await play([[0.01, 0.5], [0.5, 5], [0.01, 0.5]]);
    assert.equal(taken.length, 1);
    assert.ok(taken[0].held_s >= 1 - 1e-9);
    assert.ok(said.includes('hold_longer'));
  });
  it('three blows with pauses are three', async () => {
    const { taken } = await play([[0.5, 1.5], [0.01, 0.5], [0.5, 1.5], [0.01, 0.5], [0.5, 1.5]]);
    assert.equal(taken.length, 3);
  });
  it('a shorter tone that was ready counts when it ends, a shorter one does not', async () => {
    assert.equal((await play([[0.5, 0.7], [0.01, 0.5]])).taken.length, 1);
    assert.equal((await play([[0.5, 0.3], [0.01, 0.5]])).taken.length, 0);
  });
  it('a pause too short to breathe in is none', async () => {
    assert.equal((await play([[0.5, 1.5], [0.01, 0.15], [0.5, 1.5]])).taken.length, 1);
  });
  it('nothing but zeros for long: the microphone is gone', async () => {
    assert.equal((await play([[0.01, 0.5], [0, 1]])).lost, 0);
    assert.ok((await play([[0.01, 0.5], [0, 2]])).lost > 0);
  });
});

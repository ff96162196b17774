// tests/web/bench_ear.test.mjs -- pitches typed from any other meter, and frames that become blows.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';

globalThis.document ??= { addEventListener() {} };
const { createEar } = await import('../../web/ear/listen.js');
const { pitchWords } = await import('../../web/bench/typed_line.js');

describe('a typed pitch that is none', () => {
  it('gets a sentence of its own for each reason', () => {
    const said = [{ code: 'not_a_pitch', path: 'text' }, { code: 'too_small', path: 'hz', value: 20, limit: 150 },
      { code: 'too_large', path: 'hz', value: 5000, limit: 3000 },
      { code: 'too_large', path: 'cents', value: 9999, limit: 600 },
      { code: 'second_register', path: 'hz' }, { code: 'octave_below', path: 'hz' }, undefined]
      .map((violation) => pitchWords(violation, 'abc'));
    for (const words of said) assert.match(words, /^[“A-Z0-9].*\.$/);
    assert.equal(new Set(said.slice(0, 6)).size, 6);
    assert.match(said[1], /20 Hz .* at least 150 Hz/);
    assert.match(said[2], /5000 Hz .* at most 3000 Hz/);
  });
  it('quotes what was typed, but not all of a novel, and not nothing', () => {
    const none = { code: 'not_a_pitch', path: 'text' };
    assert.match(pitchWords(none, ' <b>12 '), /^“<b>12” is not a pitch/);
    assert.match(pitchWords(none, '9'.repeat(400)), /^“9{40}” /);
    assert.match(pitchWords(none, ' '), /^Write what/);
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

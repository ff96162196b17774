// tests/web/play.test.mjs -- how a reckoned beginning and the whole of it become one sound.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { HEAD_S, createPlayer } from '../../web/voice/hear/play.js';

const RATE = 1000;
/** Notes what is asked of the browser; its clock stands still. */
function fake() {
  const begun = [];
  class Context {
    currentTime = 5;
    destination = {};
    resume() { return Promise.resolve(); }
    createBuffer(_one, length, rate) { return { length, rate, copyToChannel() {} }; }
    createGain() {
      const events = [];
      const gain = {};
      for (const name of ['setValueAtTime', 'linearRampToValueAtTime', 'cancelScheduledValues', 'setTargetAtTime']) {
        gain[name] = (...given) => events.push([name, ...given]);
      }
      return { gain, events, connect: (to) => to };
    }
    createBufferSource() {
      const one = { playbackRate: {}, connect: (to) => { one.gain = to; return to; },
        start: (at, offset = 0) => { begun.push(Object.assign(one, { at, offset })); }, stop: (at) => { one.until = at; } };
      return one;
    }
  }
  globalThis.AudioContext = Context;
  return begun;
}
const sound = (seconds, peak) => ({ samples: new Float32Array(seconds * RATE), rate: RATE, peak, hz: 400 });
/** The greatest that a node was led to. */
const level = (one) => Math.max(...one.gain.events.filter(([name]) => name === 'setValueAtTime').map(([, value]) => value));

describe('a beginning and its whole', () => {
  const begun = fake();
  it('go over where the beginning is, at the place it has come to, as loud in pascals', async () => {
    const head = sound(HEAD_S + 0.12, 0.2);
    const whole = sound(1.12, 0.25);
    const player = createPlayer(() => {});
    void player.play(1, async () => ({ sound: head, factor: 1.02, seconds: 1.1, whole: Promise.resolve(whole) }));
    await new Promise((on) => { setTimeout(on, 5); });
    assert.equal(begun.length, 2);
    const [first, rest] = begun;
    assert.ok(rest.at > first.at && rest.at < first.at + HEAD_S / 1.02, 'while the beginning is blown');
    assert.ok(Math.abs(rest.offset - (rest.at - first.at) * 1.02) < 1e-12, `${rest.offset}`);
    assert.ok(Math.abs(level(rest) / level(first) - 0.25 / 0.2) < 1e-12);
    assert.ok(Math.abs(rest.until - (first.at + 1.1)) < 1e-9);
    const out = first.gain.events.at(-1);
    assert.deepEqual(out.slice(0, 2), ['linearRampToValueAtTime', 0]);
    assert.ok(out[2] > rest.at, 'one goes as the other comes');
    player.stop();
  });

  it('what was stopped does not go on', async () => {
    begun.length = 0;
    const player = createPlayer(() => {});
    /** @type {(whole: unknown) => void} */
    let arrives = () => {};
    void player.play(1, async () => ({ sound: sound(HEAD_S + 0.12, 0.2), factor: 1, seconds: 1,
      whole: new Promise((on) => { arrives = on; }) }));
    await new Promise((on) => { setTimeout(on, 5); });
    assert.equal(begun.length, 1);
    player.stop();
    assert.ok(begun[0].until < 5.1, 'at once');
    arrives(sound(1.12, 0.2));
    await new Promise((on) => { setTimeout(on, 5); });
    assert.equal(begun.length, 1);
  });
});

// tests/web/hold.test.mjs -- a button that is held repeats, and never after it was let go.
import assert from 'node:assert/strict';
import { afterEach, beforeEach, describe, it, mock } from 'node:test';
import { hold } from '../../web/widgets/hold.js';
import { sentence } from '../../web/text/violations.js';

const button = { isConnected: true };

const wait = (ms) => { for (let i = 0; i < ms; i += 10) mock.timers.tick(10); };

describe('a held button', () => {
  beforeEach(() => mock.timers.enable({ apis: ['setTimeout'] }));
  afterEach(() => mock.timers.reset());

  it('repeats while it is held, in larger steps after a while', () => {
    const acted = [];
    const press = { times: 0, since: performance.now() };
    hold(button, press, (times) => acted.push(times));
    wait(300);
    assert.deepEqual(acted, [], 'a touch is no holding');
    wait(4000);
    assert.ok(acted.length > 20);
    assert.deepEqual([acted[0], acted.at(-1)], [1, 10]);
    assert.equal(press.times, acted.length);
    press.since = 0;
    const then = acted.length;
    wait(4000);
    assert.equal(acted.length, then);
  });

  it('that was let go before its part was loaded does nothing', () => {
    const acted = [];
    hold(button, { times: 0, since: 0 }, () => acted.push(1));
    wait(4000);
    assert.deepEqual(acted, []);
  });
});

describe('a number of entries', () => {
  it('is not said as a size', () => {
    const state = { doc: { show: { unit: 'inch', fraction: 32 } } };
    const engine = { writeLength: () => 'a length' };
    for (const path of ['shop.bits', 'tube.bore', 'song.scale.cents', 'song.fingerings']) {
      const text = sentence({ code: 'too_large', path, value: 129, limit: 128 }, state, engine);
      assert.equal(text, '129 entries are too many; it takes at most 128.', path);
    }
  });
});

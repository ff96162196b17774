// tests/web/host.test.mjs -- the watched worker, with a worker and locks of the test's own: one that
// ends without a word, that cannot start, that takes long, that is stopped.
import assert from 'node:assert/strict';
import { beforeEach, describe, it, mock } from 'node:test';

/** Locks as the standard has them: one holder a name, the next one when that lets go. */
class Locks {
  held = new Map();
  waiting = [];
  async request(name, act) {
    if (this.held.has(name)) await new Promise((granted) => { this.waiting.push({ name, granted }); });
    this.held.set(name, true);
    await act();
    this.release(name);
  }
  release(name) {
    this.held.delete(name);
    const next = this.waiting.findIndex((w) => w.name === name);
    if (next >= 0) this.waiting.splice(next, 1)[0].granted();
  }
}

let workers = [];
let refuses = false;
class FakeWorker {
  posted = [];
  gone = false;
  constructor() {
    if (refuses) throw new Error('no workers');
    workers.push(this);
  }
  postMessage(data) {
    this.posted.push(data);
    if ('lock' in data && navigator.locks) {
      this.lock = data.lock;
      navigator.locks.held.set(data.lock, true);
      this.say({ lock: data.lock });
    }
  }
  say(data) { queueMicrotask(() => this.onmessage({ data })); }
  get questions() { return this.posted.filter((p) => p.question).map((p) => p.question.text); }
  answer(result) { this.say({ result }); }
  /** What self.close(), or a browser short of memory, does: no event, but the lock is free. */
  end() { if (!this.gone && this.lock) navigator.locks.release(this.lock); this.gone = true; }
  terminate() { this.end(); }
}
const wait = (ms = 5) => new Promise((later) => { setTimeout(later, ms); });
const last = () => workers[workers.length - 1];

globalThis.document ??= { baseURI: 'https://a.example/' };
document.baseURI ??= 'https://a.example/';
globalThis.window ??= globalThis;
globalThis.Worker = FakeWorker;
Object.defineProperty(globalThis, 'navigator', { value: {}, writable: true, configurable: true });
const { startWorker } = await import('../../web/engine/host.js');

let told = 0;
let host;
function begin({ locks = true } = {}) {
  workers = [];
  told = 0;
  globalThis.navigator = locks ? { locks: new Locks() } : {};
  host = startWorker('https://a.example/core/', {}, 'canewright', () => { told += 1; });
}
const question = (text, verb = 'solve') => ({ verb, text });

beforeEach(() => { refuses = false; begin(); });

describe('a watched worker', () => {
  it('answers one question after the other', async () => {
    const both = Promise.all([host.ask(question('a', 'link')), host.ask(question('b', 'link'))]);
    await wait();
    assert.deepEqual(last().questions, ['a']);
    last().answer('A');
    await wait();
    assert.deepEqual(last().questions, ['a', 'b']);
    last().answer('B');
    assert.deepEqual(await both, ['A', 'B']);
    assert.equal(told, 0);
  });

  it('that ends without a word in the middle is started again and asked again, and it is told', async () => {
    const reply = host.ask(question('a'));
    const second = host.ask(question('b', 'spread'));
    await wait();
    last().end();
    await wait();
    assert.equal(workers.length, 2);
    assert.equal(told, 1);
    assert.deepEqual(last().questions, ['a']);
    last().answer('A');
    assert.equal(await reply, 'A');
    await wait();
    last().answer('B');
    assert.equal(await second, 'B');
  });

  it('that ends while nothing is asked is there again for the next question', async () => {
    await wait();
    last().end();
    await wait();
    const reply = host.ask(question('a'));
    await wait();
    last().answer('A');
    assert.equal(await reply, 'A');
    assert.deepEqual([workers.length, told], [2, 1]);
  });

  it('is not asked a third time what ended it twice; the next question is', async () => {
    const bad = host.ask(question('bad'));
    const good = host.ask(question('good', 'link'));
    for (let n = 0; n < 2; n += 1) {
      await wait();
      last().end();
    }
    const { layout } = await bad;
    assert.match(layout.fault, /twice/);
    await wait();
    assert.deepEqual(last().questions, ['good']);
    last().answer('fine');
    assert.equal(await good, 'fine');
  });

  it('that reckons for hours is left alone', async () => {
    mock.timers.enable({ apis: ['setTimeout'] });
    try {
      const reply = host.ask(question('long'));
      for (let n = 0; n < 5; n += 1) await Promise.resolve();
      mock.timers.tick(7200000);
      for (let n = 0; n < 5; n += 1) await Promise.resolve();
      assert.deepEqual([workers.length, told], [1, 0]);
      last().answer('done');
      assert.equal(await reply, 'done');
    } finally {
      mock.timers.reset();
    }
  });

  it('without locks is given up after two silent minutes, not after one', async () => {
    begin({ locks: false });
    mock.timers.enable({ apis: ['setTimeout'] });
    try {
      const reply = host.ask(question('a'));
      mock.timers.tick(60000);
      assert.equal(workers.length, 1);
      mock.timers.tick(60001);
      assert.deepEqual([workers.length, told], [2, 1]);
      last().answer('A');
      assert.equal(await reply, 'A');
    } finally {
      mock.timers.reset();
    }
  });

  it('that cannot be had leaves the question to whoever asks', async () => {
    refuses = true;
    begin();
    assert.equal(await host.ask(question('a')), null);
    refuses = false;
    begin();
    const reply = host.ask(question('a'));
    await wait();
    last().say({ failed: 'out of memory' });
    assert.equal(await reply, null);
    assert.equal(await host.ask(question('b')), null);
    assert.equal(told, 0);
  });

  it('is ended to stop a question; what else waits is asked of the next one', async () => {
    const slow = host.ask(question('slow'));
    const other = host.ask(question('other', 'spread'));
    await wait();
    host.stop('solve');
    assert.deepEqual(await slow, { layout: { stopped: true }, fingerings: {} });
    await wait();
    assert.deepEqual([workers.length, told], [2, 0], 'what was asked for is no news');
    assert.deepEqual(last().questions, ['other']);
    last().answer('O');
    assert.equal(await other, 'O');
  });

  it('takes a wish first, and drops for it what is not wished for and takes long', async () => {
    const first = host.ask(question('spread 1', 'spread'));
    const second = host.ask(question('spread 2', 'spread'));
    const wish = host.ask(question('wish'));
    await wait(1100);
    assert.deepEqual([workers.length, told], [2, 0]);
    for (const text of ['wish', 'spread 2', 'spread 1']) {
      await wait();
      assert.equal(last().questions.at(-1), text);
      last().answer(text);
    }
    assert.deepEqual(await Promise.all([wish, first, second]), ['wish', 'spread 1', 'spread 2']);
  });
});

// web/engine/host.js: a worker that is asked one question after the other, and watched: one that ends
// without a word (a browser that is short of memory says none) is started again, and asked again.

import { newWorker } from './where.js';

/** Where the browser has no lock to watch a worker by (a page without https), silence for so long is
 * taken for its end. The slowest permitted document took 13 s on a desktop; a phone is four times slower. */
const SILENT_MS = 120000;
const OVERTAKEN_MS = 1000;  // what is wished for does not wait longer for what is not
const MOST_TRIES = 2;       // a question that ends its worker twice is not asked again

/** What somebody waits for, before what is only good to know. */
const MARKS = ['marks', 'solve'];  // what an entry asks: without reasons, with them
const WISHES = [...MARKS, 'next'];

/** A reply that answers nothing, in the question's shape. @param {Question} question @param {object} reply */
const shaped = ({ verb }, reply) => (MARKS.includes(verb) ? { layout: reply, fingerings: {} } : reply);

/**
 * @param {string} folder @param {WebAssembly.Module} module @param {string} name
 * @param {() => void} restarted told when a worker had ended by itself
 * @returns {Host}
 */
export function startWorker(folder, module, name, restarted) {
  /** @typedef {{question: Question, answer: (result: any) => void, tries: number}} Waiting */
  /** The first one is under way while `asked` is it. @type {Waiting[]} */
  let queue = [];
  /** @type {Waiting | null} */
  let asked = null;
  /** @type {Worker | null} */
  let worker = null;
  let spoke = false;    // the present one
  let watched = false;  // by its lock
  let none = false;     // workers there are none: whoever asks has to reckon
  let timer = 0;

  function end() {
    clearTimeout(timer);
    worker?.terminate();
    worker = asked = null;
    spoke = watched = false;
  }
  function giveUp() {
    none = true;
    end();
    queue.splice(0).forEach(({ answer }) => answer(null));
  }
  /** By itself, in the middle of a question or between two. */
  function died() {
    const first = asked;
    end();
    if (first !== null) first.tries += 1;
    if (first !== null && first.tries >= MOST_TRIES) {
      queue.shift();
      first.answer(shaped(first.question, { fault: 'it ended twice without an answer' }));
    }
    restarted();
    next();
  }
  function start() {
    const mine = worker = newWorker();
    const current = () => worker === mine;
    mine.onerror = () => { if (current()) (spoke ? died : giveUp)(); };
    mine.onmessage = ({ data }) => {
      if (!current()) return;
      spoke = true;
      if (data.lock) {
        watched = true;
        // Granted when nobody holds it any more.
        navigator.locks.request(data.lock, () => { if (current()) died(); }).catch(() => { watched = false; });
      } else if (data.failed) giveUp();
      else if (asked !== null) {
        clearTimeout(timer);
        const { answer } = asked;
        asked = null;
        queue.shift();
        next();
        answer(data.result);
      }
    };
    mine.postMessage({ folder, module, name, lock: `canewright ${name} ${Math.random()}` });
  }
  function next() {
    if (asked !== null || queue.length === 0) return;
    try {
      if (worker === null) start();
      asked = queue[0];
      worker?.postMessage({ question: asked.question });
      timer = window.setTimeout(() => { if (!watched) died(); }, SILENT_MS);
    } catch {
      giveUp();
    }
  }
  try {
    start();
  } catch {
    giveUp();
  }

  return {
    ask: (question) => new Promise((answer) => {
      if (none) return answer(null);
      const mine = { question, answer, tries: 0 };
      const wish = WISHES.includes(question.verb);
      if (wish) queue.splice(asked === null ? 0 : 1, 0, mine);
      else queue.push(mine);
      next();
      const before = asked;
      if (!wish || before === null || WISHES.includes(before.question.verb)) return;
      setTimeout(() => {
        if (asked !== before) return;
        end();
        queue.push(...queue.splice(0, 1));
        next();
      }, OVERTAKEN_MS);
    }),
    stop(verb) {
      const gone = queue.filter(({ question }) => question.verb === verb);
      queue = queue.filter((one) => !gone.includes(one));
      if (asked !== null && gone.includes(asked)) end();
      gone.forEach(({ question, answer }) => answer(shaped(question, { stopped: true })));
      next();
    },
  };
}

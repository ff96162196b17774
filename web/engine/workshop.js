// web/engine/workshop.js: the second, larger module: what the bench, the shelf, paper and links
// ask. Loaded when first needed, in a worker of its own.

import { startWorker } from './host.js';
import { ask, compileCore, runCore, startCore, wellFormed } from './start_core.js';

/** @param {() => void} restarted told when its worker had ended by itself
 * @returns {Promise<Workshop>} */
export async function loadWorkshop(restarted) {
  const folder = new URL('core/', document.baseURI).href;
  const module = await compileCore(folder, 'workshop');
  const host = startWorker(folder, module, 'workshop', restarted);
  // What is typed is read beside the field, at once; and all, where there is no worker.
  const beside = await startCore(folder, module, 'workshop').catch(() => null);
  /** @type {Promise<any> | null} */
  let here = beside === null ? null : Promise.resolve(beside);
  /** @param {Question} question @returns {Promise<any>} */
  const reckon = async (question) => {
    const there = await host.ask(question);
    if (there !== null) return there;
    here ??= startCore(folder, module, 'workshop');
    try {
      return ask(await here, question);
    } catch (error) {
      here = null;  // memory may be free later
      const fault = { fault: String(error) };
      return question.verb === 'solve' ? { layout: fault, fingerings: {} } : fault;
    }
  };
  /** @param {string} verb @param {unknown} of */
  const verb = (verb, of) => reckon({ verb, text: JSON.stringify(of) });
  /** @param {string} name @param {unknown} of @returns {any} */
  const atOnce = (name, of) => (beside === null ? { fault: 'no memory' } : runCore(beside, name, JSON.stringify(of)));
  return {
    stop: (of) => host.stop(of),
    next: (doc) => verb('next', doc),
    voice: (doc) => verb('voice', doc),
    opening: (doc) => verb('opening', doc),
    suitsPart: (asked) => verb('suits_part', asked),
    suitsOf: (asked) => verb('suits_of', asked),
    drills: () => reckon({ verb: 'drills', text: '' }),
    mends: (doc) => verb('mends', doc),
    reach: (hand) => verb('reach', hand),
    grip: (doc) => verb('grip', doc),
    tone: (asked) => verb('tone', asked),
    tune: (asked) => verb('tune', asked),
    wave: (asked) => verb('wave', asked),
    pattern: (doc) => verb('pattern', doc),
    hand: (documents) => verb('hand', { documents }),
    link: (doc) => verb('link', doc),
    unlink: (text) => reckon({ verb: 'unlink', text: wellFormed(text) }),
    layout: (doc) => verb('layout', doc),
    sound: (doc) => verb('sound', doc),
    spread: (answer) => verb('spread', answer),
    solve: (doc) => verb('solve', doc),
    builds: (answer, builds) => reckon({ verb: 'builds', text: JSON.stringify(answer), builds }),
    strokes: (blows) => verb('strokes', blows),
    reading: (typed) => atOnce('reading', typed),
    bore: (what) => atOnce('bore', what),
    attempts: (heard) => verb('attempts', heard),
    pitchFrame: (samples, rate) => reckon({ verb: 'pitchFrame', text: '', samples, rate }),
    heldTone: (frames, expected) => reckon({ verb: 'heldTone', text: JSON.stringify(frames), expected }),
  };
}

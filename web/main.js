// web/main.js: puts the page together: engine, state, stations.

import { loadEngine } from './engine/engine.js';
import { newestNext } from './engine/newest.js';
import { createStore } from './state/store.js';
import { createDesk, isBlank, isUnmet } from './state/desk.js';
import { keepEarly, recall } from './state/keep.js';
import { spreadAlways } from './state/sure.js';
import { stations } from './widgets/stations.js';
import { cane } from './cane/cane.js';
import { song } from './song/song.js';
import { marks } from './marks/marks.js';

const STATIONS = ['cane', 'song', 'marks', 'voice', 'bench', 'shelf'];
const LONG_MS = 300;  // before the page says that it is still reckoning
const REST_MS = 200;  // after the last key, before what holds the notes back is looked for

/** What one run of the core changes. An answer replaces the last one; anything else leaves it.
 * @param {State} s @param {Doc} doc @param {Solved} result @returns {State} */
function withResult(s, doc, { layout, fingerings }) {
  const chart = fingerings.answer?.fingerings ?? s.chart;
  const stopped = layout.stopped === true;
  if (layout.answer) {
    const unexplained = layout.answer.binding === null;
    // Until then those of the marks before, where they can be meant.
    const answer = unexplained ? { ...layout.answer, binding:
      s.answer.finger_holes.length === layout.answer.finger_holes.length ? s.answer.binding : [] } : layout.answer;
    return { ...s, answer, unexplained, good: doc, problems: [], fault: '', chart, stopped };
  }
  return { ...s, problems: layout.violations ?? [], fault: layout.fault ?? '', chart, stopped };
}

/** The state to begin with: what was kept, else the example; always with an answer.
 * @param {Engine} engine @param {Doc} example @returns {Promise<State>} */
async function firstState(engine, example) {
  const kept = recall();
  const { typed = {}, aside = {}, station = '', doc = example } = kept ?? {};
  const wrong = kept === null ? null : { doc, result: await engine.solve(doc) };
  for (const good of kept === null ? [example] : [doc, kept.good, example]) {
    const result = good === doc && wrong !== null ? wrong.result : await engine.solve(good);
    if (!result.layout.answer) continue;
    /** @type {State} */
    const start = {
      doc, good: good === example && kept !== null && isBlank(kept) ? kept.good : good, answer: result.layout.answer, problems: [], fault: '', typed, aside,
      chart: result.fingerings.answer?.fingerings ?? [],
      station: STATIONS.includes(station) ? station : 'marks',
      example: JSON.stringify(example), before: null, plan: null, working: false, unexplained: false, stopped: false, keeps: true, built: null,
      sure: null, sureOf: result.layout.answer, unsure: '', trial: null,
    };
    return good === doc || wrong === null ? start : withResult(start, doc, wrong.result);
  }
  throw new Error('no answer to the example');
}

async function start() {
  const [engine] = await Promise.all([loadEngine(), named()]);
  const [{ answer: choices }, { answer: example }] = await Promise.all([engine.choices(), engine.example()]);
  if (!choices || !example) throw new Error('no choices, or no example');
  const store = createStore(await firstState(engine, example));
  /** @type {Desk} */
  const desk = createDesk(store, engine, choices, async () => {
    if (!isBlank(store.get()) && !isUnmet(store.get())) await (await import('./paper/paper.js')).openPaper(desk);
  });

  solveAlways(store, engine);  // before any room: the core is asked first, and reckons while they are drawn
  const whole = stations(desk, { main: element('stations'), bar: element('bar'), top: element('top') }, [
    { key: 'cane', name: 'Cane', build: cane(desk) },
    { key: 'song', name: 'Song', build: song(desk) },
    { key: 'marks', name: 'Marks', build: marks(desk) },
    { key: 'voice', name: 'Voice', load: async () => (await import('./voice/voice.js')).voice(desk) },
    { key: 'bench', name: 'Bench', load: async () => (await import('./bench/bench.js')).bench(desk) },
    { key: 'shelf', name: 'Shelf', load: async () => (await import('./shelf/shelf.js')).shelf(desk) },
  ], async () => (await import('./guide/guide.js')).openGuide(desk));
  const early = () => keepEarly(store.get());
  addEventListener('pagehide', early);
  spreadAlways(store, engine);
  await whole;
  // Now that every field is on the page, each can say what is wrong with it since the last visit.
  store.change((s) => (desk.troubles(s).length > 0 ? { ...s } : s));
  import('./shelf/listen.js').then((m) => { m.listen(desk); removeEventListener('pagehide', early); })
    .catch(() => store.change((s) => ({ ...s, keeps: false })));
  import('./suits/suits.js').then((m) => m.suits(desk)).catch(() => {});
}

/** Who may say notes otherwise than the core finds them so at once. */
async function named() {
  try {
    if (localStorage.getItem('canewright/notes') || !/^en/.test(navigator.language)) {
      (await import('./text/naming.js')).useNaming();
    }
  } catch { /* then in letters, until it is there */ }
}

/** @param {Store} store @param {Engine} engine */
function solveAlways(store, engine) {
  let timer = 0;
  /** @param {boolean} working */
  const say = (working) => store.change((s) => (s.working === working ? s : { ...s, working }));
  let rest = 0;
  /** What holds back the marks that are shown, whatever is being typed. @param {Doc} good */
  const explain = async (good) => {
    const { layout } = await engine.solve(good);
    if (store.get().good !== good) return;
    store.change((s) => {
      const answer = layout.answer ?? { ...s.answer, binding: [] };  // those of the marks before say nothing of these
      return { ...s, answer, unexplained: false, fault: layout.fault ?? s.fault,
        // The same marks: the same bands. The workshop may have found others.
        sureOf: s.sureOf === s.answer && JSON.stringify(answer.notes) === JSON.stringify(s.answer.notes) ? answer : s.sureOf };
    });
  };
  const ask = newestNext((/** @type {Doc} */ doc) => engine.marks(doc), (result, doc, newest) => {
    // What is wrong with an entry that has changed since is no news.
    if (newest || result.layout.answer) store.change((s) => withResult(s, doc, result));
    if (!newest) return;
    const { unexplained, good } = store.get();
    if (unexplained) rest = window.setTimeout(() => void explain(good), REST_MS);
    clearTimeout(timer);
    timer = 0;
    say(false);
  }, () => engine.stop());
  let asked = store.get().doc;
  store.subscribe((s) => {
    if (s.doc === asked) return;
    asked = s.doc;
    clearTimeout(rest);
    if (timer === 0) timer = window.setTimeout(() => say(true), LONG_MS);
    void ask(s.doc);
  });
}

/** @param {string} id */
function element(id) {
  const found = document.getElementById(id);
  if (found === null) throw new Error(`no #${id}`);
  return found;
}

start().catch((error) => {
  const again = document.createElement('button');
  again.className = 'take';
  again.textContent = 'Try again';
  again.onclick = () => location.reload();
  const words = document.createElement('p');
  words.append('The page could not start its calculation. What this browser keeps '
    + `stays as it is. Close what else is open and try again, or use a newer browser. (${String(error)}) `, again);
  words.className = 'station';
  element('stations').replaceChildren(words);
});

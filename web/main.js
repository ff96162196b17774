// web/main.js: puts the page together: engine, state, stations.

import { loadEngine } from './engine/engine.js';
import { latestOnly } from './engine/latest.js';
import { createStore } from './state/store.js';
import { createDesk } from './state/desk.js';
import { keep, recall } from './state/keep.js';
import { stations } from './views/stations.js';
import { cane } from './views/cane.js';
import { song } from './views/song.js';
import { marks } from './views/marks.js';

/** @typedef {import('./state/types.js').State} State */
/** @typedef {import('./state/types.js').Doc} Doc */
/** @typedef {import('./state/types.js').Engine} Engine */

const KEEP_AFTER_MS = 150;

/** @param {Engine} engine @param {Doc} doc */
const solve = (engine, doc) => ({ layout: engine.layout(doc), chart: engine.fingerings(doc) });

/** What one run of the core changes. An answer replaces the last one; anything else leaves it.
 * @param {State} s @param {Doc} doc @param {ReturnType<typeof solve>} result @returns {State} */
function withResult(s, doc, { layout, chart }) {
  const rows = chart.answer?.fingerings ?? s.chart;
  if (layout.answer) {
    return { ...s, answer: layout.answer, good: doc, problems: [], fault: '', chart: rows };
  }
  return { ...s, problems: layout.violations ?? [], fault: layout.fault ?? '', chart: rows };
}

/** The state to begin with: what was kept, else the example; always with an answer.
 * @param {Engine} engine @returns {State} */
function firstState(engine) {
  const example = engine.example().answer;
  if (!example) throw new Error('no example');
  const kept = recall();
  for (const good of kept === null ? [example] : [kept.doc, kept.good, example]) {
    const result = solve(engine, good);
    if (!result.layout.answer) continue;
    /** @type {State} */
    const start = {
      doc: kept?.doc ?? good, good, answer: result.layout.answer, problems: [], fault: '',
      typed: kept?.typed ?? {}, aside: kept?.aside ?? {}, chart: result.chart.answer?.fingerings ?? [],
      station: ['cane', 'song', 'marks'].includes(kept?.station ?? '') ? kept?.station ?? 'marks'
        : 'marks',
      example: JSON.stringify(example), before: null, keeps: true,
    };
    return start.doc === good ? start : withResult(start, start.doc, solve(engine, start.doc));
  }
  throw new Error('no answer to the example');
}

async function start() {
  const engine = await loadEngine();
  const choices = engine.choices().answer;
  if (!choices) throw new Error('no choices');
  const store = createStore(firstState(engine));
  const desk = createDesk(store, engine, choices);

  stations(desk, { main: element('stations'), bar: element('bar') }, [
    { key: 'cane', name: 'Cane', title: 'Cane', content: cane(desk) },
    { key: 'song', name: 'Song', title: 'Song', content: song(desk) },
    { key: 'marks', name: 'Marks', title: 'Marks', content: marks(desk) },
  ]);

  const recompute = latestOnly((/** @type {Doc} */ doc) => solve(engine, doc),
    (result, doc) => store.change((s) => withResult(s, doc, result)));
  let solved = store.get().doc;
  store.subscribe((s) => {
    if (s.doc === solved) return;
    solved = s.doc;
    void recompute(s.doc);
  });
  keepAlways(store);
}

/** @param {import('./state/desk.js').Store} store */
function keepAlways(store) {
  let timer = 0;
  const now = () => {
    const keeps = keep(store.get());
    store.change((s) => (s.keeps === keeps ? s : { ...s, keeps }));
  };
  let first = true;
  store.subscribe(() => {
    clearTimeout(timer);
    if (!first) timer = window.setTimeout(now, KEEP_AFTER_MS);
    first = false;
  });
  window.addEventListener('pagehide', now);
  document.addEventListener('visibilitychange', now);
}

/** @param {string} id */
function element(id) {
  const found = document.getElementById(id);
  if (found === null) throw new Error(`no #${id}`);
  return found;
}

start().catch((error) => {
  element('stations').textContent = 'The page could not start its calculation. Reload it, or open it '
    + `in a newer browser. (${String(error)})`;
});

// web/engine/engine.js: what the page may ask of the acoustics core: lengths at once, what takes
// longer by a worker, so that typing never waits for it.

import { startWorker } from './host.js';
import { ask, compileCore, startCore, wellFormed } from './start_core.js';

/** Loads ./core/ beside the page; rejects where the browser cannot run it. */
export async function loadEngine() {
  const folder = new URL('core/', document.baseURI).href;
  const module = await compileCore(folder);
  const core = await startCore(folder, module);
  /** @type {() => void} */
  let tell = () => {};
  const restarted = () => tell();
  const there = startWorker(folder, module, 'canewright', restarted);
  /** What is told about marks that stand, in a worker of its own: the next key never waits for it.
   * @type {Host | null} */
  let beside = null;
  /** @type {Promise<Workshop> | null} */
  let workshop = null;
  /** @param {Question} question */
  const reckon = async (question) => (await there.ask(question)) ?? ask(core, question);
  let wished = false;  // marks were asked for since the page stands: until then one worker is enough
  /** @param {Question} question */
  const reckonBeside = async (question) => {
    if (!wished) return reckon(question);
    beside ??= startWorker(folder, module, 'canewright', restarted);
    return (await beside.ask(question)) ?? ask(core, question);
  };
  // Readings, patterns and octaves are heeded by the workshop alone.
  /** @param {Doc} doc */
  const isTaught = (doc) => doc.log?.length || doc.pattern;
  /** @param {Doc} doc */
  const heeds = (doc) => isTaught(doc) || doc.song?.octaves_weight;
  /** Of the workshop; its fault where it cannot be loaded. @template T @param {(workshop: Workshop) => Promise<Reply<T>>} act
   * @returns {Promise<Reply<T>>} */
  const inWorkshop = async (act) => {
    try {
      return await act(await engine.workshop());
    } catch (error) {
      return { fault: String(error) };
    }
  };
  /** @param {Doc} doc @returns {Promise<Solved>} */
  const heeding = async (doc) => {
    try {
      return await (await engine.workshop()).solve(doc);
    } catch (error) {
      return { layout: { fault: String(error) }, fingerings: {} };
    }
  };

  /** What did not converge the workshop may still find, at rest: it has more means. @param {Doc} doc @param {Solved} solved */
  const better = async (doc, solved) => {
    if (solved.layout.answer?.converged !== false) return solved;
    const found = await heeding(doc);
    return found.layout.answer ? found : solved;
  };

  /** @type {(doc: Doc, solved: Solved) => Solved | Promise<Solved>} */
  let after = (_doc, solved) => solved;

  const engine = {
    /** @returns {Promise<Reply<Doc>>} */
    example: () => reckon({ verb: 'example', text: '' }),
    /** @returns {Promise<Reply<Choices>>} */
    choices: () => reckon({ verb: 'choices', text: '' }),

    /** Marks and the usual fingerings for a document. @param {Doc} doc @returns {Promise<Solved>} */
    solve: async (doc) => after(doc, await engine.anew(doc)),

    /** The same, sooner: where `binding` is null, what holds the notes is still to be asked for.
     * @param {Doc} doc @returns {Promise<Solved>} */
    marks: async (doc) => {
      wished = true;
      if (heeds(doc)) return engine.solve(doc);
      return after(doc, await reckon({ verb: 'marks', text: JSON.stringify(doc) }));
    },

    /** The same by this version alone, whatever stands. @param {Doc} doc @returns {Promise<Solved>} */
    anew: async (doc) => (heeds(doc) ? heeding(doc)
      : better(doc, await reckonBeside({ verb: 'solve', text: JSON.stringify(doc) }))),

    /** What becomes of each solution before it is shown. @param {typeof after} act */
    afterwards(act) { after = act; },

    /** Ends what `solve` is at: its reply is that it was stopped. */
    stop() {
      there.stop('marks');
      there.stop('solve');
      beside?.stop('solve');
      void workshop?.then((w) => w.stop('solve')).catch(() => {});
    },

    /** Says when a worker had ended by itself and was started again. @param {() => void} listener */
    onRestart(listener) { tell = listener; },

    /** How sure the notes of a layout are. @param {Answer} answer @returns {Promise<Reply<Spread>>} */
    spread: (answer) => (isTaught(answer) ? inWorkshop((w) => w.spread(answer))
      : reckonBeside({ verb: 'spread', text: JSON.stringify(answer) })),

    /**
     * Flutes number `from` up to but without `to` of a series, added to those before.
     * @param {Answer} answer @param {number} from @param {number} to
     * @param {number} seed of the series @param {unknown} [sums] of the piece before
     * @returns {Promise<Reply<Builds>>}
     */
    builds: (answer, from, to, seed, sums) => inWorkshop((w) =>
      w.builds(answer, { from, to, seed, before: sums === undefined ? '' : JSON.stringify(sums) })),

    /** What the bench, the shelf and links need, loaded when first asked for.
     * @returns {Promise<Workshop>} */
    workshop() {
      workshop ??= import('./workshop.js').then((m) => m.loadWorkshop(restarted));
      workshop.catch(() => { workshop = null; });  // a lost connection may come back
      return workshop;
    },

    /**
     * @param {string} text @param {string} unit assumed where the text names none
     * @returns {{mm: number} | {violations: Violation[]}}
     */
    readLength(text, unit) {
      try {
        return JSON.parse(core.readLength(wellFormed(text), unit));
      } catch (error) {
        return { violations: [{ code: 'fault', path: '', value: String(error) }] };
      }
    },

    /** @param {number} mm @param {string} unit @param {number} fraction @returns {string} */
    writeLength(mm, unit, fraction) {
      return Number.isFinite(mm) ? core.writeLength(mm, unit, fraction) : '';
    },
  };
  return engine;
}

// web/engine/engine.js: the only file that knows the acoustics module. Text in, text out there;
// objects here. Anything that fails inside comes back as {fault}.

/** @typedef {import('../state/types.js').Violation} Violation */
/** @typedef {import('../state/types.js').Doc} Doc */
/**
 * @template T
 * @typedef {{answer?: T, violations?: Violation[], fault?: string}} Reply
 */
/** @typedef {Awaited<ReturnType<typeof loadEngine>>} Engine */

/** Loads ./core/ beside the page; rejects where the browser cannot run it. */
export async function loadEngine() {
  const folder = new URL('../core/', import.meta.url);
  const { default: create } = await import(new URL('canewright.js', folder).href);
  const core = await create({
    /** @param {string} name */
    locateFile: (name) => new URL(name, folder).href,
  });

  /** @param {string} verb @param {string} text @returns {Reply<any>} */
  function run(verb, text) {
    try {
      return JSON.parse(core.run(verb, wellFormed(text)));
    } catch (error) {
      return { fault: String(error) };
    }
  }

  return {
    /** @returns {Reply<Doc>} */
    example: () => run('example', ''),
    /** @returns {Reply<import('../state/types.js').Choices>} */
    choices: () => run('choices', ''),
    /** @param {Doc} doc @returns {Reply<import('../state/types.js').Answer>} */
    layout: (doc) => run('layout', JSON.stringify(doc)),
    /** @param {Doc} doc @returns {Reply<{fingerings: import('../state/types.js').ChartRow[]}>} */
    fingerings: (doc) => run('fingerings', JSON.stringify(doc)),

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
      return Number.isFinite(mm) ? core.writeLength(mm, unit, fraction).replace(/ mm$/, '') : '';
    },
  };
}

// A lone surrogate would become another character at the boundary.
/** @param {string} text */
function wellFormed(text) {
  return [...text].map((c) => (/^[\uD800-\uDFFF]$/.test(c) ? '\uFFFD' : c)).join('');
}

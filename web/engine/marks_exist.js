// web/engine/marks_exist.js: no number where a mark should be is a fault, not a mark at nought.
// The core does not send such an answer; a page must not saw by one that came all the same.

/** What a maker would cut by, in the answers of the two verbs that say where.
 * @param {string} verb @param {any} answer @returns {unknown[]} each has to be a finite number */
function marks(verb, answer) {
  const holes = (answer.finger_holes ?? [null])
    .flatMap((/** @type {any} */ hole) => [hole?.at_mm, hole?.diameter_mm]);
  if (verb !== 'next') {
    const { foot_mm: foot, worst_cents: worst, notes, cane } = answer;
    // The farthest note is not known where one does not speak.
    const silent = (notes ?? []).some((/** @type {any} */ note) => note.hz === null);
    return [foot, ...holes, cane?.spare_mm, ...(silent && worst === null ? [] : [worst]),
      ...(notes ?? []).map((/** @type {any} */ note) => note.target_hz)];
  }
  const { step, foot_mm: foot } = answer;
  return [foot, ...holes,
    ...['at_mm', 'diameter_mm', 'size_mm', 'length_mm'].flatMap((key) => (step && key in step ? [step[key]] : [])),
    ...(step?.until === undefined ? [] : [step.until.hz])];
}

/** A reply as it may enter the page. @param {string} verb @param {any} reply @returns {any} */
export function withMarks(verb, reply) {
  if (!['layout', 'marks', 'next'].includes(verb) || !reply.answer) return reply;
  return marks(verb, reply.answer).every(Number.isFinite) ? reply
    : { fault: 'a mark without a number; the last good marks stand' };
}

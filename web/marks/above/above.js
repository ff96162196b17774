// web/marks/above/above.js: the marks of what lies above the finger holes, and each part's size with what it
// comes from: as entered, or as proposed for this tube. Loaded when it is opened.

import { h, say } from '../../widgets/dom.js';
import { aboveMarks, aboveSizes, misfits, withProposed } from '../../state/above.js';
import { datumShift } from '../../state/desk.js';
import { onChange } from '../../state/store.js';
import { inUnit, lengthWords, otherUnit } from '../../text/numbers.js';
import { ABOVE_MARKS, A_MADE_PLUG, HOW_TO_MEASURE_THESE, MADE_PLUG, MEASURING, NO_NODE, doesNotFit, partName,
  sizeWords, whereFrom } from '../../text/parts.js';
import { goTo } from '../../widgets/reveal.js';
import { CHANGE_THERE, FROM_DATUM, NOT_HERE, ON_VOICE, ONE_MOMENT, PART_SIZES } from './words.js';

/** @param {Desk} desk @returns {Node[]} */
export function above(desk) {
  const news = h('p', { class: 'note', role: 'status' });
  const places = h('dl', { class: 'totals' });
  const sizes = h('dl', {});
  const wrong = h('div');
  /** @type {Answer | null} */
  let asked = null;
  /** @type {{of: Answer, proposed: Proposal[]}} */
  let told = { of: desk.store.get().answer, proposed: [] };

  /** @param {Answer} answer */
  async function ask(answer) {
    asked = answer;
    say(news, ONE_MOMENT);
    const reply = await desk.engine.workshop().then((w) => w.voice(answer)).catch(() => null);
    if (asked !== answer) return;
    say(news, reply?.answer ? '' : NOT_HERE);
    told = { of: answer, proposed: reply?.answer?.proposed ?? [] };
    render(desk.store.get());
  }

  /** @param {State} s */
  function render(s) {
    const { flute, proposals } = withProposed(s.answer, told.of === s.answer ? told.proposed : []);
    const shift = datumShift({ show: s.doc.show, sound_hole: s.answer.sound_hole });
    const marks = aboveMarks(flute).filter(({ what }) => what !== 'centre');
    /** @param {string} path @param {number} mm */
    const write = (path, mm) => sizeWords(path, mm, s, desk.engine);
    places.replaceChildren(...marks.flatMap(({ what, at_mm, of }) => [
      h('dt', {}, `${ABOVE_MARKS[what]}${of.some((path) => proposals.has(path)) ? ' *' : ''}`),
      h('dd', {}, `${inUnit(at_mm + shift, s, desk.engine)} `, h('span', { class: 'small' },
        otherUnit(at_mm + shift, s, desk.engine)))]));
    sizes.replaceChildren(...aboveSizes(flute, proposals).flatMap((of) => [
      h('dt', {}, `${partName(of.path)}${of.mm === null ? '' : ` ${write(of.path, of.mm)}`}`),
      h('dd', {}, whereFrom(of, write))]));
    wrong.replaceChildren(...misfits(flute).map(({ path, needs_mm: needs, has_mm: has }) => h('p', {},
      doesNotFit(path, lengthWords(needs, s, desk.engine), lengthWords(has, s, desk.engine)))));
  }

  desk.store.subscribe(onChange((s) => [s.answer, JSON.stringify(s.doc.show)], (s) => {
    render(s);
    if (s.answer !== asked) void ask(s.answer);
  }));
  /** @param {[string, string][]} all */
  const list = (all) => h('dl', {}, ...all.flatMap(([what, how]) => [h('dt', {}, what), h('dd', {}, how)]));
  return [news, h('p', { class: 'note' }, FROM_DATUM), wrong, places, h('h4', {}, PART_SIZES), sizes,
    h('p', {}, ON_VOICE, h('button', { type: 'button', class: 'inline', onclick: () => goTo(desk, 'voice') },
      CHANGE_THERE)),
    h('h4', {}, HOW_TO_MEASURE_THESE), list(MEASURING), h('h4', {}, A_MADE_PLUG), h('p', {}, NO_NODE),
    list(MADE_PLUG)];
}

// web/song/steps.js: a scale of the maker's own, in cents. Loaded when somebody has one.

import { field } from '../widgets/field.js';
import { numberReader } from '../state/readers.js';
import { STEPS } from './words.js';

/** A scale in cents, such as "0 300 500". @param {Engine} engine @returns {Reader} */
function centsReader(engine) {
  const number = numberReader(engine);
  return (text) => {
    const cents = [];
    for (const item of text.split(/;|,\s+|\s+/).filter((part) => part !== '')) {
      const read = number(item, 'mm');
      if ('problem' in read) return { problem: { code: 'not_cents', path: '', value: item } };
      cents.push(read.value);
    }
    return { value: { cents } };
  };
}

/** @param {Desk} desk @returns {Node} */
export function ownSteps(desk) {
  const own = field(desk, 'song.scale', {
    ...STEPS, wide: true, words: true,  // a pad for figures may have no space
    read: centsReader(desk.engine), when: () => !own.element.hidden,
    write: (v) => (typeof v === 'object' ? v.cents.join(' ') : ''),
  });
  desk.store.subscribe((s) => { own.element.hidden = typeof s.doc.song.scale === 'string'; });
  return own.element;
}

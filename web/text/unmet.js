// web/text/unmet.js: that a song cannot be had of this tube, and what would do. Loaded when it is so.

import { ANOTHER_NOTE_CENTS } from '../state/desk.js';
import { bindingSentence } from './limits.js';
import { noteName } from './numbers.js';
import { SHORT } from './verdict.js';

export const LET_IT_FLOAT = 'Let it float';

const NO_MARKS = 'No marks: nobody should cut them.';
/** Limits that press together what is too high for its tube; all others keep apart what wants more room. */
const CLOSE = ['spacing_min', 'edge', 'sound_hole', 'foot_clearance'];

/** @param {State} s one whose song is unmet @param {Engine} engine
 * @returns {{wrong: string, would: string, floats: boolean}} `floats`: whether leaving it to the tube helps;
 *   which other note would do, and how well, is suits' to try */
export function unmetWords(s, engine) {
  const { answer } = s;
  const { notes, binding, cane, song } = answer;
  const lowest = notes.find((note) => note.open.length === 0);
  const name = noteName(lowest?.name) || 'the lowest note';
  const silent = notes.filter((note) => note.hz === null || note.cents === null);
  const worst = [...notes].sort((a, b) => Math.abs(b.cents ?? 0) - Math.abs(a.cents ?? 0))[0];
  const off = worst?.cents ?? 0;
  const all = notes.every((note) => Math.sign(note.cents ?? 0) === Math.sign(off) && Math.abs(note.cents ?? 0) > ANOTHER_NOTE_CENTS);
  const top = [...binding].sort((a, b) => (b.costs_cents ?? 0) - (a.costs_cents ?? 0));
  if (song.lowest !== 'free' && cane.warnings.includes(SHORT)) {
    const sounds = cane.lowest_name === null ? '' : ` Uncut it gives no note below ${noteName(cane.lowest_name)}.`;
    return { wrong: `This tube is too short for ${name}. ${NO_MARKS}`, would: `${sounds} Choose a higher lowest note, let it float, or take a longer tube.`.trim(), floats: true };
  }
  const which = silent.length > 0 ? 'A note does not speak at all.'
    : all ? 'Every note would be nearer to another.' : `${noteName(worst?.name) || 'A note'} would be nearer to another note.`;
  const reasons = top.slice(0, 2).map((one) => bindingSentence(one, s, engine)).join(' ');
  const close = top.length > 0 && CLOSE.includes(top[0].constraint);
  const do_ = close || (all && off < 0) ? 'What would do: a lower lowest note, fewer holes, a scale with wider steps, '
    + 'or other limits on Song.'
    : 'What would do: fewer holes, a scale that spans less, or other limits on Song.';
  return { wrong: `These notes cannot be had of this tube. ${which} ${NO_MARKS}`, would: `${reasons} ${do_}`.trim(), floats: close && song.lowest !== 'free' };
}

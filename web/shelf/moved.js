// web/shelf/moved.js: says that this version of the page reckons a build under way otherwise, what that
// would move and by how much; the maker chooses.

import { datumShift } from '../state/desk.js';
import { keepOld, moves, takeNew } from '../state/plan.js';
import { inUnit, lengthWords, signed } from '../text/numbers.js';
import { h } from '../widgets/dom.js';
import { button, notice, settle } from './notices.js';
import { KEEP_OLD, MARKS_STAND, OLD_OR_NEW, TAKE_NEW, WHY_MOVED, moveOf, movedMark, movedNote } from './words.js';

/** "hole 3: 171.2 → 172.0 mm" @param {Move} move @param {State} s @param {Engine} engine */
export function moveWords({ what, number, from, to }, s, engine) {
  if (what === 'note') return movedNote(signed(from), signed(to));
  const shift = what === 'size' ? 0 : datumShift(s.doc);
  return moveOf(movedMark(what, number), inUnit(from + shift, s, engine), lengthWords(to + shift, s, engine));
}

/** Once, when the page has begun. @param {Desk} desk */
export function sayMoved({ store, engine }) {
  let shown = '';
  store.subscribe((s) => {
    const { plan } = s;
    const found = plan === null || plan.kept ? [] : moves(s.doc, plan.marks, plan.now);
    const text = JSON.stringify([found, s.doc.show, s.doc.sound_hole]);
    if (text === shown) return;
    shown = text;
    if (found.length === 0) return settle('moved');
    void notice('moved', true,
      h('p', {}, h('strong', {}, MARKS_STAND), WHY_MOVED),
      h('ul', {}, ...found.map((move) => h('li', {}, moveWords(move, s, engine)))),
      h('p', {}, OLD_OR_NEW),
      button(TAKE_NEW, () => takeNew(store)), button(KEEP_OLD, () => keepOld(store)));
  });
}

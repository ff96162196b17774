// web/shelf/moved.js: says that this version of the page reckons a build under way otherwise, what that
// would move and by how much; the maker chooses.

import { datumShift } from '../state/desk.js';
import { keepOld, moves, takeNew } from '../state/plan.js';
import { inUnit, lengthWords, signed } from '../text/numbers.js';
import { h } from '../widgets/dom.js';
import { button, notice, settle } from './notices.js';

/** "hole 3: 171.2 → 172.0 mm" @param {Move} move @param {State} s @param {Engine} engine */
export function moveWords({ what, number, from, to }, s, engine) {
  if (what === 'note') return `a note: ${signed(from)} → ${signed(to)} cents`;
  const shift = what === 'size' ? 0 : datumShift(s.doc);
  const name = what === 'foot' ? 'foot' : what === 'size' ? `hole ${number}, width` : `hole ${number}`;
  return `${name}: ${inUnit(from + shift, s, engine)} → ${lengthWords(to + shift, s, engine)}`;
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
      h('p', {}, h('strong', {}, 'The marks stand as they were. '), 'They come from another version of this '
        + 'page; this one, with what is in the log, would move them:'),
      h('ul', {}, ...found.map((move) => h('li', {}, moveWords(move, s, engine)))),
      h('p', {}, 'Take the new ones unless yours are on the tube already and you want to drill there. '
        + 'The old ones do not heed what you read from now on.'),
      button('Take the new', () => takeNew(store)), button('Keep the old marks', () => keepOld(store)));
  });
}

// web/shelf/tell.js: tells the maker when something is not kept, was changed in another tab, or
// could not be read back; and offers the way out.

import { OLD, hand, parsed } from '../state/keep.js';
import { damaged, keep, setAside } from '../state/keeper.js';
import { copies } from '../state/second.js';
import { flutes, newest } from '../state/slots.js';
import { h } from '../widgets/dom.js';
import { button, isShown, notice, settle } from './notices.js';
import { download, downloadFlute, shelfText } from './files.js';
import { add, setAsideOnes } from './flutes.js';
import { take } from './take.js';
import { copyName, nameOf } from './words.js';

/** @param {Desk} desk @param {News} news */
export function tell(desk, news) {
  if (news === 'lost') lost(desk);
  if (news === 'copied') {
    settle('other');
    void notice('copied', false, h('p', {}, h('strong', {}, 'Changed in another tab too. '),
      'Yours goes on here as a flute of its own; theirs is on the shelf beside it.'),
    button('All right', () => settle('copied')));
  }
  if (news === 'other') other(desk);
  if (news === 'damaged') found();
  if (news === 'restarted') restarted();
  if (news === 'second') void second();
}

/** @param {Desk} desk */
function lost(desk) {
  if (isShown('lost')) return;
  const stop = desk.store.subscribe((s) => {
    if (!s.keeps) return;
    settle('lost');
    queueMicrotask(() => stop());
  });
  void notice('lost', true, h('p', {}, h('strong', {}, 'NOT SAVED. '),
    'This browser does not keep what you enter: its storage is full or switched off. Save it as a file '
    + 'before you close the page.'), button('Download file', () => downloadFlute(desk.store.get())),
  button('Try again', () => {
    const keeps = keep(desk.store.get()) !== 'lost';
    desk.store.change((s) => (s.keeps === keeps ? s : { ...s, keeps }));
  }));
}

/** The flute in hand was written by another tab, and this one has nothing new. @param {Desk} desk */
function other(desk) {
  const there = newest(hand.id);
  if (there !== null && there.revision <= hand.revision) return;
  if (there === null) {
    void notice('other', false, h('p', {}, h('strong', {}, 'Deleted in another tab. '),
      'It is still here, and is kept again as soon as you change it.'),
    button('All right', () => settle('other')));
    return;
  }
  const { id } = hand;
  void notice('other', false, h('p', {}, h('strong', {}, 'Changed in another tab. '),
    'What you see here is the older state.'),
  button('Show theirs', async () => {
    if (hand.id === id) await take(desk, id);
    settle('other');
  }),
  button('Keep mine as a copy', () => {
    const { doc, good, typed, aside } = desk.store.get();
    const name = copyName(nameOf(doc));
    try {
      const copy = add({ doc: { ...doc, name }, good: { ...good, name }, typed, aside }, null);
      settle('other');
      takeOver(desk, copy);
    } catch {
      lost(desk);
    }
  }));
}

/** @param {Desk} desk @param {string} id of the copy of what is shown */
function takeOver(desk, id) {
  const slot = newest(id);
  const kept = slot === null ? null : parsed(slot.json);
  if (slot === null || kept === null) return;
  Object.assign(hand, slot, { id });
  desk.edit(() => ({ doc: kept.doc, good: kept.good }));
}

/** There was no room to write the first copy again. */
async function second() {
  const only = (await copies()).filter((one) => (newest(one.id)?.revision ?? 0) < one.revision)
    .flatMap((one) => parsed(one.json) ?? []);
  if (only.length === 0) return;
  await notice('second', true, h('p', {}, h('strong', {}, 'Only the second copy is left. '),
    'This browser’s storage is full. ', ...only.flatMap(({ doc }, i) => [i > 0 ? ', ' : '',
      h('bdi', {}, nameOf(doc))]), only.length === 1 ? ' comes' : ' come', ' from a second copy that it may drop in '
    + 'a week. Save it as a file, and delete something from the shelf.'),
  button('Download file', () => (only.length === 1 ? downloadFlute(only[0])
    : download('canewright second copies.json', shelfText(only)))),
  button('All right', () => settle('second')));
}

/** A worker had ended by itself. What it was at is asked again, so there is nothing to do. */
function restarted() {
  void notice('restarted', false, h('p', {}, h('strong', {}, 'The calculation had stopped and was started '
    + 'again. '), 'Nothing you entered or logged is lost. If it happens again, close what else is open.'),
  button('All right', () => settle('restarted')));
}

/** Damaged data goes aside, where it can be fetched. */
function found() {
  try {
    for (const id of flutes()) damaged(id).forEach(setAside);
    const old = localStorage.getItem(OLD);
    if (old !== null && parsed(old) === null) setAside(OLD);
  } catch { /* no room: it stays where it is */ }
  void notice('damaged', true, h('p', {}, h('strong', {}, 'Not all could be read back. '),
    'Something kept in this browser is damaged. The last whole state is shown; what was found is set '
    + 'aside, not deleted.'),
  button('Download it', () => download('canewright set aside.json',
    `${JSON.stringify(setAsideOnes(), null, 1)}\n`)),
  button('All right', () => settle('damaged')));
}

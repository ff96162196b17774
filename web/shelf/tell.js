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
import { copyName } from './names.js';
import { take } from './take.js';
import { ALL_RIGHT, CALCULATES_AGAIN, CHANGED_THERE, CHANGED_THERE_TOO, DELETED_THERE, DOWNLOAD_FILE, DOWNLOAD_IT,
  IS_OLDER, IS_SET_ASIDE, KEEP_AS_COPY, KEEPS_NOTHING, NOTHING_LOST, NOT_ALL_READ, NOT_SAVED, ONLY_SECOND,
  SECOND_FILE, SET_ASIDE_FILE, SHOW_THEIRS, STILL_HERE, STORAGE_FULL, TRY_AGAIN, TWO_NOW, fromSecond, nameOf }
  from './words.js';

/** @param {Desk} desk @param {News} news */
export function tell(desk, news) {
  if (news === 'lost') lost(desk);
  if (news === 'copied') {
    settle('other');
    void notice('copied', false, h('p', {}, h('strong', {}, CHANGED_THERE_TOO), TWO_NOW),
      button(ALL_RIGHT, () => settle('copied')));
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
  void notice('lost', true, h('p', {}, h('strong', {}, NOT_SAVED), KEEPS_NOTHING),
  button(DOWNLOAD_FILE, () => downloadFlute(desk.store.get())), button(TRY_AGAIN, () => {
    const keeps = keep(desk.store.get()) !== 'lost';
    desk.store.change((s) => (s.keeps === keeps ? s : { ...s, keeps }));
  }));
}

/** The flute in hand was written by another tab, and this one has nothing new. @param {Desk} desk */
function other(desk) {
  const there = newest(hand.id);
  if (there !== null && there.revision <= hand.revision) return;
  if (there === null) {
    void notice('other', false, h('p', {}, h('strong', {}, DELETED_THERE), STILL_HERE),
      button(ALL_RIGHT, () => settle('other')));
    return;
  }
  const { id } = hand;
  void notice('other', false, h('p', {}, h('strong', {}, CHANGED_THERE), IS_OLDER),
  button(SHOW_THEIRS, async () => {
    if (hand.id === id) await take(desk, id);
    settle('other');
  }),
  button(KEEP_AS_COPY, () => {
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
  await notice('second', true, h('p', {}, h('strong', {}, ONLY_SECOND), STORAGE_FULL,
    ...only.flatMap(({ doc }, i) => [i > 0 ? ', ' : '', h('bdi', {}, nameOf(doc))]), fromSecond(only.length)),
  button(DOWNLOAD_FILE, () => (only.length === 1 ? downloadFlute(only[0])
    : download(SECOND_FILE, shelfText(only)))),
  button(ALL_RIGHT, () => settle('second')));
}

/** A worker had ended by itself. What it was at is asked again, so there is nothing to do. */
function restarted() {
  void notice('restarted', false, h('p', {}, h('strong', {}, CALCULATES_AGAIN), NOTHING_LOST),
    button(ALL_RIGHT, () => settle('restarted')));
}

/** Damaged data goes aside, where it can be fetched. */
function found() {
  try {
    for (const id of flutes()) damaged(id).forEach(setAside);
    const old = localStorage.getItem(OLD);
    if (old !== null && parsed(old) === null) setAside(OLD);
  } catch { /* no room: it stays where it is */ }
  void notice('damaged', true, h('p', {}, h('strong', {}, NOT_ALL_READ), IS_SET_ASIDE),
    button(DOWNLOAD_IT, () => download(SET_ASIDE_FILE, `${JSON.stringify(setAsideOnes(), null, 1)}\n`)),
    button(ALL_RIGHT, () => settle('damaged')));
}

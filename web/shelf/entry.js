// web/shelf/entry.js: one flute on the shelf: its picture, its label, and what can be done with it.

import { keptMarks, withPlan } from '../state/plan.js';
import { h, newId, say } from '../widgets/dom.js';
import { fitted } from './names.js';
import { picture } from './picture.js';
import { share } from './share.js';
import { AS_PATTERN, DELETE, DOWNLOAD_FILE, DUPLICATE, IN_HAND, KEEP_NAME, NEW_NAME, NOT_KEPT_YET, PASS_ON,
  PRINT, RENAME, TAKE, buildWords, dateWords, deleteWords, isRead, keyWords, nameOf } from './words.js';

/** @typedef {'take' | 'duplicate' | 'rename' | 'remove' | 'pattern' | 'download' | 'print'} Deed */

/**
 * @param {Desk} desk
 * @param {(deed: Deed, flute: Flute, name?: string) => Promise<void>} act
 */
export function entry(desk, act) {
  /** @type {Flute} */
  let flute;
  let inHand = false;
  const drawn = h('span', { class: 'drawn' });
  const name = h('bdi', {});
  const tag = h('span', { class: 'in-hand' });
  const key = h('span', { class: 'key' });
  const when = h('span', { class: 'when' });

  /** @param {string} words @param {Deed} deed @param {string} [look] */
  const deedButton = (words, deed, look = 'plain') => h('button', { type: 'button', class: look,
    onclick: () => void act(deed, flute) }, words);
  const takes = deedButton(TAKE, 'take', 'take');
  const prints = deedButton(PRINT, 'print');
  const teaches = deedButton(AS_PATTERN, 'pattern');
  const removes = deedButton(DELETE, 'remove');
  const sharing = share(desk, () => {
    const s = desk.store.get();
    const marks = inHand ? keptMarks(s) : flute.marks;
    const doc = !inHand ? flute.kept.good : s.problems.length === 0 ? s.doc : s.good;
    return marks === null ? doc : withPlan(doc, marks);
  });
  const shares = opener(PASS_ON, sharing.element, sharing.refresh);
  const renaming = renameLine((text) => void act('rename', flute, text).then(() => renames.close()));
  const renames = opener(RENAME, renaming.element, () => renaming.start(flute.kept.doc.name ?? ''));
  const inside = h('div', { class: 'inside' },
    h('div', { class: 'deeds' }, takes, shares.button, prints, teaches, renames.button,
      deedButton(DUPLICATE, 'duplicate'), deedButton(DOWNLOAD_FILE, 'download'), removes),
    renaming.element, sharing.element);
  const label = h('summary', {}, drawn, h('span', { class: 'title' }, name), tag, key, when);
  const box = h('details', { class: 'label' }, label, inside);
  const element = h('li', { 'data-flute': '' }, box);
  let picked = '';

  return {
    element,
    /** Unfolded, where the maker looks, and the next key's. */
    show() {
      box.open = true;
      label.focus({ preventScroll: true });
      label.scrollIntoView({ block: 'center' });
    },
    shows: (/** @type {string} */ words) => `${name.textContent} ${key.textContent} ${when.textContent} ${
      flute.kept.doc.tube.material ?? ''}`.toLowerCase().includes(words),
    /** @param {Flute} now @param {boolean} held @param {number} longest [mm] */
    update(now, held, longest) {
      flute = now;
      inHand = held;
      const { doc, good } = now.kept;
      element.dataset.flute = now.id;
      element.classList.toggle('held', held);
      say(name, nameOf(doc));
      say(tag, held ? IN_HAND : '');
      say(key, keyWords(good, now.marks));
      say(when, now.id === '' ? NOT_KEPT_YET : [buildWords(doc), dateWords(now.at)].filter(Boolean)
        .join(' · '));
      takes.hidden = held;
      prints.hidden = !held;
      teaches.hidden = held || !isRead(doc);
      renames.button.hidden = now.id === '';
      removes.hidden = now.id === '';
      removes.setAttribute('aria-label', deleteWords(nameOf(doc)));
      const sketch = JSON.stringify([good.tube, good.sound_hole, now.marks, longest]);
      if (sketch !== picked) drawn.replaceChildren(...[picture(good, now.marks, longest)].filter((p) => p !== null));
      picked = sketch;
      if (!sharing.element.hidden) sharing.refresh();
    },
  };
}

/** A button that shows and hides a part. @param {string} words @param {HTMLElement} part
 * @param {() => void} begin */
function opener(words, part, begin) {
  const id = newId('part');
  part.id ||= id;
  part.hidden = true;
  const button = h('button', { type: 'button', class: 'plain', 'aria-expanded': 'false',
    'aria-controls': part.id, onclick: () => turn(part.hidden) }, words);
  /** @param {boolean} open */
  function turn(open) {
    part.hidden = !open;
    button.setAttribute('aria-expanded', String(open));
    if (open) begin();
  }
  return { button, close: () => turn(false) };
}

/** @param {(name: string) => void} done */
function renameLine(done) {
  const id = newId('name');
  const input = h('input', { type: 'text', id, class: 'words', autocomplete: 'off', spellcheck: 'false',
    enterkeyhint: 'done', onkeydown: (/** @type {KeyboardEvent} */ event) => {
      if (event.key === 'Enter') done(fitted(input.value));
    } });
  const element = h('div', { class: 'rename' }, h('label', { for: id }, NEW_NAME), input,
    h('button', { type: 'button', class: 'take', onclick: () => done(fitted(input.value)) }, KEEP_NAME));
  return { element, start(/** @type {string} */ name) {
    input.value = name;
    input.focus();
    input.select();
  } };
}

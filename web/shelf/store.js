// web/shelf/store.js: the back of the shelf: files out and in, links by hand, what was deleted or set
// aside, and how far this browser can be trusted.

import { h, newId, say } from '../widgets/dom.js';
import { bringIn, download, shelfText } from './files.js';
import { bringBack, deleted, destroy, setAsideOnes } from './flutes.js';
import { open } from './opened.js';
import { ASK_TO_KEEP, BRING_BACK, BRING_IN, DELETED, DELETE_FOR_GOOD, DOWNLOAD, DOWNLOAD_SHELF, IS_BACK_ON_SHELF,
  KEEPS, KEEPS_PERHAPS, KEEPS_UNKNOWN, NOT_PROMISED, NO_ROOM_BACK, OPEN, OPEN_LINK, REAL_SAVE, SET_ASIDE,
  SET_ASIDE_FILE, SHELF_OFFERED, WAYS, deletedWords, nameOf, notRead, setAsideWords, shelfFile } from './words.js';

/**
 * @param {Desk} desk
 * @param {{say: (words: string) => void, changed: () => void, show: (id?: string) => void}} shelf
 */
export function store(desk, shelf) {
  /** @type {Kept[]} */
  let kept = [];
  const all = h('button', { type: 'button', class: 'plain', onclick: () => {
    download(shelfFile(new Date().toISOString().slice(0, 10)), shelfText(kept));
    shelf.say(SHELF_OFFERED);
  } }, DOWNLOAD_SHELF);
  const gone = drawer(DELETED);
  const aside = drawer(SET_ASIDE);

  function refresh(/** @type {Kept[]} */ now) {
    kept = now;
    all.hidden = kept.length === 0;
    gone.fill(deleted().map((flute) => h('li', {}, h('bdi', {}, nameOf(flute.kept.doc)),
      h('span', { class: 'note' }, deletedWords(flute.at)), h('span', { class: 'deeds' },
        h('button', { type: 'button', class: 'plain', onclick: () => {
          try {
            bringBack(flute.id);
            shelf.say(IS_BACK_ON_SHELF);
          } catch {
            shelf.say(NO_ROOM_BACK);
          }
          shelf.changed();
        } }, BRING_BACK),
        h('button', { type: 'button', class: 'plain', onclick: () => {
          destroy(flute.id);
          shelf.changed();
        } }, DELETE_FOR_GOOD)))));
    aside.fill(setAsideOnes().map(({ key, text }) => h('li', {}, setAsideWords(text.length),
      h('button', { type: 'button', class: 'plain', onclick: () => download(SET_ASIDE_FILE,
        `${JSON.stringify({ key, text }, null, 1)}\n`) }, DOWNLOAD))));
  }

  return { refresh, parts: [
    h('section', { class: 'ways', 'aria-label': WAYS }, h('h3', {}, WAYS),
      h('p', { class: 'note' }, REAL_SAVE),
      h('div', { class: 'deeds' }, all, filePicker(desk, shelf)), linkLine(desk), lasting()),
    gone.element, aside.element] };
}

/** @param {string} name */
function drawer(name) {
  const head = h('summary', {}, name);
  const list = h('ul', { class: 'drawer' });
  const element = h('details', {}, head, list);
  return { element, fill(/** @type {HTMLElement[]} */ items) {
    element.hidden = items.length === 0;
    say(head, `${name} (${items.length})`);
    list.replaceChildren(...items);
  } };
}

/** @param {Desk} desk @param {{say: (words: string) => void, changed: () => void, show: (id?: string) => void}} shelf */
function filePicker(desk, shelf) {
  const input = h('input', { type: 'file', class: 'unseen', accept: '.json,application/json', multiple: true,
    'aria-label': BRING_IN, onchange: async () => {
      /** @type {{words: string, first?: string}[]} */
      const came = [];
      for (const file of input.files ?? []) {
        came.push(await bringIn(desk, file).catch((error) => ({ words: notRead(file.name, String(error)) })));
      }
      input.value = '';
      shelf.say(came.map(({ words }) => words).join(' '));
      shelf.changed();
      shelf.show(came.find(({ first }) => first !== undefined)?.first);
    } });
  return h('label', { class: 'plain picker' }, input, BRING_IN);
}

/** @param {Desk} desk */
function linkLine(desk) {
  const id = newId('link');
  const input = h('input', { type: 'text', id, class: 'words', autocomplete: 'off', spellcheck: 'false',
    autocapitalize: 'off', inputmode: 'url' });
  return h('div', { class: 'rename' }, h('label', { for: id }, OPEN_LINK), input,
    h('button', { type: 'button', class: 'take', onclick: () => {
      const text = input.value.trim();
      if (text !== '') void open(desk, text.slice(text.indexOf('#') + 1));
    } }, OPEN));
}

/** What the browser promises about its storage. */
function lasting() {
  const words = h('span', {});
  const ask = h('button', { type: 'button', class: 'inline', hidden: true, onclick: async () => {
    const yes = await navigator.storage.persist().catch(() => false);
    ask.hidden = yes;
    say(words, yes ? KEEPS : NOT_PROMISED);
  } }, ASK_TO_KEEP);
  const element = h('p', { class: 'note lasting', role: 'status' }, words, ask);
  // Asked for when the first flute was kept; this only looks at what came of it.
  if (navigator.storage?.persisted === undefined) say(words, KEEPS_UNKNOWN);
  else {
    navigator.storage.persisted().then((yes) => {
      say(words, yes ? KEEPS : KEEPS_PERHAPS);
      ask.hidden = yes;
    }, () => say(words, KEEPS_UNKNOWN));
  }
  return element;
}

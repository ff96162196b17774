// web/shelf/store.js: the back of the shelf: files out and in, links by hand, what was deleted or set
// aside, and how far this browser can be trusted.

import { h, newId, say } from '../widgets/dom.js';
import { bringIn, download, shelfText } from './files.js';
import { bringBack, deleted, destroy, setAsideOnes } from './flutes.js';
import { open } from './opened.js';
import { dateWords, nameOf } from './words.js';

/**
 * @param {Desk} desk
 * @param {{say: (words: string) => void, changed: () => void}} shelf
 */
export function store(desk, shelf) {
  /** @type {Kept[]} */
  let kept = [];
  const all = h('button', { type: 'button', class: 'plain', onclick: () => {
    download(`canewright shelf ${new Date().toISOString().slice(0, 10)}.json`, shelfText(kept));
    shelf.say('The whole shelf is offered as a file.');
  } }, 'Download the whole shelf');
  const gone = drawer('Deleted');
  const aside = drawer('Set aside');

  function refresh(/** @type {Kept[]} */ now) {
    kept = now;
    all.hidden = kept.length === 0;
    gone.fill(deleted().map((flute) => h('li', {}, h('bdi', {}, nameOf(flute.kept.doc)),
      h('span', { class: 'note' }, ` deleted ${dateWords(flute.at)}`), h('span', { class: 'deeds' },
        h('button', { type: 'button', class: 'plain', onclick: () => {
          try {
            bringBack(flute.id);
            shelf.say('It is back on the shelf.');
          } catch {
            shelf.say('It could not be brought back: this browser has no room.');
          }
          shelf.changed();
        } }, 'Bring back'),
        h('button', { type: 'button', class: 'plain', onclick: () => {
          destroy(flute.id);
          shelf.changed();
        } }, 'Delete for good')))));
    aside.fill(setAsideOnes().map(({ key, text }) => h('li', {}, `${text.length} characters that could `
      + 'not be read back ', h('button', { type: 'button', class: 'plain',
      onclick: () => download('canewright set aside.json', `${JSON.stringify({ key, text }, null, 1)}\n`) },
    'Download'))));
  }

  return { refresh, parts: [
    h('section', { class: 'ways', 'aria-label': 'Files and links' }, h('h3', {}, 'Files and links'),
      h('p', { class: 'note' }, 'The shelf is a convenience of this browser. The real save is a file, or '
        + 'a link that you sent to yourself.'),
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

/** @param {Desk} desk @param {{say: (words: string) => void, changed: () => void}} shelf */
function filePicker(desk, shelf) {
  const input = h('input', { type: 'file', class: 'unseen', accept: '.json,application/json', multiple: true,
    'aria-label': 'Bring in a file', onchange: async () => {
      const words = [];
      for (const file of input.files ?? []) {
        words.push(await bringIn(desk, file).catch((error) => `${file.name} could not be read (${String(error)}).`));
      }
      input.value = '';
      shelf.say(words.join(' '));
      shelf.changed();
    } });
  return h('label', { class: 'plain picker' }, input, 'Bring in a file');
}

/** @param {Desk} desk */
function linkLine(desk) {
  const id = newId('link');
  const input = h('input', { type: 'text', id, class: 'words', autocomplete: 'off', spellcheck: 'false',
    autocapitalize: 'off', inputmode: 'url' });
  return h('div', { class: 'rename' }, h('label', { for: id }, 'Open a link that was sent to you'), input,
    h('button', { type: 'button', class: 'take', onclick: () => {
      const text = input.value.trim();
      if (text !== '') void open(desk, text.slice(text.indexOf('#') + 1));
    } }, 'Open'));
}

/** What the browser promises about its storage. */
function lasting() {
  const words = h('span', {});
  const ask = h('button', { type: 'button', class: 'inline', hidden: true, onclick: async () => {
    const yes = await navigator.storage.persist().catch(() => false);
    ask.hidden = yes;
    say(words, yes ? YES : 'The browser did not promise it. Put the page on the home screen, or keep files. ');
  } }, 'Ask it to keep the shelf');
  const element = h('p', { class: 'note lasting', role: 'status' }, words, ask);
  // Asked for when the first flute was kept; this only looks at what came of it.
  if (navigator.storage?.persisted === undefined) say(words, UNKNOWN);
  else {
    navigator.storage.persisted().then((yes) => {
      say(words, yes ? YES : NO);
      ask.hidden = yes;
    }, () => say(words, UNKNOWN));
  }
  return element;
}

const YES = 'This browser has promised to keep the shelf until you clear it yourself. ';
const NO = 'This browser may clear the shelf when it is short of room, or after some days without a visit. ';
const UNKNOWN = 'This browser does not say how long it keeps the shelf. ';

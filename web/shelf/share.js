// web/shelf/share.js: a flute as a link, a QR code, and whatever the phone can share with.

import { h, newId, say } from '../widgets/dom.js';
import { newestNext } from '../engine/newest.js';
import { withoutPlan } from '../state/plan.js';
import { ADDRESS, COPIED, COPY_LINK, LINK, LINK_MARKED, NEEDS_ADDRESS, NOT_SHARED, ONE_MOMENT, SHARE,
  WITHOUT_ADDRESS, linkLength, noLinkMaker, noLinkSentence, tooLongForCode, withLogWords } from './words.js';

const BASE = 'canewright/base';  // a web address that the maker typed, for a page opened as a file

/** The page's own address, or '' where no other device could open that. */
const ownBase = () => (/^https?:$/.test(location.protocol) ? location.href.split('#')[0] : '');

function keptBase() {
  try {
    return localStorage.getItem(BASE) ?? '';
  } catch {
    return '';
  }
}

/** @param {Desk} desk @param {() => Doc} docNow its last whole state
 * @returns {{element: HTMLElement, refresh: () => void}} */
export function share(desk, docNow) {
  const id = newId('share');
  const box = h('textarea', { id, class: 'link-box', readonly: true, rows: 4, spellcheck: 'false',
    onfocus: () => box.select() });
  const status = h('p', { class: 'note', role: 'status' });
  const figure = h('div', { class: 'qr-place' });
  const withLog = h('input', { type: 'checkbox', id: `${id}-log`, onchange: () => refresh() });
  const logLine = h('p', { class: 'check' }, withLog, h('label', { for: withLog.id }, ''));
  const base = h('input', { type: 'text', id: `${id}-base`, class: 'words', inputmode: 'url',
    autocomplete: 'off', spellcheck: 'false', autocapitalize: 'off', oninput: () => {
      try {
        localStorage.setItem(BASE, base.value.trim());
      } catch { /* it still holds for this link */ }
      refresh();
    } });
  base.value = keptBase();
  const baseLine = h('div', { class: 'base', hidden: ownBase() !== '' },
    h('p', { class: 'note' }, NEEDS_ADDRESS), h('label', { for: base.id }, ADDRESS), base);
  const buttons = h('p', { class: 'buttons' },
    h('button', { type: 'button', class: 'take', onclick: () => void copy() }, COPY_LINK),
    'share' in navigator && h('button', { type: 'button', class: 'take', onclick: () => void send() }, SHARE));
  const element = h('div', { class: 'share' }, logLine, baseLine, h('label', { for: id, class: 'small' },
    LINK), box, buttons, status, figure);

  const ask = newestNext(async (/** @type {Doc} */ doc) => (await desk.engine.workshop()).link(doc),
    (reply, doc, newest) => { if (newest) void draw(reply, doc.log !== undefined); });

  function refresh() {
    const { log = [], ...planned } = docNow();
    logLine.hidden = log.length === 0;
    say(/** @type {Element} */ (logLine.lastElementChild), withLogWords(log.length));
    if (box.value === '') say(status, ONE_MOMENT);
    void ask(withLog.checked && log.length > 0 ? { ...planned, log } : withoutPlan(planned).doc)
      .catch((error) => say(status, noLinkMaker(String(error))));
  }

  /** @param {Reply<{link: string}>} reply @param {boolean} log */
  async function draw(reply, log) {
    const link = reply.answer?.link;
    const start = ownBase() || base.value.trim();
    const whole = link === undefined ? '' : `${start.split('#')[0]}#${link}`;
    box.value = whole;
    buttons.hidden = link === undefined;
    if (link === undefined) {
      figure.replaceChildren();
      say(status, noLinkSentence(reply, log));
      return;
    }
    if (!/^https?:\/\/./.test(start)) {
      figure.replaceChildren();
      say(status, WITHOUT_ADDRESS);
      return;
    }
    const { qr } = await import('../widgets/qr.js');
    if (box.value !== whole) return;
    const drawn = qr(whole);
    figure.replaceChildren(...(drawn === null ? [] : [drawn]));
    say(status, drawn === null ? tooLongForCode(whole.length) : linkLength(whole.length));
  }

  async function copy() {
    try {
      await navigator.clipboard.writeText(box.value);
      say(status, COPIED);
    } catch {
      box.focus();
      box.select();
      say(status, 'document' in globalThis && document.execCommand('copy') ? COPIED
        : LINK_MARKED);
    }
  }

  async function send() {
    try {
      await navigator.share({ url: box.value });
    } catch (error) {
      // Thinking better of it is no error.
      if (!(error instanceof DOMException && error.name === 'AbortError')) {
        say(status, NOT_SHARED);
      }
    }
  }

  return { element, refresh };
}

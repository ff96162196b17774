// web/shelf/share.js: a flute as a link, a QR code, and whatever the phone can share with.

import { h, newId, say } from '../widgets/dom.js';
import { newestNext } from '../engine/newest.js';
import { withoutPlan } from '../state/plan.js';
import { noLinkSentence } from './words.js';

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
    h('p', { class: 'note' }, 'This page is open as a file, which no other device can reach. A link needs '
      + 'the page on the web: write its address there.'),
    h('label', { for: base.id }, 'Address of the page'), base);
  const buttons = h('p', { class: 'buttons' },
    h('button', { type: 'button', class: 'take', onclick: () => void copy() }, 'Copy link'),
    'share' in navigator && h('button', { type: 'button', class: 'take', onclick: () => void send() },
      'Share …'));
  const element = h('div', { class: 'share' }, logLine, baseLine, h('label', { for: id, class: 'small' },
    'Link'), box, buttons, status, figure);

  const ask = newestNext(async (/** @type {Doc} */ doc) => (await desk.engine.workshop()).link(doc),
    (reply, doc, newest) => { if (newest) void draw(reply, doc.log !== undefined); });

  function refresh() {
    const { log = [], ...planned } = docNow();
    logLine.hidden = log.length === 0;
    say(/** @type {Element} */ (logLine.lastElementChild), `With its log: ${log.length} ${
      log.length === 1 ? 'entry' : 'entries'}`);
    if (box.value === '') say(status, 'One moment.');
    void ask(withLog.checked && log.length > 0 ? { ...planned, log } : withoutPlan(planned).doc)
      .catch((error) => say(status, `The part that makes links could not be loaded (${String(error)}).`));
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
      say(status, 'Without an address in front this text can be pasted after the # of the page.');
      return;
    }
    const { qr } = await import('../widgets/qr.js');
    if (box.value !== whole) return;
    const drawn = qr(whole);
    figure.replaceChildren(...(drawn === null ? [] : [drawn]));
    say(status, drawn === null
      ? `${whole.length} characters: too long for a QR code that a phone reads well. Send the link.`
      : `${whole.length} characters. All of the flute is in the link itself; no server keeps it.`);
  }

  async function copy() {
    try {
      await navigator.clipboard.writeText(box.value);
      say(status, 'Copied.');
    } catch {
      box.focus();
      box.select();
      say(status, 'document' in globalThis && document.execCommand('copy') ? 'Copied.'
        : 'The link is marked: copy it from the box.');
    }
  }

  async function send() {
    try {
      await navigator.share({ url: box.value });
    } catch (error) {
      // Thinking better of it is no error.
      if (!(error instanceof DOMException && error.name === 'AbortError')) {
        say(status, 'This device did not share it. Copy the link instead.');
      }
    }
  }

  return { element, refresh };
}

// web/paper/paper.js: everything that can be printed, shown as it will come out of the printer.

import { h, say } from '../widgets/dom.js';
import { cardSheets } from './card.js';
import { factsOf } from './facts.js';
import { listSheets } from './list.js';
import { logSheets } from './log.js';
import { unchanged } from '../state/store.js';
import { fileName } from './names.js';
import { PAPERS, lacksLetters, pdfOf } from './pdf.js';
import { linkCode } from './qr.js';
import { svgOf } from './svg.js';
import { voiceSheets } from './voice.js';
import { stripSheets } from './tiles.js';
import { ALONG, CLOSE, HOW_TO_PRINT, KINDS, LETTER, LINK_COMES, MADE_BY, ONE_MOMENT, PAPER, SAVED,
  SAVED_LACKING, STAYS_HERE, WAY, WRAP, asPdf, dateWords, lastGood, notSaved, pdfTitle, printWords }
  from './words.js';

/** @typedef {'strip' | 'list' | 'voice' | 'card' | 'log'} Kind */
const LONGEST_MAKER = 60;

/** @typedef {Aside & {maker?: string}} PaperAside */

/** The style sheet is loaded with the first print; a page that is one file has it within.
 * @returns {Promise<HTMLLinkElement | null>} */
function styled() {
  if (document.querySelector('link[rel="stylesheet"]') === null) return Promise.resolve(null);
  return new Promise((done) => {
    const link = h('link', { rel: 'stylesheet', href: 'style-paper.css', onload: () => done(link),
      onerror: () => done(link) });
    document.head.append(link);
  });
}

/** @param {Desk} desk @param {Kind} [first] what is shown to begin with */
export async function openPaper(desk, first = 'strip') {
  if (document.querySelector('dialog.paper') !== null) return;
  const link = await styled();
  let kind = first;
  /** @type {'wrap' | 'edge'} */
  let way = 'wrap';
  /** @type {Awaited<ReturnType<typeof linkCode>>} */
  let qr = { code: null, url: '', why: LINK_COMES };
  /** @type {import('./sheet.js').Sheet[]} */
  let sheets = [];

  /** What is proposed for the parts above the sound hole, and the Bench's next step.
   * @type {{voice: VoiceAnswer | null, next: NextStep | null}} */
  let told = { voice: null, next: null };
  /** @type {Answer | null} of which */
  let toldOf = null;
  /** @param {State} s */
  async function ask(s) {
    const { answer } = s;
    const [voice, next] = await desk.engine.workshop().then((w) => Promise.all([w.voice(answer), w.next(s.good)]))
      .catch(() => []);
    if (desk.store.get().answer !== answer || !dialog.open) return;
    [told, toldOf] = [{ voice: voice?.answer ?? null, next: next?.answer ?? null }, answer];
    render();
  }

  const out = h('div', { class: 'paper-out' });  // what the printer gets; the screen never shows it
  const preview = h('div', { class: 'previews' });
  const about = h('p', { class: 'note' });
  const news = h('p', { class: 'news', role: 'status' });
  const tabs = KINDS.map((k) => h('button', { type: 'button', class: 'kind',
    onclick: () => pick(k.kind) }, k.name));
  const printButton = h('button', { type: 'button', class: 'take', onclick: () => window.print() });
  const pdfs = /** @type {(keyof typeof PAPERS)[]} */ (['A4', 'Letter']).map((paper) => h('button', {
    type: 'button', class: 'take', onclick: () => savePdf(paper) }));
  const ways = radios(WAY, [['wrap', WRAP], ['edge', ALONG]], way, (to) => {
    way = /** @type {'wrap' | 'edge'} */ (to);
    render();
  });
  const asked = /** @type {PaperAside} */ (desk.store.get().aside).maker;
  const maker = h('input', { type: 'text', class: 'words', id: 'paper-maker', maxlength: LONGEST_MAKER,
    autocomplete: 'off', enterkeyhint: 'done', value: typeof asked === 'string' ? asked : '',
    oninput: () => {
      const aside = /** @type {PaperAside} */ ({ ...desk.store.get().aside, maker: maker.value });
      desk.edit(() => ({ aside }));
    } });
  const made = h('div', { class: 'line wide' }, h('div', { class: 'what' }, h('label',
    { for: 'paper-maker' }, MADE_BY), h('span', { class: 'note' }, STAYS_HERE)),
  h('div', { class: 'control' }, h('span', { class: 'entry' }, maker)));
  const dialog = h('dialog', { class: 'paper', 'aria-labelledby': 'paper-title', onclose: () => end() },
    h('div', { class: 'paper-head' }, h('h2', { id: 'paper-title' }, PAPER), h('button', {
      type: 'button', class: 'plain', onclick: () => dialog.close() }, CLOSE)),
    h('div', { class: 'paper-parts' },
      h('div', { class: 'paper-choice' }, h('div', { class: 'kinds' }, ...tabs), about, ways, made,
        h('div', { class: 'acts' }, printButton, ...pdfs),
        h('p', { class: 'note' }, HOW_TO_PRINT), news),
      preview));

  /** @param {Kind} to */
  function pick(to) {
    kind = to;
    say(news, '');
    render();
  }

  function render() {
    const s = desk.store.get();
    const facts = factsOf(s, desk.engine, { maker: maker.value, today: dateWords(new Date()),
      ...(toldOf === s.answer ? told : {}) });
    sheets = kind === 'strip' ? stripSheets(facts, way).sheets : kind === 'list' ? listSheets(facts)
      : kind === 'voice' ? voiceSheets(facts) : kind === 'card' ? cardSheets(facts, qr.code, qr.why) : logSheets(facts);
    const own = KINDS.find((k) => k.kind === kind) ?? KINDS[0];
    tabs.forEach((tab, i) => tab.setAttribute('aria-pressed', String(KINDS[i].kind === kind)));
    say(about, desk.troubles(s).length === 0 ? own.about : lastGood(own.about));
    ways.hidden = kind !== 'strip';
    made.hidden = kind !== 'card';
    say(printButton, printWords(own.short));
    pdfs.forEach((button, i) => {
      const first = i === 0 ? asPdf(`${own.short[0].toUpperCase()}${own.short.slice(1)}`, 'A4') : LETTER;
      say(button, first);
      if (i > 0) button.setAttribute('aria-label', asPdf(own.short, LETTER));
    });
    preview.replaceChildren(...sheets.map(svgOf));
    out.replaceChildren(...sheets.map(svgOf));
  }

  /** @param {keyof typeof PAPERS} paper */
  async function savePdf(paper) {
    const name = desk.store.get().doc.name ?? '';
    const mine = sheets;
    say(news, ONE_MOMENT);
    try {
      const title = pdfTitle((KINDS.find((k) => k.kind === kind) ?? KINDS[0]).name);
      const blob = await pdfOf(mine, paper, { title });
      const address = URL.createObjectURL(blob);
      h('a', { href: address, download: `${fileName(name, `${kind}, ${paper}`)}.pdf` }).click();
      setTimeout(() => URL.revokeObjectURL(address), 60000);
      say(news, lacksLetters(mine) ? SAVED_LACKING : SAVED);
    } catch (error) {
      say(news, notSaved(String(error)));
    }
  }

  function end() {
    stop();
    dialog.remove();
    out.remove();
    link?.remove();
    document.documentElement.classList.remove('has-paper');
  }

  document.body.append(dialog, out);
  document.documentElement.classList.add('has-paper');
  /** @type {unknown[]} */
  let shown = [];
  const stop = desk.store.subscribe((s) => {
    const now = [s.answer, s.sure, s.built, s.doc.name, JSON.stringify(s.doc.show), maker.value];
    if (unchanged(now, shown)) return;
    const anew = s.answer !== shown[0];
    shown = now;
    render();
    if (anew) void ask(s);
  });
  dialog.showModal();
  qr = await linkCode(desk);
  if (kind === 'card' && dialog.open) render();
}

/** @param {string} legend @param {[string, string][]} options @param {string} chosen
 * @param {(value: string) => void} pick */
function radios(legend, options, chosen, pick) {
  return h('fieldset', { class: 'radios' }, h('legend', {}, legend), h('div', { class: 'options' },
    ...options.map(([value, label]) => h('div', { class: 'option' }, h('input', { type: 'radio',
      name: 'paper-way', id: `paper-${value}`, value, checked: value === chosen,
      onchange: () => pick(value) }), h('label', { for: `paper-${value}` }, label)))));
}

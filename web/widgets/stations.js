// web/widgets/stations.js: the stations: the plan's three side by side where there is room, else one
// at a time with a bar in the thumb's reach. Voice, Bench and Shelf are loaded when first shown.

import { h, pause } from './dom.js';
import { isBlank, isUnmet, isUntouched } from '../state/desk.js';
import { goTo } from './reveal.js';

const WIDE = '(min-width: 1080px)';
const LAID_OUT = ['voice', 'bench'];  // have nothing to show before there are marks
const PLAN = ['cane', 'song', 'marks'];  // side by side on a wide screen, one tab for all three

/**
 * @param {Desk} desk
 * @param {{main: HTMLElement, bar: HTMLElement, top: HTMLElement}} frame
 * @param {{key: string, name: string, build?: Iterator<Node[]>, load?: () => Promise<Node[]>}[]} stations
 *   `build` gives a station piece by piece, so that no piece keeps the browser from a touch
 * @param {() => Promise<void>} measure asks for a tube, one thing at a time
 * @returns {Promise<void>} when the whole plan is there
 */
export function stations(desk, frame, stations, measure) {
  const wide = matchMedia(WIDE);
  const parts = stations.map(({ key, name, build = null, load = null }) => {
    const heading = h('h2', { id: `title-${key}` }, name);
    const section = h('section', { id: `station-${key}`, 'data-station': key, class: 'station',
      'aria-labelledby': `title-${key}` }, heading);
    const tab = h('button', { type: 'button', id: `tab-${key}`, role: 'tab',
      'aria-controls': `station-${key}`, onclick: () => goTo(desk, key),
      onkeydown: (/** @type {KeyboardEvent} */ event) => arrow(event, key) }, name);
    return { key, name, section, tab, heading, begun: false, build, load };
  });
  frame.top.append(prompt(desk, measure));
  frame.main.replaceChildren(...parts.map((p) => p.section));
  frame.bar.replaceChildren(h('div', { role: 'tablist', 'aria-label': 'Stations' },
    ...parts.map((p) => p.tab)));

  /** @param {KeyboardEvent} event @param {string} key */
  function arrow(event, key) {
    const here = parts.findIndex((p) => p.key === key);
    const step = { ArrowLeft: -1, ArrowRight: 1, Home: -here, End: parts.length - 1 - here }[event.key];
    if (step === undefined) return;
    event.preventDefault();
    let next = parts[(here + step + parts.length) % parts.length];
    while (next.tab.hidden) next = parts[(parts.indexOf(next) + (step < 0 ? -1 : 1) + parts.length) % parts.length];
    goTo(desk, next.key);
    next.tab.focus();
  }

  const marks = parts.find((p) => p.key === 'marks');
  let shown = '';
  let said = '';
  function show() {
    const s = desk.store.get();
    const blank = isBlank(s);
    const unmet = !blank && isUnmet(s);
    const now = blank && LAID_OUT.includes(s.station) ? 'cane' : s.station;
    // The bar as it is: written anew with every key it would be laid out anew.
    const name = s.doc.name ?? '';
    if (said === (said = String([now, blank, unmet, wide.matches, name]))) return;
    document.documentElement.classList.toggle('blank', blank);
    document.documentElement.classList.toggle('unmet', unmet);
    const planning = wide.matches && PLAN.includes(now);
    frame.bar.hidden = false;
    frame.main.classList.toggle('side-by-side', planning);
    for (const part of parts) {
      const { key, section, tab } = part;
      section.hidden = planning ? !PLAN.includes(key) : key !== now;
      if (planning) section.removeAttribute('role');
      else section.setAttribute('role', 'tabpanel');
      const chosen = key === (planning ? 'marks' : now);
      tab.hidden = (wide.matches && PLAN.includes(key) && key !== 'marks') || (blank && LAID_OUT.includes(key));
      tab.textContent = wide.matches && key === 'marks' ? 'Plan' : part.name;
      tab.setAttribute('aria-selected', String(chosen));
      tab.tabIndex = chosen ? 0 : -1;
      if (section.hidden) continue;
      if (!part.begun) buildOn(part);
      void fill(part);
    }
    // On a narrow screen the bar says "Marks" already: the tube's name has the line to itself.
    marks?.heading.replaceChildren(h('span', { class: name === '' ? '' : 'wide-only' },
      name === '' ? 'Marks' : 'Marks for '), h('bdi', {}, name));
    if (shown !== '' && shown !== now && !wide.matches) window.scrollTo(0, 0);
    shown = now;
  }
  /** @param {{begun: boolean, section: HTMLElement, build: Iterator<Node[]> | null}} part */
  function buildOn(part) {
    part.begun = true;
    const piece = part.build?.next() ?? { done: true, value: null };
    if (piece.done) part.build = null;
    else part.section.append(...piece.value);
  }
  async function buildTheRest() {
    const shownFirst = [...parts].sort((a, b) => Number(b.begun) - Number(a.begun));
    for (const part of shownFirst) {
      while (part.build !== null) {
        await pause();
        buildOn(part);
      }
    }
  }
  /** Gets a station's content once; what fails (no network yet) can be tried again.
   * @param {{section: HTMLElement, load: (() => Promise<Node[]>) | null}} part */
  async function fill(part) {
    const { load, section } = part;
    if (load === null) return;
    part.load = null;
    const note = h('p', { class: 'lead', role: 'status' }, 'One moment.');
    section.append(note);
    try {
      const content = await load();
      note.replaceWith(...content);
    } catch (error) {
      note.replaceChildren(`This part could not be loaded (${String(error)}). `, h('button', {
        type: 'button', class: 'inline', onclick: () => {
          note.remove();
          part.load = load;
          void fill(part);
        } }, 'Try again'));
    }
  }

  desk.store.subscribe(show);
  wide.addEventListener('change', show);

  return buildTheRest();
}

/** For whoever has just arrived: one thing to do; or has not done with it. @param {Desk} desk
 * @param {() => Promise<void>} measure */
function prompt(desk, measure) {
  const element = h('p', { class: 'prompt' }, h('span', { class: 'wide-only' }, 'An example. '), h('button', { type: 'button',
    class: 'inline', onclick: () => measure().catch(() => goTo(desk, 'cane')) }, 'Measure your tube'));
  desk.store.subscribe((s) => {
    element.hidden = !isBlank(s) && !isUntouched(s);
  });
  return element;
}

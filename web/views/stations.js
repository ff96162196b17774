// web/views/stations.js: three stations: side by side where there is room, else one at a time with
// a bar in the thumb's reach.

import { h } from './dom.js';
import { goTo } from './reveal.js';

const WIDE = '(min-width: 1080px)';

/**
 * @param {Desk} desk
 * @param {{main: HTMLElement, bar: HTMLElement, top: HTMLElement}} frame
 * @param {{key: string, name: string, content: Node[]}[]} stations
 */
export function stations(desk, frame, stations) {
  const wide = matchMedia(WIDE);
  const parts = stations.map(({ key, name, content }) => {
    const heading = h('h2', { id: `title-${key}` }, name);
    const section = h('section', { id: `station-${key}`, 'data-station': key, class: 'station',
      'aria-labelledby': `title-${key}` }, heading, ...content);
    const tab = h('button', { type: 'button', id: `tab-${key}`, role: 'tab',
      'aria-controls': `station-${key}`, onclick: () => goTo(desk, key),
      onkeydown: (/** @type {KeyboardEvent} */ event) => arrow(event, key) }, name);
    return { key, section, tab, heading };
  });
  frame.top.append(prompt(desk));
  frame.main.replaceChildren(...parts.map((p) => p.section));
  frame.bar.replaceChildren(h('div', { role: 'tablist', 'aria-label': 'Stations' },
    ...parts.map((p) => p.tab)));

  /** @param {KeyboardEvent} event @param {string} key */
  function arrow(event, key) {
    const here = parts.findIndex((p) => p.key === key);
    const to = { ArrowLeft: here - 1, ArrowRight: here + 1, Home: 0, End: parts.length - 1 }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    const next = parts[(to + parts.length) % parts.length];
    goTo(desk, next.key);
    next.tab.focus();
  }

  let shown = '';
  function show() {
    const now = desk.store.get().station;
    frame.bar.hidden = wide.matches;
    for (const { key, section, tab } of parts) {
      section.hidden = !wide.matches && key !== now;
      if (wide.matches) section.removeAttribute('role');
      else section.setAttribute('role', 'tabpanel');
      tab.setAttribute('aria-selected', String(key === now));
      tab.tabIndex = key === now ? 0 : -1;
    }
    if (shown !== '' && shown !== now && !wide.matches) window.scrollTo(0, 0);
    shown = now;
  }
  desk.store.subscribe(show);
  wide.addEventListener('change', show);

  const marks = parts.find((p) => p.key === 'marks');
  desk.store.subscribe((s) => {
    // On a narrow screen the bar says "Marks" already: the tube's name has the line to itself.
    const name = s.doc.name ?? '';
    marks?.heading.replaceChildren(h('span', { class: name === '' ? '' : 'wide-only' },
      name === '' ? 'Marks' : 'Marks for '), name);
  });
}

/** For whoever has just arrived: one thing to do. @param {Desk} desk */
function prompt(desk) {
  const element = h('p', { class: 'prompt' }, h('span', { class: 'wide-only' }, 'An example. '), h('button', { type: 'button',
    class: 'inline', onclick: () => {
      goTo(desk, 'cane');
      desk.placeOf('tube.bore[0].diameter_mm')?.focus();
    } }, 'Measure your tube'));
  desk.store.subscribe((s) => {
    element.hidden = JSON.stringify(s.doc) !== s.example || Object.keys(s.typed).length > 0;
  });
  return element;
}

// web/widgets/reveal.js: takes the maker to the field that a sentence is about.

const WAITS_MS = 4000;  // for a station that has to be loaded first

/** @param {Desk} desk @param {string} station @param {string} [place] of it, an id */
export function goTo(desk, station, place = '') {
  desk.edit(() => ({ station }));
  const until = performance.now() + WAITS_MS;
  const look = () => {
    const there = document.getElementById(place);
    if (there !== null) return there.focus();
    if (performance.now() < until) requestAnimationFrame(look);
  };
  if (place !== '') look();
}

/** @param {Desk} desk @param {Place} place */
export function reveal(desk, place) {
  const section = place.element.closest('[data-station]');
  if (section instanceof HTMLElement) goTo(desk, section.dataset.station ?? '');
  for (let up = place.element.parentElement; up !== null; up = up.parentElement) {
    if (up instanceof HTMLDetailsElement) up.open = true;
  }
  place.focus();
}

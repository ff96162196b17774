// web/widgets/reveal.js: takes the maker to the field that a sentence is about.

/** @param {Desk} desk @param {string} station */
export const goTo = (desk, station) => desk.edit(() => ({ station }));

/** @param {Desk} desk @param {Place} place */
export function reveal(desk, place) {
  const section = place.element.closest('[data-station]');
  if (section instanceof HTMLElement) goTo(desk, section.dataset.station ?? '');
  for (let up = place.element.parentElement; up !== null; up = up.parentElement) {
    if (up instanceof HTMLDetailsElement) up.open = true;
  }
  place.focus();
}

// tests/e2e/own_flute.mjs -- a flute of our own that the tests of the sheet enter: five holes near the places that its
// tube's own layout has, in tune with itself.

export const HOLES = [['147.2', '7.4', '789'], ['167.3', '7.4', '696.5'], ['216.5', '7.4', '590.3'], ['250.5', '7.4', '523'],
  ['284.4', '7.4', '464.2']];

/** What is typed for it, by line. @param {string[][]} holes place, width, pitch */
export const entriesOf = (holes) => [['Name', 'Old heron'], ['Bore', '18.4'], ['Wall', '3.1'], ['Sound hole, along', '5'],
  ['Sound hole, across', '9.5'],
  ...holes.flatMap(([at, wide, hz], n) => [[`Hole ${n + 1}: place`, at], [`Hole ${n + 1}: width`, wide],
    [`Hole ${n + 1}: sounds`, hz]]), ['Foot: place', '383.2'], ['Foot: sounds', 'G4 -9']];

/** @param {import('playwright-core').Page} page @param {string} name */
export const line = (page, name) => page.locator('.own').getByLabel(name, { exact: true });

// tests/support/figures.mjs -- the README's figures (tests/data/figures.csv), so that a test holds what is claimed.
import { readFileSync } from 'node:fs';

const rows = readFileSync(new URL('../data/figures.csv', import.meta.url), 'utf8').split('\n').slice(1);

/** @param {string} id */
export function figure(id) {
  const row = rows.find((line) => line.startsWith(`${id},`));
  if (!row) throw new Error(`no figure ${id}`);
  return Number(row.split(',')[1]);
}

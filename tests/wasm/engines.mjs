// tests/wasm/engines.mjs -- the two builds of the same core: the wasm module and the native command.
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';

const build = new URL('../../build/', import.meta.url);

/** A fresh instance of a module, the very files that the page gets: canewright, or workshop. */
export async function loadModule(name = 'canewright') {
  const { default: create } = await import(new URL(`site/core/${name}.js`, build));
  return create({ wasmBinary: readFileSync(new URL(`site/core/${name}.wasm`, build)) });
}

/** What the native command answers: {status, answer} or {status, error}, parsed. */
export function command(verb, text) {
  const { status, stdout, stderr, error } = spawnSync(
    new URL('native/canewright', build).pathname, [verb, '-'],
    { input: text, encoding: 'utf8', maxBuffer: 1 << 26, timeout: 60_000 });
  if (error) throw error;
  return status === 0
    ? { status, answer: JSON.parse(stdout) }
    : { status, error: stderr === '' ? null : JSON.parse(stderr) };
}

/** Random permitted documents with the native layouts of them: [{document, layout}]. */
export function randomLayouts(documents, seed = 8) {
  const { status, stdout, error } = spawnSync(new URL('native/canewright_properties', build).pathname,
    ['--documents', String(documents), '--seed', String(seed), '--print'],
    { encoding: 'utf8', maxBuffer: 1 << 28, timeout: 120_000 });
  if (error) throw error;
  if (status !== 0) throw new Error(`canewright_properties ended with ${status}`);
  return stdout.trim().split('\n').map((line) => JSON.parse(line)).filter(({ layout }) => layout !== null);
}

/** How many numbers a JSON value holds: a comparison of nothing must not pass. */
export function countNumbers(value) {
  if (typeof value === 'number') return 1;
  if (value === null || typeof value !== 'object') return 0;
  return Object.values(value).reduce((sum, entry) => sum + countNumbers(entry), 0);
}

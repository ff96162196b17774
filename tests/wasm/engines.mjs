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

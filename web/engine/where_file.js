// web/engine/where_file.js: where.js for canewright.html: all is in the page, nothing is fetched
// (a browser refuses to fetch from file://). Both modules are the larger one, once.

// @ts-expect-error: the module's loader is there when tools/pack/file.mjs bundles this
import create from '../core/workshop.js';
import { program } from '../single/program.js';
import { unpacked } from '../single/unpack.js';

/** @type {Promise<WebAssembly.Module> | null} */
let core = null;

/** @returns {Promise<WebAssembly.Module>} */
export function compiled() {
  core ??= unpacked('core').then((bytes) => WebAssembly.compile(bytes));
  return core;
}

export const loader = async () => create;

/** The script that runs the page is its worker too: web/single/start.js tells which it is. */
export const newWorker = () => new Worker(URL.createObjectURL(new Blob([program],
  { type: 'text/javascript' })));

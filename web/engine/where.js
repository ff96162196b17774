// web/engine/where.js: where the acoustics module and its worker come from: files beside the page.
// In canewright.html, which has no files beside it, where_file.js takes this one's place.

/** @param {string} folder address of ./core/ @param {string} name of the module
 * @returns {Promise<WebAssembly.Module>} */
export async function compiled(folder, name) {
  const address = new URL(`${name}.wasm`, folder);
  const response = await fetch(address, { credentials: 'same-origin' });
  if (!response.ok) throw new Error(`${response.status} ${address.pathname}`);
  // Not the streaming form: it fails where a host sends another type than application/wasm.
  return WebAssembly.compile(await response.arrayBuffer());
}

/** The module's own loader. @param {string} folder @param {string} name
 * @returns {Promise<(options: object) => Promise<any>>} */
export const loader = async (folder, name) => (await import(new URL(`${name}.js`, folder).href)).default;

export const newWorker = () => new Worker(new URL('engine/worker.js', document.baseURI),
  { type: 'module' });

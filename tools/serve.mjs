// tools/serve.mjs -- serves a folder on this machine only, for looking at the page.
//
//   node tools/serve.mjs [--port N] [FOLDER]     default: port 8080, build/site
import { createReadStream } from 'node:fs';
import { readFile, stat } from 'node:fs/promises';
import { createServer } from 'node:http';
import { extname, join, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';

const TYPES = {
  '.css': 'text/css; charset=utf-8',
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json',
  '.mjs': 'text/javascript; charset=utf-8',
  '.pdf': 'application/pdf',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.txt': 'text/plain; charset=utf-8',
  '.wasm': 'application/wasm', // else the browser will not compile it while it loads
  '.webmanifest': 'application/manifest+json',
  '.woff2': 'font/woff2',
};

/** The file a request means, or null where it leaves the folder or there is none. */
async function fileFor(folder, address) {
  try {
    const path = decodeURIComponent(new URL(address, 'http://localhost').pathname);
    const asked = resolve(folder, `.${path}`);
    if (asked !== folder && !asked.startsWith(folder + sep)) return null;
    const file = (await stat(asked)).isDirectory() ? join(asked, 'index.html') : asked;
    return (await stat(file)).isFile() ? file : null;
  } catch {
    return null; // no such file, or an address that is none
  }
}

/**
 * Starts serving; port 0 takes any free one. As a host would, for tests: `maxAge` in seconds lets
 * browsers keep files, `packed` sends text and wasm compressed.
 * @returns {Promise<{address: string, close: Function}>}
 */
export function serve(folder, port, { maxAge = 0, packed = false } = {}) {
  const root = resolve(folder);
  const server = createServer(async (request, response) => {
    const file = ['GET', 'HEAD'].includes(request.method) ? await fileFor(root, request.url) : null;
    // no-store: after a rebuild a plain reload must show the new page.
    const head = { 'cache-control': maxAge > 0 ? `max-age=${maxAge}` : 'no-store',
      'x-content-type-options': 'nosniff' };
    if (!file) {
      response.writeHead(404, { ...head, 'content-type': TYPES['.txt'] }).end('not found\n');
      return;
    }
    const type = TYPES[extname(file)] ?? 'application/octet-stream';
    const gzip = packed && !/^(image\/png|application\/pdf|font\/)/.test(type)
      && /\bgzip\b/.test(request.headers['accept-encoding'] ?? '');
    response.writeHead(200, { ...head, 'content-type': type,
      ...(gzip ? { 'content-encoding': 'gzip', vary: 'accept-encoding' } : {}) });
    if (request.method === 'HEAD') response.end();
    else if (gzip) response.end(gzipSync(await readFile(file), { level: 9 }));
    else createReadStream(file).on('error', () => response.destroy()).pipe(response);
  });
  return new Promise((resolved, rejected) => {
    server.once('error', rejected);
    server.listen(port, '127.0.0.1', () => {
      const address = `http://localhost:${server.address().port}/`;
      const close = () => {
        server.closeAllConnections();
        return new Promise((done) => server.close(done));
      };
      resolved({ address, close });
    });
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const words = process.argv.slice(2);
  const at = words.indexOf('--port');
  const port = at < 0 ? 8080 : Number(words.splice(at, 2)[1]);
  try {
    const { address } = await serve(words[0] ?? 'build/site', port);
    console.log(`the page:    ${address}     (Ctrl-C ends it)`);
  } catch (error) {
    console.error(error.code === 'EADDRINUSE'
      ? `port ${port} is taken: choose another with --port N`
      : `cannot serve on port ${port}: ${error.message}`);
    process.exit(1);
  }
}

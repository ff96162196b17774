// tools/pack/file.mjs -- the whole page as one file, for file:// : laptops and memory sticks.
//
//   node tools/pack/file.mjs [--web FOLDER] [--core FOLDER] [OUT]
//
// Program, module and the later rooms' style are in it compressed. A strict policy names both styles and
// both scripts (the one that unpacks and the one that is unpacked) by their hashes and allows no connection at all.
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { spawnSync } from 'node:child_process';
import { build } from 'esbuild';
import { ROOT, fromCommandLine, bundling, policyHash, sha256, styles, versionOf, versionText }
  from './common.mjs';

/** The larger module where there is one. */
const moduleIn = (core) => (existsSync(join(core, 'workshop.wasm')) ? 'workshop' : 'canewright');

/** The version's values, and this file's own place of the module. */
const inside = (web, core, version) => ({
  name: 'inside',
  setup(builder) {
    builder.onResolve({ filter: /\/where\.js$/ }, () => ({ path: join(web, 'engine/where_file.js') }));
    builder.onResolve({ filter: /core\/workshop\.js$/ }, () => ({
      path: join(core, `${moduleIn(core)}.js`) }));
    builder.onLoad({ filter: /text\/version\.js$/ }, () => ({ contents: versionText(version) }));
  },
});

async function bundle(web, core, version, entry) {
  const { outputFiles: [{ text }] } = await build({
    ...bundling(web, [inside(web, core, version)]), entryPoints: [entry], format: 'iife',
    define: { 'import.meta.url': '"file:///"' } }); // the loader's own address, which it does not use
  // Inside a page an end tag or a comment in a string would end the script.
  return text.trim().replaceAll('</script', '<\\/script').replaceAll('<!--', '<\\!--');
}

/** The three of 128 characters that mean something to a page, and from where they stand instead. */
const MEANING = [0, 13, 60];
const FROM = 0xa1;
const letter = (seven) => String.fromCharCode(MEANING.includes(seven) ? FROM + MEANING.indexOf(seven) : seven);

/** Compressed, in the form that web/single/unpack.js describes and reads. */
function packed(id, bytes) {
  // Nothing here is aligned to bytes of a machine, so their place says nothing of them (lp, pb).
  const { stdout: packs, status, error } = spawnSync('xz', ['--format=lzma', '--stdout',
    '--lzma1=preset=9e,dict=4MiB,nice=273,lc=4,lp=0,pb=0'], { input: bytes, maxBuffer: 1e8 });
  if (status !== 0) throw error ?? new Error(`xz ended with ${status}`);
  let held = 0;
  let bits = 0;
  const letters = [];
  for (const byte of packs) {
    held = (held << 8 | byte) & 0x7fff;
    bits += 8;
    for (; bits >= 7; bits -= 7) letters.push(letter(held >> (bits - 7) & 127));
  }
  const over = (7 - bits) % 7;
  if (bits > 0) letters.push(letter(held << over & 127));
  letters.unshift(String(over));
  return `<script type="text/plain" id="${id}">${letters.join('')}</script>\n`;
}

export async function packFile({ web = join(ROOT, 'web'), core = join(ROOT, 'build/core'),
  out = join(ROOT, 'build/canewright.html') } = {}) {
  const source = readFileSync(join(web, 'index.html'), 'utf8');
  const { code, later } = await styles(web, source);
  const rooms = later.map((sheet) => sheet.code).join('');
  const wasm = readFileSync(join(core, `${moduleIn(core)}.wasm`));
  const version = { ...versionOf(), SHA256: '' };
  const run = await bundle(web, core, version, 'single/run.js');
  // The hash that is shown is of the parts: a file cannot show its own, which is in SHA256SUMS.
  const plain = await bundle(web, core, { VERSION: '', COMMIT: '', DATE: '', SHA256: '' },
    'single/start.js');
  version.SHA256 = sha256([source, code, rooms, run, plain, wasm].map(sha256).join('\n'));
  const program = await bundle(web, core, version, 'single/start.js');

  const policy = ["default-src 'none'", `script-src ${policyHash(run)} ${policyHash(program)} `
    + "'wasm-unsafe-eval'", `style-src ${policyHash(code)} ${policyHash(rooms)}`, 'img-src data: blob:', 'worker-src blob:',
    "base-uri 'none'", "form-action 'none'"].join('; ');
  const html = source
    .replace(/(http-equiv="Content-Security-Policy" content=")[^"]*/, (_, head) => head + policy)
    .replace(/<link rel="(?:manifest|apple-touch-icon|modulepreload|preload)"[^>]*>\n/g, '')
    .replace(/<script type="module"[^>]*><\/script>\n/g, '')
    .replace(/<link rel="stylesheet"[^>]*>\n/, () => `<style>${code}</style>\n`)
    .replace(/<link rel="stylesheet"[^>]*>\n/g, '')
    .replace('</body>', () => `${packed('core', wasm)}${packed('rooms', rooms)}${packed('program', program)}`
      + `<script>${run}</script>\n</body>`);
  const left = html.match(/<(?:script|link|img)[^>]*(?:src|href)="(?!data:)[^"]*"/);
  if (left) throw new Error(`not in the file: ${left[0]}`);
  mkdirSync(dirname(out), { recursive: true });
  writeFileSync(out, html);
  return { ...version, bytes: Buffer.byteLength(html), file: sha256(html) };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { bytes, SHA256, file } = await packFile(fromCommandLine());
  console.log(`one file:    ${(bytes / 1000).toFixed(1)} kB\nits parts:   ${SHA256}\nitself:      ${file}`);
}

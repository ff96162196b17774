// tools/pack/site.mjs -- puts the page into a folder for a static host; called by tools/build_site.
//
//   node tools/pack/site.mjs [--web FOLDER] [--core FOLDER] [OUT]
//
// A script that is loaded at the start keeps its name; one that is loaded later carries a hash of
// its content. Same files in, same bytes out.
import { cpSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { ROOT, bundling, filesIn, fromCommandLine, sha256, styles, sums, versionOf, versionText }
  from './common.mjs';
import { PARTS, inParts } from './parts.mjs';

const VERSION = 'text/version.js';
/** Not part of what the build's hash is over, since they carry it. */
const CARRY_THE_HASH = [VERSION, 'sw.js'];
/** Not needed to work: the system fetches icons when it installs; the rest is for the host. */
const NOT_KEPT = /^(sw\.js|sw-stop\.js|manifest\.webmanifest|icons\/.*)$/;

/** The version is a file of its own, so that a new commit changes no other. */
const versionApart = {
  name: 'version apart',
  setup(builder) {
    builder.onResolve({ filter: /\/version\.js$/ }, () => ({ path: `../${VERSION}`, external: true }));
  },
};

export async function packSite({ web = join(ROOT, 'web'), core = join(ROOT, 'build/core'),
  out = join(ROOT, 'build/site') } = {}) {
  const options = bundling(web, [versionApart]);
  const bundled = [...await inParts(web, 'main.js', options),
    ...await inParts(web, 'offline/begin.js', options),
    ...(await build({ ...options, entryPoints: ['engine/worker.js'], format: 'esm' })).outputFiles
      .map(({ path, text }) => ({ path: relative(web, path), text }))];
  for (const name of ['canewright.js', 'canewright.wasm']) {
    if (!existsSync(join(core, name))) throw new Error(`no ${name}: tools/build_site makes it`);
  }
  // Only now: what cannot be bundled leaves the folder as it was.
  rmSync(out, { recursive: true, force: true });
  const put = (name, content) => {
    mkdirSync(dirname(join(out, name)), { recursive: true });
    writeFileSync(join(out, name), content);
  };
  for (const name of ['manifest.webmanifest', 'sw-stop.js', 'icons']) {
    cpSync(join(web, name), join(out, name), { recursive: true,
      filter: (file) => !/\.m?js$/.test(file) || /sw-stop/.test(file) });
  }
  cpSync(core, join(out, 'core'), { recursive: true });
  for (const { path, text } of bundled) {
    if (!path.startsWith(PARTS) && text.includes(VERSION)) {
      throw new Error(`${path} is loaded at the start and asks for ${VERSION}: only later ones may`);
    }
    put(path, text);
  }

  // What is said to who reads the source is not sent to who opens the page.
  let html = readFileSync(join(web, 'index.html'), 'utf8').replace(/<!--[^]*?-->\n/g, '');
  const { first, code, later } = await styles(web, html);
  put(first, code);
  for (const sheet of later) put(sheet.name, sheet.code);
  html = html.replace(/<link rel="stylesheet" href="([^"]*)">\n/g,
    (line, name) => (name === first ? line : ''));
  put('index.html', html);

  const listed = filesIn(out);
  const hash = sha256(sums(out, listed.filter((name) => !CARRY_THE_HASH.includes(name))));
  const version = { ...versionOf(), SHA256: hash };
  put(VERSION, versionText(version));
  put('sw.js', worker(readFileSync(join(web, 'sw.js'), 'utf8'), hash, [...listed, VERSION]));
  return version;
}

/** The service worker with its version and its list. */
function worker(source, hash, names) {
  // './' and not index.html: some hosts redirect that, and a redirect cannot be kept.
  const files = names.filter((name) => !NOT_KEPT.test(name)).sort()
    .map((name) => (name === 'index.html' ? './' : name));
  const filled = source.replace("const BUILD = 'development';", `const BUILD = '${hash}';`)
    .replace('const FILES = [];', `const FILES = ${JSON.stringify(files, null, 2)};`);
  if (!filled.includes(hash) || !filled.includes('"./"')) throw new Error('sw.js: nothing to fill in');
  return filled;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { VERSION: number, COMMIT, DATE, SHA256 } = await packSite(fromCommandLine());
  console.log(`version:     ${number}, ${DATE}, ${COMMIT}\nSHA-256:     ${SHA256}`);
}

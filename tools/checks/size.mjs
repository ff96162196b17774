// tools/checks/size.mjs -- what a first visit transfers, and what comes later, against budgets.
//
//   node tools/checks/size.mjs [FOLDER [FILE]]        default: build/site build/canewright.html
//
// First: the page, what its head names, and all that those scripts import at once; each file gzip -9 by
// itself, as a static host sends it. Later: what is fetched when it is asked for, or by the service
// worker when the page is idle. Fails above a limit; an aim that is missed is only said.
import { existsSync, readFileSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { filesIn } from '../pack/common.mjs';

const folder = process.argv[2] ?? 'build/site';
const single = process.argv[3] ?? 'build/canewright.html';

const text = (name) => readFileSync(join(folder, name), 'utf8');
const IMPORT = /(?:^|[;}\s])(?:import|export)\s*(?:[^"'();]*?from\s*)?["'](\.[^"']+)["']/g;

/** The named script and those that it imports at once, and theirs. */
function withImports(name, found = new Set()) {
  if (found.has(name)) return found;
  found.add(name);
  if (!name.endsWith('.js')) return found;
  for (const [, path] of text(name).matchAll(IMPORT)) withImports(join(dirname(name), path), found);
  return found;
}

/** Icons are fetched by the system when the page is installed, not by a visit. */
const named = [...text('index.html').matchAll(/<(?:link|script)\b[^>]*>/g)]
  .filter(([tag]) => !/rel="[^"]*icon"/.test(tag))
  .map(([tag]) => tag.match(/(?:href|src)="([^"]*)"/)?.[1]).filter(Boolean);
// main.js starts the worker by its address.
const first = new Set(['index.html', 'engine/worker.js', ...named]);
for (const name of [...first]) for (const each of withImports(name)) first.add(each);
const missing = [...first].filter((name) => !existsSync(join(folder, name)));

const files = filesIn(folder).map((name) => {
  const bytes = readFileSync(join(folder, name));
  return { name, raw: bytes.length, gz: gzipSync(bytes, { level: 9 }).length };
}).sort((a, b) => b.gz - a.gz);
const early = files.filter(({ name }) => first.has(name));
const late = files.filter(({ name }) => !first.has(name));

const kb = (bytes) => (bytes / 1000).toFixed(1).padStart(8);
const sum = (list, key) => list.reduce((total, file) => total + file[key], 0);
function table(title, list) {
  console.log(`  raw kB   gz kB  ${title}`);
  for (const { name, raw, gz } of list) console.log(`${kb(raw)}${kb(gz)}  ${name}`);
  console.log(`${kb(sum(list, 'raw'))}${kb(sum(list, 'gz'))}  all ${list.length}\n`);
}
table('first visit', early);
table('later', late);

const kept = existsSync(join(folder, 'sw.js'))
  ? JSON.parse(text('sw.js').match(/const FILES = (\[[^\]]*\])/)[1]).map((n) => (n === './' ? 'index.html' : n))
  : [];
const scripts = early.filter(({ name }) => name.endsWith('.js'));
const wasm = early.filter(({ name }) => name.endsWith('.wasm'));
/** What, how much in kB, what it must not pass, what it should not pass. */
const budgets = [
  ['first visit, compressed', sum(early, 'gz') / 1000, 200, 150],
  ['its scripts, compressed', sum(scripts, 'gz') / 1000, 60, 40],
  ['its wasm, compressed', sum(wasm, 'gz') / 1000, Infinity, 130],
  ['kept for offline', sum(files.filter(({ name }) => kept.includes(name)), 'raw') / 1000, Infinity, 600],
];
if (existsSync(single)) budgets.push(['the single file', statSync(single).size / 1000, 600, 400]);
let failed = files.length === 0 || wasm.length === 0 || missing.length > 0;
for (const [what, value, limit, aim] of budgets) {
  const verdict = value > limit ? 'TOO MUCH' : value > aim ? 'above the aim' : '';
  failed ||= value > limit;
  console.log(`${value.toFixed(1).padStart(8)} kB  ${what.padEnd(25)} limit ${
    limit === Infinity ? '  -' : limit}  aim ${aim}  ${verdict}`);
}
if (missing.length > 0) console.error(`named, but not there: ${missing.join(', ')}`);
if (files.length === 0 || wasm.length === 0) console.error(`${folder}: nothing was measured`);
process.exit(failed ? 1 : 0);

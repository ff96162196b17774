// tools/check_size.mjs -- what a first visit transfers: every file of build/site, compressed.
//
//   node tools/check_size.mjs [FOLDER]
// Fails above LIMIT_KB. Compressed with gzip -9, each file by itself, as a static host would.
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join, relative } from 'node:path';
import { gzipSync } from 'node:zlib';

const LIMIT_KB = 200; // a phone on a slow connection; 1 kB = 1000 bytes
const AIM_KB = 150;

const folder = process.argv[2] ?? 'build/site';
const files = readdirSync(folder, { recursive: true })
  .map((name) => join(folder, name))
  .filter((file) => statSync(file).isFile())
  .map((file) => {
    const bytes = readFileSync(file);
    return { name: relative(folder, file), raw: bytes.length, gz: gzipSync(bytes, { level: 9 }).length };
  })
  .sort((a, b) => b.gz - a.gz);

const kb = (bytes) => (bytes / 1000).toFixed(1).padStart(8);
const total = (key) => files.reduce((sum, file) => sum + file[key], 0);
console.log('  raw kB   gz kB');
for (const { name, raw, gz } of files) console.log(`${kb(raw)}${kb(gz)}  ${name}`);
console.log(`${kb(total('raw'))}${kb(total('gz'))}  all ${files.length} (limit ${LIMIT_KB}, aim ${AIM_KB})`);

if (files.length === 0) console.error(`${folder} is empty: nothing was measured`);
if (total('gz') > LIMIT_KB * 1000) console.error(`more than ${LIMIT_KB} kB`);
process.exit(files.length === 0 || total('gz') > LIMIT_KB * 1000 ? 1 : 0);

// tools/bench.mjs -- runs the three programs of tools/bench and prints what they measured.
//
//   node tools/bench.mjs [DOCUMENT.json [BUILD.json]]      the second with a full log
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

import { loadModule } from '../tests/wasm/engines.mjs';

const ROUNDS = 3; // native and wasm by turns, so that both meet the machine in the same mood
const path = process.argv[2] ?? 'tests/data/documents/six_holes.json';
const buildPath = process.argv[3] ?? 'tests/data/documents/full_log.json';
const text = readFileSync(path, 'utf8');
const buildText = readFileSync(buildPath, 'utf8');

/** Seconds per call, the best of five rounds: whatever else the machine does only adds time. */
function bestSeconds(calls, call) {
  let best = Infinity;
  for (let round = 0; round < 5; ++round) {
    const since = performance.now();
    for (let i = 0; i < calls; ++i) call();
    best = Math.min(best, (performance.now() - since) / 1000 / calls);
  }
  return best;
}

const module = await loadModule();
const workshop = await loadModule('workshop');
let native;
let wasm = Infinity;
let next = Infinity;
for (let round = 0; round < ROUNDS; ++round) {
  const now = JSON.parse(execFileSync('build/native/canewright_bench', [path, buildPath], { encoding: 'utf8' }));
  if (!native || now.run_s < native.run_s) native = now;
  wasm = Math.min(wasm, bestSeconds(3, () => module.run('layout', text)));
  next = Math.min(next, bestSeconds(3, () => workshop.run('next', buildText)));
}
const numpy = JSON.parse(execFileSync('/usr/bin/python3', ['tools/bench_numpy.py'],
  { input: JSON.stringify(native), encoding: 'utf8' }));

const sum = (list, key) => list.reduce((total, entry) => total + entry[key], 0);
const ms = (seconds) => `${(seconds * 1000).toFixed(3)} ms`;
const us = (seconds) => `${(seconds * 1e6).toFixed(2)} us`;
const { notes, layout } = native;
const apart = Math.max(...notes.map(({ hz }, i) => Math.abs(1200 * Math.log2(hz / numpy.notes[i].hz))));

console.log(`${path}: ${native.flute.holes.length} holes, ${notes.length} notes`);
console.log(`core and numpy differ by at most ${apart.toExponential(1)} cents`);
console.log('');
console.log('                        native      numpy/scipy     numpy : native');
const row = (name, key) => {
  const [one, two] = [sum(notes, key), sum(numpy.notes, key)].map((total) => total / notes.length);
  console.log(`${name.padEnd(20)} ${us(one).padStart(11)} ${us(two).padStart(15)} ${(two / one).toFixed(0).padStart(13)}`);
};
row('one impedance', 'evaluation_s');
row('one note', 'solve_s');
console.log(`impedances a note    ${(sum(notes, 'evaluations') / notes.length).toFixed(1).padStart(11)} ${(sum(numpy.notes, 'evaluations') / notes.length).toFixed(1).padStart(15)}`);
console.log('');
console.log('layout, text in and text out');
console.log(`  native ${ms(native.run_s)}, wasm ${ms(wasm)}: wasm : native = ${(wasm / native.run_s).toFixed(2)}`);
console.log(`  of it placing the holes: ${ms(native.place_s)} native`);
console.log(`  ${layout.evaluations} impedance evaluations in ${layout.steps} steps, `
  + `${layout.binding} limits binding, ${layout.converged ? 'converged' : 'NOT converged'}`);

for (const each of native.bound) {
  console.log(`  ${each.name}: ${each.evaluations} evaluations in ${each.steps} steps, ${ms(each.place_s)} native, worst note ${
    each.worst_cents} cents`);
}

// --- what a tube can be: the whole grid, and the first choice that a page can show -----------------
const suits = bestSeconds(1, () => workshop.run('suits', text));
const { carries, refused } = JSON.parse(workshop.run('suits', text)).answer;
console.log(`suits, ${carries} carried and ${refused.length} refused`);
console.log(`  native ${ms(native.suits_s)}, wasm ${ms(suits)}: wasm : native = ${(suits / native.suits_s).toFixed(2)}`);
const part = JSON.stringify({ document: JSON.parse(text), from: 0, to: 10 });
console.log(`  the first ten of them, so that a page has one to show, wasm: ${ms(bestSeconds(1, () => workshop.run('suits_part', part)))}`);

// Tubes that cost most: narrow ones, few bits, fingers held close, hardly a flute.
const tubes = [[6, 200, {}], [12, 300, { spacing_mm: { min: 14, max: 22 }, bits: [{ mm: 5 }, { mm: 6 }] }],
  [16, 330, { spacing_mm: { min: 22, max: 30 }, bits: [{ mm: 6 }, { mm: 7 }] }], [13, 320, { spacing_mm: { min: 40, max: 42 } }],
  [25, 120, {}]].map(([bore, end, shop]) => ({ format: 'canewright/1', shop,
  tube: { bore: [{ at_mm: 0, diameter_mm: bore }], wall_mm: 2, end_mm: end },
  sound_hole: { length_mm: 0.27 * bore, width_mm: 0.5 * bore } }));
console.log(`  of other tubes, wasm: ${tubes.map((tube) => {
  const asked = JSON.stringify(tube);
  return `${tube.tube.bore[0].diameter_mm} x ${tube.tube.end_mm} mm ${ms(bestSeconds(1, () => workshop.run('suits', asked)))}`;
}).join(', ')}`);

console.log(`next, on a log of ${JSON.parse(buildText).log.length} entries`);
console.log(`  native ${ms(native.next_s)}, wasm ${ms(next)}: wasm : native = ${(next / native.next_s).toFixed(2)}`);

// --- the voice: a breath map, and a second of sound ----------------------------------------------
const laid = JSON.parse(module.run('layout', text)).answer;
const voiced = { ...laid, tube: { ...laid.tube, above_mm: laid.tube.above_mm ?? 100 },
  track: laid.track ?? { depth_mm: 0.9, width_mm: laid.sound_hole.width_mm, length_mm: 30 } };
const asked = (seconds) => JSON.stringify({ document: voiced, open: [], register: 1, seconds });
const mapped = JSON.parse(workshop.run('voice', JSON.stringify(voiced))).answer;
console.log('voice, wasm, text in and text out');
console.log(`  breath map of ${mapped.notes.length / 2} notes in two registers, ${mapped.voice?.band}: `
  + ms(bestSeconds(1, () => workshop.run('voice', JSON.stringify(voiced)))));
for (const seconds of [0.3, 1]) {
  console.log(`  ${seconds} s of a note's sound: ${ms(bestSeconds(1, () => workshop.run('tone', asked(seconds))))}`);
}
console.log('');

// --- flutes built at random: how the cost grows --------------------------------------------------
const folder = mkdtempSync(join(tmpdir(), 'bench-'));
const file = join(folder, 'flute.json');
/** Seconds that so many builds of a document take, less what the command takes without any. */
function buildSeconds(document, builds) {
  writeFileSync(file, JSON.stringify(document));
  const run = (count) => bestSeconds(1, () => execFileSync('build/native/canewright',
    ['spread', file, '--builds', String(count), '--seed', '1']));
  return run(builds) - run(1);
}
/** Exponent of y ~ x^p, least squares over logarithms: 1 is linear. */
function power(points) {
  const logs = points.map(([x, y]) => [Math.log(x), Math.log(y)]);
  const mean = (i) => logs.reduce((total, row) => total + row[i], 0) / logs.length;
  const [mx, my] = [mean(0), mean(1)];
  return logs.reduce((total, [x, y]) => total + (x - mx) * (y - my), 0)
    / logs.reduce((total, [x]) => total + (x - mx) ** 2, 0);
}
const laidOut = (holes) => {
  const document = JSON.parse(text);
  document.song = { ...document.song, holes };
  delete document.song.fingerings;
  delete document.shop?.hands;
  return JSON.parse(module.run('layout', JSON.stringify(document))).answer;
};
const flute = laidOut(6);
const slope = (name, points) => console.log(`  ${name}: ${points.map(([x, y]) => `${x} ${y.toFixed(2)} s`)
  .join(', ')}: grows with the power ${power(points).toFixed(2)}`);
console.log('');
console.log('builds at random, native');
slope('builds', [2500, 5000, 10000].map((builds) => [builds, buildSeconds(flute, builds)]));
slope('fingerings, of six holes', [2, 3, 5].map((count) => [count,
  buildSeconds({ ...flute, notes: flute.notes.slice(0, count) }, 5000)]));
slope('holes, five fingerings each', [4, 5, 6].map((holes) => [holes,
  buildSeconds({ ...laidOut(holes), notes: laidOut(holes).notes.slice(0, 5) }, 5000)]));
rmSync(folder, { recursive: true });

if (!(apart < 1e-6)) {
  console.error('the two models are not the same: the ratios mean nothing');
  process.exit(1);
}

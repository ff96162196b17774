// tests/wasm/properties.test.mjs -- native and wasm lay out random permitted documents alike: the
// native program of tools/properties prints them with its answers.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { before, test } from 'node:test';

import { loadModule } from './engines.mjs';

const DOCUMENTS = 300;
const SEED = 1;
const MARK_MM = 1e-6;
const PITCH_CENTS = 1e-6;

let workshop;
before(async () => { workshop = await loadModule('workshop'); });

function printed() {
  const program = new URL('../../build/native/canewright_properties', import.meta.url).pathname;
  const { status, stdout } = spawnSync(program,
    ['--print', '--documents', String(DOCUMENTS), '--seed', String(SEED)],
    { encoding: 'utf8', maxBuffer: 1 << 28 });
  assert.equal(status, 0);
  return stdout.trim().split('\n').map((line) => JSON.parse(line));
}

/** What a plan says, as [what, value, how far two may lie apart]. */
function marks(layout) {
  return [['foot', layout.foot_mm, MARK_MM],
    ...layout.finger_holes.flatMap((hole, i) => [
      [`place ${i + 1}`, hole.at_mm, MARK_MM], [`size ${i + 1}`, hole.diameter_mm, MARK_MM],
      [`inner size ${i + 1}`, hole.inner_diameter_mm, MARK_MM]]),
    ...layout.notes.map((note, i) => [`note ${i + 1}`, note.cents, PITCH_CENTS])];
}

/** @returns {string[]} what differs */
function apart(native, wasm) {
  if (native === null || wasm === undefined) return [`${native} and ${wasm}`];
  const other = marks(wasm);
  const found = marks(native).filter(([, value, room], i) => (
    value === null || other[i][1] === null ? value !== other[i][1]
      : !(Math.abs(value - other[i][1]) <= room)));
  if (native.converged !== wasm.converged) found.push(['converged', native.converged, wasm.converged]);
  return found.map(([what, value]) => `${what} ${value}`);
}

test('a difference is seen', () => {
  const plan = { foot_mm: 300, converged: true, notes: [{ cents: 0 }],
    finger_holes: [{ at_mm: 100, diameter_mm: 5, inner_diameter_mm: 5 }] };
  assert.deepEqual(apart(plan, structuredClone(plan)), []);
  assert.equal(apart(plan, { ...plan, foot_mm: 300.00001 }).length, 1);
  assert.equal(apart(plan, { ...plan, foot_mm: null }).length, 1);
  assert.equal(apart(plan, { ...plan, notes: [{ cents: 1e-3 }] }).length, 1);
});

test('layout of random documents', () => {
  const lines = printed();
  assert.equal(lines.length, DOCUMENTS);
  const differ = lines.flatMap(({ document, layout }, number) => {
    const found = apart(layout, JSON.parse(workshop.run('layout', JSON.stringify(document))).answer);
    return found.length > 0 ? [`document ${number}: ${found.join(', ')}: ${JSON.stringify(document)}`] : [];
  });
  assert.deepEqual(differ, []);
});

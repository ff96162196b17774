// tests/web/worth.test.mjs -- what a millimetre more of each size does: order, sentence, inches.
import assert from 'node:assert/strict';
import { it } from 'node:test';
import { worthCents, worthName, worthWords } from '../../web/voice/cut/words.js';
import { ranked } from '../../web/voice/cut/worth.js';

const part = (path, cents_per_mm) => ({ path, mm: 1, known: 'measured', cents_per_mm });
const parts = [part('block.width_mm', 0.2), part('sound_hole.width_mm', 22.4), part('sound_hole.wall_mm', -30),
  part('block.height_mm', null), part('sound_hole.ramp_mm', -2)];

it('the largest first, whichever way; what does nothing that is known is left out', () => {
  const all = ranked(parts, 1);
  assert.deepEqual(all.map(({ cents }) => cents), [-30, 22.4, -2, 0.2]);
  assert.match(worthWords(all, '1 mm'), /^The wall at the sound hole counts most: with 1 mm more .*flatter\. Less than a cent: width of the block\.$/);
  assert.doesNotMatch(worthWords(all.slice(0, 3), '1 mm'), /Less/);
  assert.equal(worthCents(-30), '−30.0 ¢');
  assert.equal(worthCents(0.01), '0');
  assert.equal(worthName('block.side_walls.length_mm'), 'Length of the side walls');
  // 1/32 of an inch is 0.79375 mm
  assert.ok(Math.abs(ranked(parts, 25.4 / 32)[0].cents + 30 * 0.79375) < 1e-9);
});

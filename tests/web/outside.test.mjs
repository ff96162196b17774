// tests/web/outside.test.mjs -- what lies beyond what was checked is named by its part, with the size and the end.
import assert from 'node:assert/strict';
import { describe, it } from 'node:test';
import { outsideWords } from '../../web/marks/outside/outside.js';

const engine = { writeLength: (mm, unit) => (unit === 'mm' ? mm.toFixed(1) : `${(mm / 25.4).toFixed(2)}″`) };
const state = { doc: {} };
const words = (path, value, limit, s = state) => outsideWords({ path, value, limit }, s, engine);

describe('beyond what was checked', () => {
  it('a hole’s width, the wood between two, a bore, in the maker’s unit', () => {
    assert.equal(words('finger_holes[2].diameter_mm', 9.24, 8), 'Width of hole 3: 9.2 mm; checked up to 8.0 mm.');
    assert.match(words('finger_holes[0].at_mm', 2, 6.3), /^2\.0 mm of wood is left between holes 1 and 2; .*, 6\.3 mm\.$/);
    assert.equal(words('tube.bore[1].diameter_mm', 27, 25), 'Bore: 27.0 mm; checked up to 25.0 mm.');
    assert.equal(words('sound_hole.length_mm', 2.54, 5.08, { doc: { show: { unit: 'inch' } } }),
      'Length of the sound hole: 0.10″; checked down to 0.20″.');
    assert.match(words('foot_plug.opening_mm', 16, 15.2), /^The disc’s opening, 16\.0 mm, .* bore at the foot, 15\.2 mm/);
  });
});

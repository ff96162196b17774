// tests/e2e/paper_raster.mjs -- turns a PDF into bitmaps and measures lines in them. Poppler draws it,
// which shares nothing with the page that wrote it.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const DARK = 0.25;  // of black, at least, in a line's darkest dot

/** Runs one of Poppler's programs on a PDF. @returns {string} what it prints */
export function poppler(program, words, pdf) {
  const folder = mkdtempSync(join(tmpdir(), 'paper-'));
  try {
    const file = join(folder, 'in.pdf');
    writeFileSync(file, pdf);
    return execFileSync(program, [...words, file, ...(program === 'pdftotext' ? ['-'] : [])],
      { encoding: 'utf8' });
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Every page as a bitmap. @param {Buffer} pdf @param {number} dpi @returns {Bitmap[]} */
export function pages(pdf, dpi) {
  const folder = mkdtempSync(join(tmpdir(), 'paper-'));
  try {
    writeFileSync(join(folder, 'in.pdf'), pdf);
    execFileSync('pdftoppm', ['-gray', '-r', String(dpi), join(folder, 'in.pdf'), join(folder, 'page')]);
    return readdirSync(folder).filter((name) => name.endsWith('.pgm')).sort()
      .map((name) => new Bitmap(readFileSync(join(folder, name)), dpi));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** A grey bitmap in the PGM format (P5, 8 bits; netpbm's pgm(5)), measured in mm. */
export class Bitmap {
  constructor(file, dpi) {
    const head = /^P5\s+(?:#.*\s)*(\d+)\s+(\d+)\s+255\s/.exec(file.subarray(0, 200).toString('latin1'));
    if (!head) throw new Error('not a PGM file of 8 bits');
    [this.width, this.height] = [Number(head[1]), Number(head[2])];
    this.dots = file.subarray(head[0].length);
    this.perMm = dpi / 25.4;
  }

  /** Blackness of a dot, 0 to 1; beyond the page is white. */
  black(x, y) {
    if (x < 0 || y < 0 || x >= this.width || y >= this.height) return 0;
    return 1 - this.dots[y * this.width + x] / 255;
  }

  /** Middles of the dark lines met when going straight from (x, y) by `reach` mm, right or down, each
   * weighed by its blackness; mean of a lane `lane` mm wide. @returns {number[]} [mm] along the way */
  crossings({ x, y, reach, down, lane = 0.3 }) {
    const start = Math.round((down ? y : x) * this.perMm);
    const side = Math.round((down ? x : y) * this.perMm);
    const half = Math.max(0, Math.round(lane / 2 * this.perMm));
    const count = Math.round(reach * this.perMm);
    const profile = Array.from({ length: count }, (_, i) => {
      let sum = 0;
      for (let k = -half; k <= half; k += 1) {
        sum += down ? this.black(side + k, start + i) : this.black(start + i, side + k);
      }
      return sum / (2 * half + 1);
    });
    const found = [];
    for (let i = 0; i < count; i += 1) {
      if (profile[i] < 0.02) continue;
      let [weight, moment, darkest] = [0, 0, 0];
      for (; i < count && profile[i] >= 0.02; i += 1) {
        weight += profile[i];
        moment += profile[i] * (start + i + 0.5);
        darkest = Math.max(darkest, profile[i]);
      }
      if (darkest >= DARK) found.push(moment / weight / this.perMm);
    }
    return found;
  }

  /** The one line near a place: crossed going down at x (a line lying), or right at y (one upright).
   * Throws where there is none or more than one. */
  lineNear({ x, y, down, within = 1, lane }) {
    const found = this.crossings({ x: down ? x : x - within, y: down ? y - within : y,
      reach: 2 * within, down, lane });
    if (found.length !== 1) throw new Error(`${found.length} lines near ${x}, ${y}: ${found}`);
    return found[0];
  }
}

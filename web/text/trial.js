// web/text/trial.js: sentences on what makes the bands, and on flutes built by chance.

import { bare } from './sure.js';

/** "the shop: ± 5, not yet known: ± 8" @param {NoteSpread} note */
export function parts({ shop_cents: shop, model_cents: model }) {
  return shop === undefined || model === undefined ? ''
    : `the shop: ± ${bare(shop)}, the voice not yet known: ± ${bare(model)}`;
}

/** @param {number} count */
export const thousands = (count) => String(count).replace(/\B(?=(\d{3})+$)/g, ',');

/** What the built flutes say about the reckoning by slopes.
 * @param {Trial} trial @param {string[]} straying names of the notes that differ */
export function trialSentence({ result, running, wanted, fault }, straying) {
  if (fault !== '') return `The flutes could not be reckoned, which is our fault. (${fault})`;
  if (result === null) return '';
  if (running) return `${thousands(result.builds)} of ${thousands(wanted)} flutes`;
  const stopped = result.builds < wanted ? `Stopped after ${thousands(result.builds)} flutes. ` : '';
  const failed = result.failed === 0 ? '' : ` ${thousands(result.failed)} of them came to nothing: `
    + 'holes ran together, or a note did not speak.';
  if (straying.length > 0) {
    return `${stopped}For ${straying.join(', ')} the flutes differ by more than a tenth from the quick `
      + `reckoning; theirs are the figures to trust and stand first.${failed}`;
  }
  return `${stopped}The flutes bear out the quick reckoning: each note’s band agrees within a `
    + `tenth.${failed}`;
}

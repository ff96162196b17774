// web/marks/words_later.js: what the room Marks says of the bands and of flutes built by chance, apart
// so that no first visit waits for it.

// What makes the bands.
export const MEANS = '± means: of three flutes made so, two come within it. The shop is what measuring, '
  + 'marking and drilling do. The voice, with the breath and the holes’ edges, is known only once it is '
  + 'blown.';
export const LARGEST = 'Largest first, over all notes';
/** @param {number} near @param {number} far shares of all flutes */
export const within = (near, far) => `Every note within 5 cents: ${ofFlutes(near)}; within 20: ${
  ofFlutes(far)}.`;
/** @param {number} share */
const ofFlutes = (share) => `${Math.round(share * 100)} % of flutes`;

// Flutes built by chance.
export const BUILT = 'Flutes built';
export const STOP = 'Stop';
/** @param {string} count */
export const tryOn = (count) => `Try it on ${count} flutes`;
export const TRY_AGAIN = 'Try again';
export const BEGINNING = 'Beginning.';
export const IN_CENTS = 'Bands in cents';
export const NOTE = 'Note';
export const RECKONED = 'reckoned';
/** @param {string} count */
export const flutes = (count) => `${count} flutes`;
export const ALL_WITHIN = 'all within 10 cents';

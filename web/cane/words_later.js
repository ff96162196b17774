// web/cane/words_later.js: what the room Cane says in what few open, apart so that no first visit waits
// for it.

// A ridge left of a node.
export const RIDGE_NOTE = 'A ring that stays in the bore flattens some notes more than others. '
  + 'Filing it away is best; what is left is reckoned with. Empty lines: no ridge.';
export const RIDGE_AT = { label: 'Ridge at', note: 'below the line' };
export const OPENING = { label: 'Its opening', full: 'Opening of the ridge',
  note: 'the thickest drill shank that passes' };
export const THICKNESS = { label: 'Its thickness', full: 'Thickness of the ridge',
  note: 'along the tube; 2 mm where not said' };

// Other ways to find the bore.
export const YOU_HAVE = 'What you have';
export const AS_OUTSIDE = 'Take it as the outside diameter';
export const AS_BORE = 'Take it as the bore';
/** @param {number} number */
export const asBore = (number) => `Take it as bore ${number}`;
export const PUT_BACK = 'Put back what was there';

// web/guide/words.js: what the room that measures a tube, one thing at a time, says.

export const WHOLE_FORM = 'The whole form';
export const BACK = 'Back';
export const NEXT = 'Next';
export const SKIP = 'Skip';
export const SHOW_MARKS = 'Show marks';
/** @param {number} number @param {number} all */
export const progress = (number, all) => `${number} of ${all}`;
/** What a screen reader hears when another screen comes. @param {string} count @param {string} title
 * @param {string} how */
export const heard = (count, title, how) => `${count}: ${title}. ${how}`;

export const NEEDED = 'A figure is needed here for the marks. Skip leaves it for later.';
export const STILL_NEEDED = 'This is still needed for the marks.';
export const LOOK_AGAIN = 'The marks wait for this.';
const LATER = 'Skip: it is asked for once more before there are marks.';

export const UNITS = { title: 'Your ruler', how: 'Which one lies on the bench? A figure in the other unit is '
  + 'read too, with its unit behind it.', skip: 'Skip: as proposed.' };
export const MILLIMETRES = 'Millimetres';
/** @param {number} fraction */
export const inches = (fraction) => `Inches, to 1/${fraction}`;

export const BORE = { title: 'Bore', label: 'Inside diameter', how: 'Inside jaws in the open end, lightly. Turn '
  + 'the tube a quarter and measure again: take the middle of the two.', skip: LATER };
export const WALL = { title: 'Wall', label: 'Thickness of the wall', how: 'Calipers over the edge of the cut end, '
  + 'on the side where the finger holes will go.', skip: LATER };
export const OUTSIDE = { label: 'Outside diameter', how: 'Calipers round the tube where the finger holes will go.' };
export const HAVE_OUTSIDE = 'I have the outside diameter';
export const HAVE_WALL = 'I have the thickness of the wall';
export const END = { title: 'Length to the end', label: 'From the line to the end', how: 'Draw a line round the '
  + 'tube where the sound hole will begin, on its mouth side. Measure from there to the far end.', skip: LATER };
export const HOLE_LENGTH = { title: 'Sound hole, length', label: 'Length along the tube', how: 'From the line to '
  + 'the edge that will split the air. Not cut yet: what you mean to cut.', skip: LATER };
export const HOLE_WIDTH = { title: 'Sound hole, width', label: 'Width across the tube', how: 'From side to side. '
  + 'Not cut yet: what you mean to cut.', skip: LATER };
export const PLUG = { title: 'The plug’s face', label: 'Behind the line', how: 'How far the plug’s face stands '
  + 'back from the line, towards the mouth. Flush with the line is 0.', skip: 'Skip: flush, as is usual.' };
export const LOWEST = { title: 'Lowest note', how: 'With every hole covered. For a note the foot is sawn off; or the '
  + 'tube keeps its length.',
skip: 'Skip: as the tube has it, as is usual.' };
export const AS_IT_IS = 'As the tube has it';
/** @param {number} hz */
export const hertz = (hz) => `${Math.round(hz * 10) / 10} Hz`;
/** @param {string} scale its name; of the maker's own steps: none @param {string} holes their number as a word */
export const scaleWords = (scale, holes) => `The scale on it: ${scale || 'steps of your own'}, ${holes} finger holes; `
  + 'Song has others.';

// Within the pictures.
export const MOUTH = 'mouth';

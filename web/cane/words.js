// web/cane/words.js: what the room Cane says.

// The station: the tube in hand.
export const LEAD = 'Draw a line round the tube where the sound hole will begin, on its mouth side. '
  + 'Measure from that line.';
export const OTHER_WAYS = 'Other ways to find the bore';
export const NODE_RIDGE = 'A ridge left of a node';
export const LENGTH = 'Length';
export const BELOW_LINE = { label: 'Below the line', note: 'to the end, as it is' };
export const ABOVE_LINE = { label: 'Above the line', note: 'room for the chamber' };
export const PLUG = { label: 'Plug’s face', note: 'behind the line; flush is 0' };
export const SOUND_HOLE = 'Sound hole';
export const HOLE_LENGTH = { label: 'Length', full: 'Sound hole length', note: 'along the tube' };
export const HOLE_WIDTH = { label: 'Width', full: 'Sound hole width', note: 'across' };
export const HOLE_WALL = { label: 'Wall there', full: 'Wall there, at the sound hole',
  note: 'where it is thinner all round; a flat that ends at the splitting edge is not' };
export const THIS_TUBE = 'This tube';
export const NAME = 'Name';
export const MATERIAL = 'Material';
export const NOT_SAID = 'not said';
export const TAKE_CARE = 'Take care. ';
export const WALL = { label: 'Wall', note: 'at the finger holes' };
export const OUTSIDE = { label: 'Outside diameter', note: 'at the finger holes' };
export const CAN_MEASURE = 'What you can measure';
export const WAYS_TO_MEASURE = 'Ways to measure';
export const TO_EXAMPLE = 'Back to the example';
export const BRING_BACK = 'Bring mine back';
export const KEPT = 'What you enter stays in this browser only.';
export const NOT_KEPT = 'This browser keeps nothing after the page is closed; write your figures down.';

// The bore, at its places.
export const BORE = 'Bore';
export const ADD_PLACE = 'Add a place';
/** @param {number} number */
export const boreName = (number) => `Bore ${number}`;
/** @param {number} number */
export const placeName = (number) => `Place ${number}`;
export const FROM_LINE = 'below the line';
export const INSIDE = 'inside diameter';
/** @param {string} bore */
export const acrossName = (bore) => `${bore}, across`;
export const QUARTER_TURN = 'a quarter turn on';
export const IS_OVAL = 'It is oval';
export const IS_ROUND = 'It is round';
/** @param {string} bore */
export const boreIsOval = (bore) => `${bore}: it is oval`;
/** @param {string} bore */
export const boreIsRound = (bore) => `${bore}: it is round`;
export const REMOVE = 'Remove';
/** @param {string} bore */
export const removeBore = (bore) => `Remove ${bore}`;

// How well it is measured. By the shop's key: what is off, and where it counts.
/** @type {['ruler_mm' | 'bit_mm' | 'bore_mm' | 'wall_mm' | 'sound_hole_mm', string, string][]} */
export const LENGTHS = [
  ['bore_mm', 'Bore', 'all along'],
  ['wall_mm', 'Wall', 'all along'],
  ['ruler_mm', 'Ruler', 'each hole and the foot'],
  ['bit_mm', 'Bit', 'each hole’s size'],
  ['sound_hole_mm', 'Sound hole', 'length and width'],
];
export const TEMPERATURE = 'Temperature';
export const HOW_WELL = 'How well it is measured';
export const OFF_BY = 'How far off your measuring, marking and drilling may be, two times of three. '
  + 'The bands of the notes follow from it.';
export const TO_USUAL = 'Back to the usual';
/** @param {string} note @param {string} figure */
export const usually = (note, figure) => `${note === '' ? '' : `${note}; `}usually ${figure}`;
/** @param {string} label */
export const howFarOff = (label) => `${label}, how far off`;

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

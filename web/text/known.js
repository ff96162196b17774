// web/text/known.js: how the page knows what it says, with figures, and what it does not know.
//
// The figures are those of README.md ("How good the numbers are"); tools/accuracy prints them.

/** @type {[string, string][]} */
export const KNOWN = [
  ['What is reckoned', 'The whole tube at once: sound hole, bore with friction and warmth, every '
    + 'finger hole open and covered, the foot, and the air outside, through which all openings hear '
    + 'each other. Nothing is looked up and nothing comes from another flute’s pattern.'],
  ['Sound hole', 'Tubes with a sound hole alone, against three-dimensional finite elements: 108 '
    + 'cases, half of them within 0.05 cents, the worst 0.4. Two constants were fitted, on top of what '
    + 'theory gives.'],
  ['Ramp, block and side walls', 'Tubes with a voice as it is cut, against the same: 45 cases, half of them within '
    + '0.9 cents, 95 of 100 within 3.9. None of them was fitted to; the flow through 501 other shapes was.'],
  ['Finger holes', 'The intervals between fingerings of one flute, against finite elements: half of '
    + 'them within 0.1 cents, the worst 0.4 (0.9 for large holes in thin walls). Nothing was fitted.'],
  ['Air', 'The speed of sound in moist air, its density and its viscosity: every digit that the '
    + 'standard for microphones (IEC 61094-2) prints.'],
  ['Friction in the bore', 'Against a reference library’s functions: the same to twelve figures.'],
];

const VOICE = ['voice', 'breath', 'breath_share'];

/** What is not known, with what it comes to on this flute. @param {Spread | null} sure */
export function unknown(sure) {
  const here = (sure?.notes ?? []).flatMap(({ parts }) => (parts === undefined ? []
    : [Math.hypot(...VOICE.map((part) => parts[part] ?? 0))]));
  const least = Math.round(Math.min(...here));
  const most = Math.round(Math.max(...here));
  const reckoned = here.length === 0 ? '' : ` On the safe side, the bands reckon with ± ${
    least === most ? most : `${least} to ± ${most}`} cents for it on this flute.`;
  return 'What it does not know is your voice, as far as nobody has described it: the side walls alone can be ten '
    + 'cents and more. And what jet, edges and your face add no reckoning tells.'
    + `${reckoned} So saw the foot long, make the voice, blow the tube without holes, and only then drill. We found no `
    + 'published small duct flute with its full measures and its measured notes: the figures above '
    + 'are against other reckonings and laws of physics, not against a flute.';
}

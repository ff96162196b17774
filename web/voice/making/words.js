// web/voice/making/words.js: making a voice, and one that does not sound right.

/// <reference path="../types.d.ts" />
import { adviceWords } from '../words.js';

// Making a voice, and one that does not sound right. All of it common practice, no source; in what order, the
// core says.

// Making a voice.
export const MAKING = 'Making a voice';
export const MAKING_LEAD = 'In this order each cut can still be followed by another. Wood comes off; it does '
  + 'not come on.';
export const KNIFE = ['Cut away from both hands, the tube held in a clamp or on a bench hook. A sharp knife '
  + 'needs little force.',
  'Dust mask, and eyes covered, for sanding. Children only with an adult.'];
/** @type {{title: string, words: string, test?: string}[]} */
export const STEPS = [
  { title: 'Plug.', words: 'Set it, its face at the line where the sound hole will begin, and seal it all '
    + 'round.',
    test: 'Blow into the chamber with the air hole’s place still closed: no air may come out at the foot.' },
  { title: 'Flat.', words: 'File the tube flat from behind the air hole to beyond the sound hole. Leave wall '
    + 'enough for the track and for the edge.', test: 'The block must lie on it without rocking; no light '
    + 'between.' },
  { title: 'Air hole.', words: 'Drill it above the plug, as wide as the track at most. Slope its lower rim '
    + 'into the track.' },
  { title: 'Sound hole, small.', words: 'Its upstream edge square across, at the line. Cut it a millimetre '
    + 'short and half a millimetre narrow: it is opened later towards the foot and to the sides, never towards '
    + 'the mouth.' },
  { title: 'Track.', words: 'From air hole to sound hole, flat, as wide as the sound hole. Begin at half the '
    + 'depth. The knife or file goes along it, from the middle towards each end, so that neither rim breaks '
    + 'out.',
  test: 'Tie the block on and blow softly: an even stream on a wet finger held over the sound hole.' },
  { title: 'Ramp and splitting edge.', words: 'From outside, with the knife or a fine file from the foot '
    + 'towards the hole, long and flat. Leave the edge as thick as a thick sheet of paper, square across, in '
    + 'line with the track.',
  test: 'Tie the block on, cover nothing, blow: it should whisper a tone. Then take off a few strokes at a '
    + 'time, blowing after each.' },
  { title: 'Depth.', words: 'Deepen the track a few strokes at a time until the lowest note speaks with the '
    + 'breath you like. Stop before it gets loud: it gains by drying and sealing.', test: 'Lowest note soft, '
    + 'then harder until it jumps up.' },
  { title: 'Seal, dry, tie.', words: 'Seal the bore and the track thinly, let it dry, tie the block as it will '
    + 'stay.',
    test: 'Only now take the pitch: Bench leads on from here.' },
];

// What is written into the drawings of the steps.
/** @type {Record<string, string>} */
export const DRAWN = {
  mouth: '← mouth end', foot: 'foot →', above: 'from above', end: 'from the foot', test: 'then test',
  knife: 'knife', file: 'file', drill: 'drill',
  chamber: 'chamber', plug: 'plug', line: 'the line', blow: 'blow', 'no air': 'no air here',
  flat: 'flat', 'wall left': 'wall that is left', block: 'block', 'no light': 'no light between',
  'air hole': 'air hole', slope: 'slope', 'track’s width': 'no wider than the track',
  'sound hole': 'sound hole', square: 'square, at the line', later: 'this much later',
  half: 'half the depth', track: 'track', 'wet finger': 'wet finger',
  'splitting edge': 'splitting edge', ramp: 'ramp', whisper: 'a whispered tone',
  deeper: 'deeper', lowest: 'lowest note, soft', bore: 'seal the bore', 'sealed track': 'seal the track',
  cord: 'cord', 'tied block': 'block',
};
/** What each drawing shows, for those who do not see it; in the order of the steps. */
export const DRAWN_STEPS = ['Section along the tube, mouth end at the left: the plug is pushed in from the mouth '
  + 'end until its face stands at the line where the sound hole will begin. Nothing is cut. Blown from the '
  + 'mouth end, no air comes out beyond the plug.',
'Section: a file along the tube takes a flat off the outside, from behind the air hole’s place to beyond '
  + 'the sound hole’s. Most of the wall is left. From the foot: the block must lie on the flat, no light between.',
'Section: a drill goes straight down through the wall above the plug; the rim towards the foot is sloped. '
  + 'From above: a round hole, no wider than the track to come.',
'Section: the knife goes straight down through the wall at the line. From above: a hole square at the line, '
  + 'smaller towards the foot and at the sides than the dashed outline of its full size.',
'Section: the knife takes a thin layer off the flat between air hole and sound hole, half the track’s depth. '
  + 'From above: from the middle towards each end. Test: with the block on, breath goes through the track and '
  + 'out over the sound hole, where a wet finger feels it.',
'Section: the knife comes from the foot’s side, lying almost flat, and takes a long wedge off the outside; at '
  + 'the sound hole a thin splitting edge is left, in line with the track. Test: with the block on, breath '
  + 'meets the edge and whispers a tone.',
'Section: the knife takes a second thin layer off the track’s floor. Test: with the block on, the lowest note, '
  + 'blown softly.',
'Section: nothing is cut. Bore and track are sealed, and a cord ties the block to the tube.'];

// It does not sound right.
export const FAULTS = 'It does not sound right';
export const FAULTS_LEAD = 'Choose what you hear. What costs nothing to try comes first; knife and file last.';
export const NO_FAULTS = 'What to look at is said here once the voice can be reckoned.';
export const FAULTS_CARE = ['Tie the block firmly before you judge anything: most faults are a leak or a block '
  + 'that has moved.',
  'One change at a time, and blow after each. Knife away from the hands; no dust into the lungs.'];
export const TEST_SO = 'Try';
export const DO_SO = 'Then';
export const NOT_YET = 'Not yet';
/** @type {Record<string, string>} */
export const SYMPTOMS = {
  hisses_only: 'It only hisses',
  airy: 'It sounds, with much breath in it',
  squeals: 'It squeals',
  lowest_weak: 'The lowest note is weak, or will not come',
  only_top: 'Only the upper register comes',
  wobbles: 'A note wobbles or warbles',
  good_until_tied: 'It was good until the block was tied',
  chokes_wet: 'After a while it chokes',
  one_hole_weak: 'One note is weak or dull',
};

const KEEP_HOLE = 'Do not open the sound hole yet: it cannot be closed again.';
const KEEP_TRACK = 'No deepening yet: a deeper track is for good.';
const KEEP_EDGE = 'Leave the edge as it is until the block has been tried in three places.';

/** By the core's name: what it is, how to find out, what to do, what not to cut yet.
 * @type {Record<string, [what: string, test: string, act: string, not?: string]>} */
export const CAUSES = {
  block_over_opening: ['The block reaches over the sound hole', 'Look from above: its front must end at the '
    + 'upstream edge.',
    'Slide it back a hair at a time, blowing each time.', KEEP_EDGE],
  block_too_far_back: ['The block stands too far back', 'Slide it forward until it is flush, and blow.',
    'Tie it where it speaks best.', KEEP_EDGE],
  block_not_sealing: ['Air escapes under the block', 'Press it down with a thumb while blowing: does it clear? '
    + 'A wet finger along its sides feels the leak.', 'Tie it tighter, or rub its seat flat on fine paper laid '
    + 'on glass.', KEEP_TRACK],
  track_dirty_or_wet: ['Dust, fibres or water in the track', 'Take the block off and look along the track '
    + 'against the light.',
    'Blow it out, wipe it dry with a strip of paper.', KEEP_TRACK],
  holes_not_covered: ['A finger hole is not quite covered', 'Tape all of them and blow again.',
    'If the tape mends it, it was a finger; lay them flatter.'],
  track_shallow_shim_block: ['The track may be too low', 'Lay a shim of one sheet of paper under each side of '
    + 'the block.',
    'If it speaks better, keep the shim, or deepen the track by as much, later.', KEEP_TRACK],
  track_high_lower_block: ['The air passes too thick, over the edge', 'Take away any shim; press the block '
    + 'down hard and blow.',
    'Let the block’s seat down, or lay a strip of thin card on the track’s floor.', KEEP_HOLE],
  plug_leaks: ['The plug leaks', 'Close the air hole and the foot with fingers and suck at the mouth end: it '
    + 'must hold.',
    'Run wax or glue round the plug’s rim.', KEEP_EDGE],
  bore_leaks: ['The tube leaks: a crack, a node, a pin hole', 'Close all holes and the foot, suck at the sound '
    + 'hole through a hose: it must hold.', 'Thin glue or wax into the crack; bind it.', KEEP_HOLE],
  edge_thick: ['The splitting edge is thick', 'Feel it with a nail; look at it against a sheet of paper.',
    'From outside, long flat strokes towards the foot’s side; blow after every few.', 'Only from outside: the '
      + 'inner side is the bore’s.'],
  sound_hole_short: ['The sound hole is short for this track', 'First all above. Then compare its length with '
    + 'the track’s depth.',
    'Open it towards the foot, two tenths of a millimetre at a time; the pitch rises.', 'Never towards the '
      + 'mouth: the line stays where it is.'],
  track_shallow: ['The track is too shallow', 'Only if the shim under the block helped.',
    'Deepen it evenly, a few strokes at a time, by no more than the shim was.'],
  sound_hole_wider_than_track: ['The sound hole is wider than the track', 'Look along the track: its sides '
    + 'should meet the hole’s.', 'Narrow the hole with a sliver of wood, or wax, at each side.', 'Widening the '
    + 'track is the last thing to do.'],
  track_rough: ['The track is rough', 'Look along it against the light.', 'Rub it smooth with fine paper on a '
    + 'flat stick, along its length, then seal it thinly.', 'As little as smooths it: each stroke deepens.'],
  blown_too_hard: ['Blown too hard for this note', 'Begin as softly as a breath on a pane, then slowly more.',
    'Learn where it jumps; the table above says about where.', KEEP_HOLE],
  edge_rough: ['The edge has a burr or a fibre', 'Look along the edge with a lens.', 'One light stroke with '
    + 'the finest file, outside; pick fibres out.', 'No new bevel: only the burr.'],
  foot_covered: ['Something stands before the foot', 'Hold the flute free of leg and table.', 'A hand’s '
    + 'breadth of free air.'],
  tube_long_for_bore: ['The tube is long for its bore', 'It speaks well with the upper holes open, not with '
    + 'all covered.',
    'A higher key: saw the foot shorter, as Marks says for that key.', 'Not before every leak is found: a sawn '
      + 'foot is for good.'],
  bore_not_cleared: ['Something is left in the bore: a node, dust, a splinter', 'Look through from the foot '
    + 'against a lamp; pass a dowel with a cloth.', 'Clear the node flat with the bore’s wall.', 'Not near the '
    + 'splitting edge.'],
  breath_unsteady: ['The breath is unsteady or runs out', 'Blow through a short hose, or let another person '
    + 'blow.',
    'Less air, for longer; see how long a breath lasts at the top.'],
  block_loose: ['The block is loose', 'Press it with a finger while the note sounds.', 'Tie it anew, with the '
    + 'cord crossed.'],
  octave_far_off: ['The octave is far off: two registers pull at the note', 'Blow softer: it steadies.',
    'See the table above; a longer or wider sound hole is no cure.', KEEP_HOLE],
  block_askew: ['The block stands askew', 'Its front must be square to the tube and its middle over the '
    + 'track’s.',
    'Turn it until the tone is clearest, mark the place, tie it there.'],
  edge_uneven: ['The edge is not even across', 'Hold a straight edge across the sound hole at the edge.',
    'Level the high side from outside.', KEEP_HOLE],
  tie_pulls_block_over: ['The cord pulls the block over the hole', 'Mark the block’s place in pencil before '
    + 'tying.',
    'Tie from the foot side first, so that the cord pulls it back.', KEEP_EDGE],
  tie_pulls_block_back: ['The cord pulls the block back', 'Mark the block’s place in pencil before tying.',
    'Tie from the mouth side first; a notch for the cord in the block’s middle.', KEEP_EDGE],
  tie_closes_the_gap: ['The cord presses the gap shut', 'Tie it looser by one turn and blow.', 'Shim the block '
    + 'with as much as it needs, so that the cord cannot press it lower.', KEEP_TRACK],
  tie_too_tight: ['The cord bends tube or block', 'Loosen it until the tone comes back.', 'A broader binding: '
    + 'leather or tape under the cord.'],
  block_not_flat: ['The block’s underside is not flat', 'Rub it on a sheet with pencil lead: what turns grey '
    + 'stands high.',
    'Rub it on fine paper laid on glass.', 'Never hollow it over the track.'],
  seat_not_flat: ['The flat on the tube is not flat', 'A straight edge along and across; light shows through.',
    'File it along the tube, block and file held flat.', 'It lowers the track’s brim: as little as it takes.'],
  flute_cold: ['The flute is cold, and breath turns to water in it', 'Warm it in the sleeve for five minutes '
    + 'and try again.',
    'Warm it before playing.'],
  water_in_track: ['Water stands in the track', 'Cover the sound hole lightly and blow it clear.', 'Between '
    + 'tunes shake it out, sound hole down.', KEEP_TRACK],
  chamber_small: ['The chamber catches too little water', 'It chokes within a few minutes even when warm.',
    'Hold the flute lower; a longer mouth end for the next one.'],
  track_not_sealed: ['The track’s bare wood swells and holds drops', 'A drop on it soaks in instead of '
    + 'running.',
    'Dry it for a day, seal it thinly, let that dry.', KEEP_TRACK],
  air_hole_edge_rough: ['The air hole’s rim catches drops', 'Look at the rim towards the track.', 'Smooth its '
    + 'slope into the track.', 'The air hole itself stays as wide.'],
  finger_leaks_above: ['A finger above it leaks', 'Tape every hole above it and blow.', 'Lay the fingers '
    + 'flatter; a hollow rubbed round a hole helps a small finger.'],
  second_register_missing: ['This note has no second register', 'It will not jump up, however hard it is '
    + 'blown.',
    'Nothing is wrong with it: play its octave with another fingering.'],
  wall_leaks_at_hole: ['The wall is cracked at a hole', 'A wet finger along the grain from the hole.',
    'Thin glue, and bind it.', 'Do not open the hole before that.'],
  hole_small: ['Its hole is small', 'Bench says what the hole is and should be.', 'Open it only as far as '
    + 'Bench says: undercutting brightens a note with less change.', 'Not before the fingers are sure.'],
  hole_edge_rough: ['The hole’s rim is rough inside', 'Feel it from inside with a bent wire.', 'Clear char and '
    + 'burr, one turn of rolled paper.', 'A turn or two: it sharpens the note.'],
};

/** Which number of the flute a cause hangs on. @type {Record<string, string>} */
const GAUGES = { block_over_opening: 'block_over', tie_pulls_block_over: 'block_over',
  block_too_far_back: 'block_back',
  tie_pulls_block_back: 'block_back', block_not_sealing: 'gap_high', block_loose: 'gap_high',
    tie_closes_the_gap: 'gap_high',
  track_high_lower_block: 'ratio_low', sound_hole_short: 'ratio_low', edge_rough: 'edge_thick',
    edge_uneven: 'edge_thick',
  blown_too_hard: 'jump_near', tube_long_for_bore: 'tube_long', breath_unsteady: 'needs_much_air',
    octave_far_off: 'octave_off',
  water_in_track: 'track_shallow', chamber_small: 'above_short', second_register_missing: 'no_overblow' };
/** @param {string} symptom @param {string} code */
const gaugeOf = (symptom, code) => GAUGES[code] ?? (/^track_shallow/.test(code)
  ? (symptom === 'chokes_wet' ? 'track_shallow' : 'ratio_high') : code);

/** What the flute's own number says of a cause. @param {string} symptom @param {FaultCause} cause @param {State} s
 * @param {Engine} engine */
export function numberWords(symptom, { code, number }, s, engine) {
  if (!number || number.value === null) return '';
  const one = { ...number, code: gaugeOf(symptom, code) };
  return number.out ? adviceWords(one, s, engine) : WITHIN;
}
const WITHIN = 'By this flute’s figures not likely.';

// web/voice/words.js: what the room Voice says of the voice, its parts and its breath, of making one, of faults, and
// of hearing it.

/// <reference path="./types.d.ts" />
import { INCH_MM, unitOf } from '../state/desk.js';
import { centsWords, lengthWords, noteName } from '../text/numbers.js';
import { groupName, listed, lower, partName, ruleOf, sizeWords } from '../text/parts.js';
import { sentence } from '../text/violations.js';

export * from '../text/parts.js';

// How it stands. How pressures feel: common practice, no source.
export const TAKE_CARE = 'Take care. ';
/** @type {[number, string][]} */
const FEELS = [[60, 'hardly more than breathing out'], [150, 'a soft breath, as to mist a pane'],
  [350, 'an easy breath, as to cool soup'], [800, 'a firm breath, as to bend a candle’s flame'],
  [Infinity, 'a hard breath, as to blow a candle out']];
/** @param {number} pa */
const feel = (pa) => FEELS.find(([limit]) => pa < limit)?.[1] ?? '';
/** A pressure as it is known: two figures. @param {number} pa */
export const pascals = (pa) => String(pa < 100 ? Math.round(pa) : Number(pa.toPrecision(2)));
/** @param {number} mm of water, as the core has it */
export const waterMm = (mm) => `${mm < 9.95 ? Math.round(mm * 10) / 10 : Math.round(mm)} mm`;
/** @param {number} value */
const two = (value) => String(Number(value.toPrecision(2)));
/** @param {{pa: number, water: number}} one */
const pressure = ({ pa, water }) => `${pascals(pa)} Pa (${waterMm(water)} of water)`;

/** @param {number | null | undefined} pa @param {number | null | undefined} water [mm] */
const pressureOf = (pa, water) => (typeof pa === 'number' && typeof water === 'number' ? [{ pa, water }] : []);

/** What is answered of the track: as it is, or with what is proposed. @param {VoiceAnswer} now */
export const jetOf = (now) => now.voice ?? now.with_proposed ?? null;

/** @param {VoiceAnswer} now */
export function breathWanted(now) {
  const jet = jetOf(now);
  if (jet === null) return voiceMissing(now.missing ?? []);
  if (jet.band === 'out') return whyOut(jet);
  const wanted = now.notes.filter((note) => note.register === 1)
    .flatMap(({ pa, water_mm: water }) => pressureOf(pa?.at_pitch, water?.at_pitch));
  const [lowest] = [...pressureOf(jet.pa, jet.water_mm), ...wanted].sort((a, b) => a.pa - b.pa);
  if (lowest === undefined) return voiceMissing(now.missing ?? []);
  const most = wanted.reduce((a, b) => (b.pa > a.pa ? b : a), lowest);
  const far = most.pa > lowest.pa * 1.3 ? `, ${pressure(most)} at its highest` : '';
  const air = jet.flow_ml_s === null || jet.seconds === null ? ''
    : ` It takes about ${two(jet.flow_ml_s)} ml a second; a breath lasts ${two(jet.seconds)} seconds.`;
  return `${now.voice === null ? 'With the sizes proposed below this voice would want' : 'This voice wants'} ${
    feel(lowest.pa)}: ${pressure(lowest)} at the lowest note${far}.${air}`;
}

/** @param {string[]} missing */
export function voiceMissing(missing) {
  const names = missing.map((path) => lower(partName(path)));
  return names.length === 0 ? 'What breath this voice wants cannot be said yet.'
    : `To say what breath this voice wants, the page needs: ${names.join(', ')}.`;
}

/** @type {Record<string, (value: string, limit: string) => string>} */
const OUT = {
  reynolds: (value, limit) => `The jet of so low a track is mostly friction (${value}, where such reckoning `
    + `begins at `
    + `${limit}): a hundredth of a millimetre changes its breath by a tenth and more`,
  short_window: (value, limit) => `The sound hole is only ${value} times as long as the track is deep; such `
    + `reckoning `
    + `begins at ${limit}`,
  long_window: (value, limit) => `The sound hole is ${value} times as long as the track is deep; such `
    + `reckoning ends at `
    + `${limit}`,
  fast_jet: (value, limit) => `The air would have to leave the track at ${value} m/s; such reckoning ends `
    + `at ${limit}`,
};
/** @param {Jet} jet whose band is out */
export function whyOut({ why, flow_range_ml_s: range = [], flow_range_pa: blown = [] }) {
  const reason = OUT[why?.code ?? ''];
  const first = reason === undefined ? 'This voice is unlike those that such reckoning was checked with'
    : reason(two(why?.value ?? 0), two(why?.limit ?? 0));
  const [least, most] = range;
  const flow = typeof least === 'number' && typeof most === 'number'
    ? ` Between a soft breath and a hard one (${blown.join(' to ')} Pa) ${two(least)} to ${two(most)} ml a second pass `
      + `the track.` : '';
  return `${first}. So no breath is foretold for its notes; their pitches hold.${flow}`;
}

/** Of the opening's own size the shop's errors tell. */
const SHAPE = /^(block|sound_hole\.(ramp|edge))/;

/** Where its pitch comes from. @param {VoiceAnswer['as_cut']} cut */
export function shapeWords({ lowest_cents: cents, sigma_cents: sigma, sigma_why: why, parts }) {
  if (cents === null) return '';
  const off = Math.abs(cents) < 0.5 ? 'as high as over a bare opening'
    : `about ${centsWords(cents)} ${cents < 0 ? 'flatter' : 'sharper'} than over a bare opening`;
  const said = `As it is cut, the lowest note sounds ${off}`;
  if (sigma === null) return `${said}.${why === 'heard' ? ' It has been heard: the Bench says how far each note is known.' : ''}`;
  /** @param {CutPart['known']} known */
  const names = (known) => [...new Set(parts.filter((part) => part.known === known && part.mm !== null && SHAPE.test(part.path))
    .map((part) => lower(groupName(part.path))))];
  const taken = names('taken');
  const seen = names('seen');
  const left = `± ${centsWords(sigma)}`;
  if (taken.length > 0) return `${said}; not knowing ${listed(taken)} leaves it ${left}.`;
  if (seen.length > 0) return `${said}; not having measured ${listed(seen)} leaves it ${left}.`;
  return `${said}. All of it is measured; ${left} is left, which only a blow can tell.`;
}

/** @param {VoiceState} v @param {State} s @param {Engine} engine */
export function troubleWords({ problems, fault, now }, s, engine) {
  const kept = now === null ? '' : ' What stands here is of the entries before.';
  if (problems.length > 0) return problems.map((one) => `${partName(one.path)}: ${sentence(one, s, engine)}`).join(' ') + kept;
  return fault === '' ? '' : `The voice could not be reckoned (${fault}). Your entries are kept.${kept}`;
}

// A sound hole to begin with.
export const BEGIN = 'A sound hole to begin with';
export const BEGIN_LEAD = 'For this tube and its lowest note, before anything is cut: lengths from a fifth to not quite half '
  + 'of the bore were tried, and the one that wants the breath named here is proposed.';
export const BEGIN_MORE = 'Cut it a little short and narrow at first: longer makes the note sharper and the breath firmer, '
  + 'and cannot be taken back. Taking these moves the marks of the flute; nothing else is changed.';
export const TAKE_THESE = 'Take these';
export const WORKING = 'One moment …';
/** @param {OpeningChoice} choice */
export const beginName = ({ breath, wanted_pa: pa }) => (breath === 'soft' ? `For a gentle breath, a child’s (${pascals(pa)} Pa)`
  : `For a usual breath (${pascals(pa)} Pa)`);
/** @param {OpeningChoice} choice @param {State} s @param {Engine} engine */
export function beginWords(choice, s, engine) {
  const { sound_hole: hole, track, pa, water_mm: water, flow_ml_s: flow, jump_over_pitch: jump, limit, tube_reaches: reaches } = choice;
  /** @param {string} path @param {number} mm */
  const size = (path, mm) => sizeWords(path, mm, s, engine);
  const cut = `${size('sound_hole.length_mm', hole.length_mm)} along the tube, ${size('sound_hole.width_mm', hole.width_mm)} across`
    + `${typeof hole.ramp_mm === 'number' ? `, a ramp of ${size('sound_hole.ramp_mm', hole.ramp_mm)}` : ''}`
    + `${typeof track.depth_mm === 'number' ? `; the track ${size('track.depth_mm', track.depth_mm)} deep and as wide` : ''}.`;
  const short = reaches ? '' : ' The tube is too short for this lowest note: these are for its own.';
  const at = pa?.at_pitch;
  if (typeof at !== 'number') return `${cut} A breath for it cannot be foretold; it is of middle length.${short}`;
  const breath = ` It wants ${pressureOf(at, water).map(pressure)[0] ?? `${pascals(at)} Pa`}: ${feel(at)}`
    + `${typeof flow === 'number' ? `; ${two(flow)} ml of air a second` : ''}.`;
  const room = typeof jump === 'number' ? ` It jumps up at ${two(jump)} times that.` : '';
  const why = limit === 'shortest' ? ' Softer than that only a shorter one would be, and such weak voices are not proposed.'
    : limit === 'longest' ? ' Firmer than that only a longer one would be, and such wide ones are not proposed.' : '';
  return cut + breath + room + why + short;
}
/** @param {OpeningChoice} choice */
export const beginTaken = ({ breath }) => `Taken, for ${breath === 'soft' ? 'a gentle' : 'a usual'} breath.`;
/** @param {string[]} paths */
export const beginNeeds = (paths) => (paths.includes('song.lowest')
  ? 'Choose a lowest note on Song first: what the tube gives by itself asks for no breath of its own.'
  : 'The tube and the lowest note are needed first.');

// The breath of each note.
export const BREATH = 'The breath of each note';
export const BREATH_OF_NOTES = 'For each note how soft and how hard it may be blown, and the octave above it';
export const NOTE = 'Note';
export const PA = 'Pa, water';
export const SOFT = 'soft';
export const AT_PITCH = 'at pitch';
export const HARD = 'hard';
export const OCTAVE = 'octave';
export const JUMP_SIGN = '↑';
export const JUMPS = 'jumps up here';
export const HARD_UNKNOWN = '–';
export const TABLE_HELP = '↑: blown harder, it jumps up to the octave. –: no end within what was checked. '
  + 'Octave: cents sharp (+) or flat (−) of a true one, and the breath it is in tune at. The bars show the '
  + 'same, full for the note, in outline for its octave;';
/** What the bars' two ends are. @param {number} least @param {number} most [Pa] */
export const barsRun = (least, most) => `${TABLE_HELP} they run from ${pascals(least)} to ${pascals(most)} Pa, each doubling `
  + 'as long as any other.';
/** @param {number[]} open */
export const openName = (open) => (open.length === 0 ? 'all covered' : `${open.join(', ')} open`);
/** @param {NoteBreath} note */
export const mapAria = ({ pa, jumps_up_pa: jump }) => (pa === null ? '' : `from ${pa.soft === null ? 'nothing'
  : pascals(pa.soft)} to ${pa.hard === null ? 'no end found' : pascals(pa.hard)} pascals${
  typeof jump === 'number' ? `, jumps up at ${pascals(jump)}` : ''}`);
/** @type {Record<string, string>} */
const NOTE_WHY = { no_resonance: 'has no resonance that would sound', hole_not_cut: 'its hole is not cut yet',
  not_converged: 'could not be found', no_gain: 'loses more than the jet gives: it will hardly speak',
  never_holds: 'another register takes over at every breath' };
/** @param {Measure | null | undefined} why */
export const noteWhy = (why) => NOTE_WHY[why?.code ?? ''] ?? 'no breath can be said';
/** Why there is no map, or null. @param {VoiceAnswer} now */
export function noMap(now) {
  const jet = jetOf(now);
  return jet === null ? voiceMissing(now.missing ?? []) : jet.band === 'out' ? whyOut(jet) : null;
}
/** @param {VoiceAnswer} now */
export function calibrationWords(now) {
  const { calibrated, notes } = now;
  const rough = jetOf(now)?.band === 'rough' ? ' This voice is at the rim of what such reckoning was checked '
    + 'with: take the figures for their order.' : '';
  if (calibrated) {
    return `By the pressure you measured (entry ${calibrated.from_entry + 1} of the log): each figure ${
      factorWords(calibrated.band_factor)}.${rough}`;
  }
  const factor = Math.max(...notes.map((note) => (note.register === 1 ? note.pa_factor ?? 0 : 0)));
  return `${now.voice === null ? 'With the sizes proposed. ' : ''}Not calibrated: each pressure may be ${
    factorWords(factor)}, all the same way. A hose of water at the mouth end, read where a note jumps up, would set `
    + `them right.${rough}`;
}
/** Either way. @param {number} factor */
const factorWords = (factor) => (factor < 1.95 ? `${Math.round((factor - 1) * 100)} % off`
  : `up to ${two(factor)} times as high or as low`);

// Each part: its name, how it is measured, what it is worth.

// As it is cut.
export const AS_CUT = 'As it is cut';
export const AS_CUT_LEAD = 'What you see is enough to begin with; what you measure narrows the bands of all '
  + 'notes.';
export const NOT_SAID = 'not said';
export const NONE = 'none';
export const MEASURED = 'measured';
export const RAMP = 'Ramp';
export const RAMP_SHORT = 'short';
export const RAMP_LONG = 'long';
export const BLOCK = 'Block';
export const THERE = 'there';
export const SIDE_WALLS = 'Side walls';
export const WALLS_LOW = 'low';
export const WALLS_HIGH = 'high';
/** The step that the maker's ruler has. @param {State} s @returns {[string, number]} words, and mm */
export const ruled = (s) => (unitOf(s) === 'inch' ? ['1/32 in', INCH_MM / 32] : ['1 mm', 1]);
/** @param {number} cents */
const change = (cents) => (Math.abs(cents) < 0.05 ? 'nothing'
  : `${centsWords(cents)} ${cents < 0 ? 'flatter' : 'sharper'}`);

/** What is taken for what is not measured, why so, and what more of it does. @param {CutPart} part
 * @param {Proposal | undefined} one what a maker might begin with @param {State} s @param {Engine} engine */
export function partWorth({ path, mm, known, cents_per_mm: slope }, one, s, engine) {
  const [step, size] = ruled(s);
  const none = path === 'block.front_mm' ? 'flush' : 'none';
  const why = one === undefined || mm === null ? ''
    : one.mm.toFixed(2) === mm.toFixed(2) ? `: ${ruleOf(one)}` : `; begin `
      + `with ${sizeWords(path, one.mm, s, engine)}: ${ruleOf(one)}`;
  const as = known === 'measured' || mm === null || (mm === 0 && known === 'seen') ? ''
    : `Reckoned as ${mm === 0 ? none : sizeWords(path, mm, s, engine)}${why}.`;
  return `${as}${slope === null ? '' : ` ${step} more: ${change(slope * size)}.`}`.trim();
}
/** @param {CutPart} front the block's @param {State} s */
export function slideWords({ back_1_mm_cents: back, over_1_mm_cents: over }, s) {
  const [step, size] = ruled(s);
  const words = [[back, 'back'], [over, 'over the hole']].flatMap(([cents,
    way]) => (typeof cents !== 'number' ? []
    : [`${step} ${way} is ${change(cents * size)}`]));
  return words.length === 0 ? '' : `Sliding the block tunes, and can be undone: ${words.join(', ')}.`;
}

// What a little more of each size does.
/** @param {string} path */
export const worthName = (path) => (path === 'block.front_mm' ? 'Front of the block, further back' : partName(path));
/** @param {string} step */
export const WORTH = (step) => `What ${step} more does`;
export const FLATTER = '← flatter';
export const SHARPER = 'sharper →';
/** @param {number} cents */
export const worthCents = (cents) => (Math.abs(cents) < 0.05 ? '0' : `${cents < 0 ? '−' : '+'}${Math.abs(cents).toFixed(1)} ¢`);
/** @param {{path: string, cents: number}[]} parts the largest first @param {string} step */
export function worthWords(parts, step) {
  const [most] = parts;
  const little = parts.filter(({ cents }) => Math.abs(cents) < 1);
  const which = little.map(({ path }) => lower(worthName(path))).join('; ');
  return `The ${lower(worthName(most.path))} counts most: with ${step} more the lowest note is ${change(most.cents)}.${
    little.length === 0 ? '' : ` Less than a cent: ${which}.`}`;
}

// Above the sound hole.
export const ABOVE = 'Above the sound hole';
export const ABOVE_LEAD = 'A size for each part that you have not made yet. They decide the breath, hardly the '
  + 'pitch.';
export const TAKE_IT = 'Take it';
export const TAKE_ALL = 'Take all';
/** @param {number} count */
export const taken = (count) => (count === 1 ? 'One size taken. ' : `${count} sizes taken. `) + 'Each can be '
  + 'changed below.';
/** @param {string} name */
export const takeName = (name) => `Take it: ${lower(name)}`;
// The section.
export const CUT_OPEN = 'Cut open along the tube';
/** @param {string[]} known @param {string[]} guessed */
export const drawnWords = (known, guessed) => `Section along the tube, mouth at the top. `
  + `Entered: ${known.join(', ')}.${
  guessed.length === 0 ? '' : ` Not entered, dashed: ${guessed.join(', ')}.`}`;

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

/** What is out of its range. Lengths are said in the maker's unit; the other numbers have none.
 * @param {Measure} one @param {State} s @param {Engine} engine */
export function adviceWords({ code = '', path = '', value, limit }, s, engine) {
  const length = LENGTHS.includes(code);
  /** @param {number | null} number */
  const figure = (number) => (number === null ? '' : length ? sizeWords(path, number, s, engine)
    : String(Number(number.toPrecision(2))));
  return Object.hasOwn(ADVICE, code) ? ADVICE[code](figure(value), figure(limit)) : '';
}
const LENGTHS = ['sound_hole_wider_than_track', 'gap_high', 'track_shallow', 'block_over', 'block_back',
  'hole_small',
  'tube_long', 'edge_thick', 'above_short'];
/** @type {Record<string, (value: string, limit: string) => string>} */
export const ADVICE = {
  ratio_low: (value, limit) => `The sound hole is ${value} times as long as the track is deep, under ${limit}: `
    + `shrill and `
    + 'hard to blow. A shallower track, or a longer sound hole.',
  ratio_high: (value, limit) => `The sound hole is ${value} times as long as the track is deep, over ${limit}: `
    + `slow to speak. `
    + 'Deepen the track, a little at a time.',
  jet_fast: (value, limit) => `The air leaves the track at ${value} m/s, over ${limit}: it will hiss.`,
  reynolds_low: (value, limit) => `In so low a track the air mostly rubs (${value}, under ${limit}): every `
    + `hundredth of a `
    + 'millimetre tells.',
  jump_near: (value, limit) => `A note jumps up at ${value} times the breath it wants, under ${limit}: easily `
    + `overblown.`,
  no_overblow: (value) => `Without a second register to jump up to: ${value} of the notes.`,
  needs_much_air: (value, limit) => `A breath lasts ${value} seconds, under ${limit}: too short for a phrase. `
    + `A shallower or `
    + 'narrower track takes less.',
  sound_hole_wider_than_track: (value, limit) => `The sound hole is ${value} wide, the track ${limit}: what is `
    + `wider gets no `
    + 'air.',
  gap_high: (value, limit) => `The block stands ${value} above the track, over ${limit}: air passes over the `
    + `edge.`,
  block_over: (value) => `The block’s front reaches over the sound hole (${value}): flatter, and it may choke `
    + `the tone.`,
  block_back: (value, limit) => `The block’s front stands back ${value}, over ${limit}: the air spreads before `
    + `it is free.`,
  octave_off: (value, limit) => `An octave comes ${value} cents off, over ${limit}: blown up, the tune will `
    + `not be in tune.`,
  track_shallow: (value, limit) => `The track is only ${value} deep, under ${limit}: a drop of water stops it.`,
  hole_small: (value, limit) => `A finger hole is only ${value} wide, under ${limit}: its note will be faint.`,
  tube_long: (value, limit) => `The tube sounds over ${value}, more than 25 bores (${limit}): the lowest notes `
    + `are easily overblown.`,
  edge_thick: (value, limit) => `The splitting edge stands ${value} above the bore, over ${limit}: breathy and `
    + `dull.`,
  above_short: (value, limit) => `Above the sound hole there are ${value}, under ${limit}: too little for plug `
    + `and chamber.`,
};

// A flute that sounds before it is made, and the air in its tube.

export const HEAR = 'Hear it';
export const HEAR_LEAD = 'The same reckoning as the breath above, stepped through time: pitch, jumps and the rush of the '
  + 'breath are its own. How loud it is, and how a tongue begins it, it does not know.';
export const NOTES = 'Notes';
export const OCTAVES = 'Overblown';
export const BREATH_SLIDER = 'Breath';
export const SWELL = 'From soft to hard';
export const SCALE = 'The scale';
export const STOP = 'Stop';
export const TUNE = 'A tune';
export const tuneHint = () => `Names with spaces: ${['G4', 'B♭4', 'C5'].map(noteName).join(' ')}. Without a number, the lowest there is.`;
export const PLAY_TUNE = 'Play';
export const IN_TUNE = 'Put in tune';
export const IN_TUNE_HELP = 'Off: as it is laid out. On: each note as your song wants it, to hear the difference.';
export const DRONE = 'Drone';
export const DRONE_HELP = 'The lowest note in tune, held under the others.';
export const RECKONING = 'Reckoning …';

/** @param {number} breath -1 to 1 */
export const breathWords = (breath) => (breath <= -0.95 ? 'as soft as it holds' : breath < -0.05 ? 'soft'
  : breath <= 0.05 ? 'at pitch' : breath < 0.75 ? 'hard' : 'harder than it holds');

/** @param {{name: string, register: number}} note */
export const chipAria = ({ name, register }) => (register === 1 ? name : `${name}, overblown`);

/** @type {Record<string, string>} */
const SILENT = { no_resonance: 'has no resonance that would sound', hole_not_cut: 'wants a hole that is not there',
  no_gain: 'loses more than the jet gives: it will hardly speak', no_room: 'wants a track, and this tube has no room for one',
  never_holds: 'gives way to another register at every breath', faint_register: 'has no register of its own up there' };
/** @param {Measure | null | undefined} why @param {VoiceAnswer | null} now */
function silentWords(why, now) {
  if (SILENT[why?.code ?? ''] !== undefined) return SILENT[why?.code ?? ''];
  const out = now?.voice ?? now?.with_proposed ?? null;
  return out?.band === 'out' ? `is not foretold. ${whyOut(out)}` : 'cannot be foretold to sound';
}

/** What sounds, or why nothing does. @param {string} name @param {ToneAnswer} tone @param {number} factor
 * @param {VoiceAnswer | null} now */
export function toneWords(name, tone, factor, now) {
  if (tone.samples === null) return `${name} ${silentWords(tone.why, now)}`.replace(/\.?$/, '.');
  const pa = pascals(tone.pa?.[1] ?? 0);
  const heard = tone.heard_hz === null ? null : tone.heard_hz * factor;
  if (heard === null) return `${name} at ${pa} Pa: no clear pitch; two registers are at odds.`;
  const hz = `${heard.toFixed(1)} Hz`;
  if (tone.holds) return `${name} at ${pa} Pa: ${hz}.`;
  const up = tone.hz === null ? 1 : tone.heard_hz === null ? 1 : tone.heard_hz / tone.hz;
  return up > 1.5 ? `${name} at ${pa} Pa has jumped up: ${hz}.`
    : up < 0.7 ? `${name} at ${pa} Pa has fallen back: ${hz}.`
      : `${name} at ${pa} Pa is at odds with another register: ${hz}.`;
}

/** @param {Violation} one of a tune */
export function tuneWords({ code, value }) {
  const word = `“${noteName(String(value ?? ''))}”`;
  if (code === 'missing') return 'Write at least one note.';
  return code === 'unknown_name' ? `${word} is not among this flute’s notes, nor overblown.`
    : `${word} is not a note’s name. Write it with its octave: ${['G4', 'B♭4'].map(noteName).join(', ')} or ${noteName('F♯5')}.`;
}
export const TUNE_KEPT = ' The tune before stays.';

// The air in the tube.
export const AIR = 'The air in the tube';
export const PRESSURE = 'pressure';
export const FLOW = 'flow';
export const SOUND_HOLE = 'sound hole';
export const FOOT = 'foot';
export const WAVE_NONE = 'This fingering has no resonance to draw.';

/** What the picture shows, in a sentence or two. @param {string} name @param {number[]} open
 * @param {WaveAnswer} wave @param {State} s @param {Engine} engine */
export function waveWords(name, open, wave, s, engine) {
  if (wave.hz === null) return WAVE_NONE;
  const peaks = turning(wave.at_mm, wave.pressure);
  const places = peaks.map((mm) => lengthWords(mm, s, engine)).join(' and ');
  const shares = wave.openings.slice(0, -1).map(({ at_mm: at, share }, i) => ({ at, share, foot: i === 0 }))
    .sort((a, b) => b.share - a.share);
  const [most] = shares;
  const way = most.foot ? 'the foot' : `the hole at ${lengthWords(most.at, s, engine)}`;
  const part = Math.round(100 * most.share);
  const all = shares.length === 1 && Math.abs(part - 100) < 5;  // nothing else is open
  return `${name} (${openName(open)}), ${wave.hz.toFixed(0)} Hz: the pressure swings most ${places} from the sound `
    + `hole’s upper edge; the air flows most where it does not. ${all ? `What moves in the sound hole moves in ${way} too`
      : `For all that moves in the sound hole, ${part} % moves in ${way}`}${shares.length > 1 ? `, ${Math.round(100 * shares[1].share)} % in the next` : ''}.`;
}

/** Where each swing is greatest, from the sound hole down: one between two places at rest. @param {number[]} at
 * @param {number[]} size */
function turning(at, size) {
  /** @type {{at: number, size: number}[]} */
  const lobes = [];
  for (let i = at.length - 1; i >= 0; i -= 1) {
    const last = lobes[lobes.length - 1];
    if (last === undefined || Math.sign(last.size) !== Math.sign(size[i])) lobes.push({ at: at[i], size: size[i] });
    else if (Math.abs(size[i]) > Math.abs(last.size)) lobes[lobes.length - 1] = { at: at[i], size: size[i] };
  }
  return lobes.filter((lobe) => Math.abs(lobe.size) > 0.35).map((lobe) => lobe.at);
}

/** @param {string} name @param {string} words */
export const pictureAria = (name, words) => `Pressure and flow along the tube at ${name}. ${words}`;

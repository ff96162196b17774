// web/voice/words.js: what the room Voice says of the voice, its parts and its breath. What it says of a voice as it
// is cut, of making one and of hearing it stands in the rooms within it.

/// <reference path="./types.d.ts" />
import { centsWords } from '../text/numbers.js';
import { groupName, listed, lower, partName, sizeWords } from '../text/parts.js';
import { noteOrFingering } from '../text/sure.js';
import { sentence } from '../text/violations.js';

export * from '../text/parts.js';

// How it stands. How pressures feel: common practice, no source.
export const TAKE_CARE = 'Take care. ';
export const ON_THIS_PAGE = 'On this page';
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
export const two = (value) => String(Number(value.toPrecision(2)));
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
export function whyOut({ why, flow_range_ml_s: range = [], flow_sealed_ml_s: sealed = [], flow_range_pa: blown = [],
  flow_gap_from: gap = 'none' }) {
  const reason = OUT[why?.code ?? ''];
  const first = reason === undefined ? 'This voice is unlike those that such reckoning was checked with'
    : reason(two(why?.value ?? 0), two(why?.limit ?? 0));
  const [least, most] = range;
  const under = gap === 'none' ? '' : ` and the gap under the block${gap === 'proposed' ? ' that is proposed' : ''}`;
  const [shut, wide] = sealed;
  const flow = typeof least === 'number' && typeof most === 'number'
    ? ` Between a soft breath and a hard one (${blown.join(' to ')} Pa) ${two(least)} to ${two(most)} ml a second pass `
      + `the track${under}, by friction alone${under === '' || typeof shut !== 'number' || typeof wide !== 'number' ? ''
        : `; without the gap ${two(shut)} to ${two(wide)}`}.` : '';
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
  + 'of the bore were tried, and the one that comes nearest to the breath named here is proposed.';
export const BEGIN_MORE = 'Cut it a little short and narrow at first: longer makes the note sharper and the breath firmer, '
  + 'and cannot be taken back. Taking these moves the marks of the flute; nothing else is changed.';
export const BEGIN_ALIKE = 'For a usual breath and for a gentle one alike';
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

/** How it is fingered. @param {number[]} open */
export const openName = (open) => noteOrFingering(null, open);
/** Its name in the song, or else how it is fingered. @param {Pick<Answer, 'notes'>} answer @param {number[]} open */
export const nameOf = ({ notes }, open) => noteOrFingering(
  notes.find((note) => note.open.join() === open.join())?.name, open);

// Each part: its name, how it is measured, what it is worth.

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

/** What is out of its range. Lengths are said in the maker's unit; the other numbers have none.
 * @param {Measure} one @param {State} s @param {Engine} engine */
export function adviceWords({ code = '', path = '', value, limit, open }, s, engine) {
  const length = LENGTHS.includes(code);
  /** @param {number | null} number */
  const figure = (number) => (number === null ? '' : length ? sizeWords(path, number, s, engine)
    : String(Number(number.toPrecision(2))));
  return Object.hasOwn(ADVICE, code) ? ADVICE[code](figure(value), figure(limit), open && nameOf(s.answer, open)) : '';
}
const LENGTHS = ['sound_hole_wider_than_track', 'gap_high', 'track_shallow', 'block_over', 'block_back',
  'hole_small',
  'tube_long', 'edge_thick', 'above_short'];
/** @type {Record<string, (value: string, limit: string, note?: string) => string>} */
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
  dies_before_pitch: (value, limit) => `A note breaks off above ${value} Pa, before the ${limit} Pa at which it `
    + `would be in tune: play it softer, and a little flat.`,
  begins_above_pitch: (value, limit) => `A note holds only above ${value} Pa; in tune it would be at ${limit} Pa: it `
    + `comes sharp.`,
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
  octave_off: (value, limit, note) => `The octave of ${note ?? 'a note'} comes ${value} cents off, over ${limit}: `
    + `blown up, the tune will not be in tune.`,
  track_shallow: (value, limit) => `The track is only ${value} deep, under ${limit}: a drop of water stops it.`,
  hole_small: (value, limit) => `A finger hole is only ${value} wide, under ${limit}: its note will be faint.`,
  tube_long: (value, limit) => `The tube sounds over ${value}, more than 25 bores (${limit}): the lowest notes `
    + `are easily overblown.`,
  edge_thick: (value, limit) => `The splitting edge stands ${value} above the bore, over ${limit}: breathy and `
    + `dull.`,
  above_short: (value, limit) => `Above the sound hole there are ${value}, under ${limit}: too little for plug `
    + `and chamber.`,
};

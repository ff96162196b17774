// web/suits/words.js: what is said of what a tube can be, and of what would put a layout right.

/// <reference path="./types.d.ts" />
import { countWord, inUnit, lengthWords, noteName } from '../text/numbers.js';
import { bindingSentence } from '../text/limits.js';
import { listed } from '../text/parts.js';
import { PLASTIC } from '../text/cautions.js';

export const WHAT_IT_CAN_BE = 'What this tube can be';
export const LEAD = 'Every lowest note up to two octaves above what the whole tube sounds, where it leaves eight bores of length or more, with every scale, '
  + 'is laid out with your bits and hands. The best stand first; a score is a judgement, its reasons are numbers.';
export const BEGUN = 'This flute is begun: its holes stay where they are. What a tube can be is for one without finger holes.';
export const TRYING = 'Laying them out …';
/** @param {number} done @param {number} of */
export const triedWords = (done, of) => `${done} of ${of}`;
/** Before all have been tried. */
export const SO_FAR = 'The best so far:';
export const TAKE_IT = 'Take it';
export const WOULD_DO = 'What would put it right';
export const NEARER = 'Nearest that this tube carries, with the same scale and holes:';

/** @param {Doc['song']['scale']} scale */
const scaleWords = (scale) => (typeof scale === 'string' ? scale : 'your own scale');
/** @param {{lowest: string, scale: Doc['song']['scale'], holes: number}} wish */
export const wishName = ({ lowest, scale, holes }) => `${noteName(lowest)}, ${scaleWords(scale)}, ${countWord(holes)} holes`;

const POOR = 45;
/** @param {number} score */
export const scoreWords = (score) => (score >= 95 ? 'Very good' : score >= 75 ? 'Good' : score >= POOR ? 'Fair' : 'Poor');

/** What one would want, where rounding leaves a difference. @param {string} limit @param {string} words */
const wanted = (limit, words) => (limit === '' ? '' : ` (${limit} ${words})`);
/** What speaks against it, by its number; `over`: it is above the limit.
 * @type {Record<string, (value: string, limit: string, over: boolean) => string>} */
const AGAINST = {
  room_to_trim: (value) => `only ${value} to saw off: the first cut has to be near`,
  length_to_bore: (value, limit, over) => (over ? `long for its bore (${value} bores${limit && `, ${limit} and less speak best`}): it jumps up early`
    : `short for its bore (${value} bores long${limit && `, ${limit} and more speak best`}): a weak lowest note`),
  lowest_quality: (value, limit) => `the lowest note rings little (quality ${value}${limit && `, ${limit} is better`}): soft and slow`,
  octave: (value) => (value === '' ? 'the octave of the lowest note is not there' : `the octave of the lowest note is ${value} cents off`),
  octave_strength: (value, limit, over) => (over ? `the octave rings ${value} times as long as the lowest note${wanted(limit, 'is calmer')}: it comes too readily`
    : `the octave rings ${value} times as long as the lowest note${wanted(limit, 'is better')}: a thin upper register`),
  bits: (value, limit) => `${value} different bits${wanted(limit, 'are soon changed')}`,
  stretch: (value, limit) => `fingers ${value} apart${wanted(limit, 'is easy')}`,
  crowded: (value, limit) => `fingers only ${value} apart${wanted(limit, 'is easy')}`,
  smallest_hole: (value, limit) => `a small hole (${value} of the bore${limit && `; below ${limit} notes are veiled`})`,
  largest_hole: (value, limit) => `a hole of ${value}${wanted(limit, 'is what a pad covers')}`,
  evenness: (value) => `holes of uneven sizes (the widest ${value} times the narrowest)`,
  breath: (value, limit, over) => `a ${over ? 'hard' : 'very gentle'} breath (about ${value} Pa${limit && `; ${limit} is ${over ? 'much' : 'little'} already`})`,
};
const LENGTHS = new Set(['room_to_trim', 'stretch', 'crowded', 'largest_hole']);
const WHOLE = new Set(['breath', 'octave', 'bits']);
/** @param {string} code @param {number | null} value @param {State} s @param {Engine} engine */
function figure(code, value, s, engine) {
  if (value === null) return '';
  if (LENGTHS.has(code)) return lengthWords(value, s, engine);
  const digits = WHOLE.has(code) ? 0 : code === 'lowest_quality' || code === 'length_to_bore' ? 1 : 2;
  return String(Number(value.toFixed(digits)));
}
/** @param {SuitsReason} reason @param {State} s @param {Engine} engine */
function against({ code, value, limit }, s, engine) {
  const [is, best] = [value, limit].map((each) => figure(code, each, s, engine));
  return AGAINST[code](is, is === best ? '' : best, Number(value) > Number(limit));
}

/** @param {SuitsChoice} choice @param {State} s @param {Engine} engine */
export function choiceWords({ reasons, score, layout }, s, engine) {
  const faults = reasons.filter(({ ok, code }) => !ok && Object.hasOwn(AGAINST, code)).map((reason) => against(reason, s, engine));
  /** @param {string} code @param {(figure: string) => string} words */
  const told = (code, words) => reasons.filter((one) => one.code === code && one.value !== null)
    .map(({ value }) => words(figure(code, value, s, engine)));
  const figures = listed([`${lengthWords(layout.foot_mm, s, engine)} from sound hole to foot`, ...told('length_to_bore', (bores) => `${bores} bores`),
    ...told('stretch', (apart) => `fingers at most ${apart} apart`), ...told('largest_hole', (wide) => `holes to ${wide}`),
    ...told('breath', (pa) => `a breath near ${pa} Pa`)]);
  return `${scoreWords(score)}${faults.length === 0 ? '' : `${score < POOR ? ':' : ', but'} ${listed(faults)}`}. ${figures[0].toUpperCase()}${figures.slice(1)}.`;
}

/** What is said first. @param {SuitsAnswer} answer */
export function verdictWords({ choices, worth, carries, reaches, refused, not_tried: short, without_shop: hands }) {
  if (reaches === null) return 'This tube gives no note by itself: look at its sizes on Cane.';
  const tried = carries + refused.length;
  const other = hands ? ' It is not the tube: with another’s hands and any bits it would carry some well. Look at the limits on Song.'
    : '';
  if (choices.length === 0) {
    return `${hands ? 'Not with your bits and hands' : 'Not worth the work as a flute of four holes and more'}: it reaches ${noteName(reaches.lowest)}, but ${
      tried === 0 ? 'no note from there up is eight bores long: it is too short for its bore.'
        : `none of the ${tried} tried can be laid out${short > 0 ? '; what is shorter than eight bores was not tried' : ''}.`}${other}`;
  }
  const count = `It carries ${carries === 1 ? 'one' : carries} of ${tried} tried.`;
  return worth ? count : `${count} None is good, not even higher up.${other || ' It is hardly worth the work; another tube would be.'}`;
}

/** What is left for a tube that is not worth it. @param {NonNullable<SuitsAnswer['instead']>} instead */
export const insteadWords = ({ fewer_holes: fewer, fewer_tried: tried, no_holes: { name, second_hz: second } }) => `${fewer === null
  ? tried ? 'Nor is it better with three holes or two.' : 'With three holes or two nothing was tried.' : `What it could become: ${wishName(fewer)}.`} Without holes it sounds near ${
  noteName(name)}${second === null ? ', and no clear octave' : ', and overblows'}: a whistle.`;

/** @param {NonNullable<SuitsAnswer['look_for']>} look @param {State} s @param {Engine} engine */
export function lookForWords(look, s, engine) {
  /** @param {MinMax} span */
  const span = ({ min, max }) => `${inUnit(min, s, engine)} to ${lengthWords(max, s, engine)}`;
  const lead = look.carries ? 'For the song on Song, with your bits and hands, look for a tube'
    : 'No tube that was tried carries the song on Song with your bits and hands. For its lowest note alone, look for a tube';
  return `${lead} with a bore of ${span(look.bore_mm)}, a wall of ${span(look.wall_mm)}, and `
    + `${span(look.length_mm)} below the node (the wider the bore, the shorter); above it ${lengthWords(look.above_mm, s, engine)} or more.`;
}

/** A bit as it is asked for over the counter; a number's or a letter's size beside it. @param {Bit} bit */
export function bitName({ mm, label }) {
  const size = `${Math.round(mm * 100) / 100} mm`;
  return label === undefined ? size : /^(#\d+|[A-Z])$/.test(label) ? `${label} (${size})` : label;
}

/** The mend, as on a button. @param {Mend} mend @param {State} s @param {Engine} engine */
export function mendName({ code, amount_mm: mm, lowest, holes, label }, s, engine) {
  const size = mm === undefined ? '' : lengthWords(mm, s, engine);
  switch (code) {
    case 'wider_spacing': return `Let fingers lie ${size} apart`;
    case 'closer_spacing': return `Let fingers lie as near as ${size}`;
    case 'larger_holes': return `Let holes be as wide as ${size}`;
    case 'smaller_holes': return `Let holes be as narrow as ${size}`;
    case 'one_more_bit': return `One bit more: ${bitName({ mm: mm ?? 0, label })}`;
    case 'higher_lowest': return `Take ${noteName(lowest)} for the lowest note`;
    default: return `Take ${countWord(holes ?? 0)} holes`;
  }
}
/** Which limit each moves. @type {Record<string, string>} */
const MOVES = { wider_spacing: 'spacing_max', closer_spacing: 'spacing_min', larger_holes: 'diameter_max', smaller_holes: 'diameter_min',
  one_more_bit: 'bits' };
/** The limit that costs most of its kind, in words; '' for a change of the wish. @param {Mend} mend @param {State} s
 * @param {Engine} engine */
export function mendedLimit({ code }, s, engine) {
  const [most] = s.answer.binding.filter(({ constraint }) => constraint === MOVES[code])
    .sort((a, b) => (b.costs_cents ?? 0) - (a.costs_cents ?? 0));
  return most === undefined ? '' : bindingSentence(most, s, engine);
}
/** @param {Mend} mend */
export function mendGain({ worst_cents: worst, gains_cents: gains, in_tune: fine }) {
  if (worst === null) return '';
  if (fine) return worst < 0.5 ? 'all in tune' : `all in tune, ${Math.round(worst * 10) / 10} cents at most`;
  return gains === null ? `then ${Math.round(worst)} cents at most` : `${Math.round(gains)} cents better, ${Math.round(worst)} still off`;
}
export const taken = (/** @type {string} */ name) => `Taken: ${name}.`;
export const FAILED = 'That could not be reckoned. Open it again to try once more.';
export const NOTHING = 'No single change would do.';

export const DRILLS = 'Tick the drills you own';
export const DRILLS_LEAD = 'As they are sold: halves of a millimetre, 64ths of an inch, numbers and letters. Marks and paper name each as '
  + 'it is called here. Other sizes go into the line My bits.';
/** @param {number} count */
export const drillCount = (count) => (count === 0 ? 'None ticked: any size may be asked for.' : `${count} on the bench.`);
/** @param {string} name */
export const setName = (name) => ({ metric: 'Millimetres', 'inch fractions': 'Inches', numbers: 'Numbers', letters: 'Letters' })[name] ?? name;

// Rods and one bit more, below the drills.
export const RODS = 'Hot rods';
export const RODS_LEAD = 'A rod burns a hole wider than itself: burn one in scrap, and measure both.';
export const ROD = { label: 'The rod', note: 'across, cold' };
export const BURNS = { label: 'Burns wider by', note: 'hole less rod' };
export const ADD_ROD = 'Add this rod';
/** The rod's own name; marks and paper say it. @param {string} size */
export const rodName = (size) => `${size} rod`;
/** @param {string} name */
export const removeRod = (name) => `Remove ${name}`;
/** @param {Mend} mend @param {State} s @param {Engine} engine */
export const bitGain = (mend, s, engine) => `${mendName(mend, s, engine)}, and the marks are ${mendGain(mend)}.`;
export const NO_BIT_HELPS = 'The bits limit the marks, but no single one more would help by a cent.';

// Hands.
export const MEASURE_HAND = 'Measure the player’s hand';
export const HANDS_HOW = 'Spread three fingers of the smaller hand on a ruler as far as is easy, and read from the middle of the index '
  + 'finger’s tip to the ring finger’s. Then press the ring finger on it as on a hole: how wide is its print? Holes may lie half the span '
  + 'apart, 4 mm more than the print at least, and be 3 mm less wide. Common practice, no source.';
export const SIZES = 'Or a usual hand';
export const OWN_HAND = 'as measured';
export const SPAN = { label: 'Three fingers’ span', note: 'index to ring finger' };
export const PAD = { label: 'Print', note: 'of the ring finger' };
export const TAKE_HAND = 'Lay out for this hand';
/** @param {HandLimits} limits @param {State} s @param {Engine} engine */
export const handLimits = ({ apart_min_mm: min, apart_max_mm: max, hole_max_mm: wide }, s, engine) => `Holes ${inUnit(min, s, engine)} to ${
  lengthWords(max, s, engine)} apart, at most ${lengthWords(wide, s, engine)} wide`;
/** @param {GripAnswer['holes']} holes */
export function handHas(holes) {
  /** @param {string} hand */
  const of = (hand) => holes.filter((hole) => hole.hand === hand).map(({ number }) => String(number));
  return [['Upper hand', of('upper')], ['lower hand', of('lower')]].filter(([, numbers]) => numbers.length > 0)
    .map(([hand, numbers]) => `${hand}: hole${numbers.length === 1 ? '' : 's'} ${listed(/** @type {string[]} */ (numbers))}`).join('; ');
}
export const EASY = 'Nothing is out of reach.';
/** @param {GripAnswer['warnings'][number]} warning @param {State} s @param {Engine} engine */
export function handWarning({ code, holes, mm, limit_mm: limit, own }, s, engine) {
  const size = lengthWords(mm, s, engine);
  const than = `${own ? 'your limit is' : 'a grown-up’s hand is at ease with'} ${lengthWords(limit, s, engine)}`;
  if (code === 'wide') return `Hole ${holes[0]} is ${size} wide: ${than} at most.`;
  return `Holes ${holes[0]} and ${holes[1]} lie ${size} apart: ${than} at ${code === 'far' ? 'most' : 'least'}.`;
}

// Materials: what differs in the work (common practice, no source), and what can hurt beyond the usual cautions of
// text/cautions.js, each with from whom it is known, read in 2026 (page, abstract or summary); the wording is ours.
/** @typedef {{line: string, from: string}} Hazard */
/** A fire fighter of 170 who had breathed it died: JAMA 235 (1976) 393. @type {Hazard} */
const SMOKE = { line: 'Its smoke holds hydrogen chloride, which burns eyes and lungs: never heat it, burn it or bore it hot.',
  from: 'Health Protection Agency, 2007' };
/** @type {Hazard} */
const ANY_SMOKE = { line: 'Smoke of plastic is poisonous, of some it burns eyes and lungs: never heat it, burn it or bore it hot.',
  from: 'Health Protection Agency, 2007, on hydrogen chloride' };
/** @type {Hazard} */
const OLD_PIPE = { line: 'Take new pipe marked for drinking water, which limits lead: old pipe may hold it, or what it has carried.',
  from: 'NSF/ANSI 372' };
/** Ten of twelve people had a fever after two hours of zinc fume; several welders died of cadmium. @type {Hazard} */
const FUMES = { line: 'Zinc fume from a galvanised rod brings a fever; cadmium, from a plated one, can kill, and does not warn.',
  from: 'NIOSH PB97-206379; OSHA 3136' };
const NO_NODE = 'No node: make a plug.';

/** By what it is called; the first that fits.
 * @type {{kind: string, like: RegExp, work: string[], hazards: Hazard[]}[]} */
export const MATERIALS = [
  { kind: 'CPVC', like: /cpvc/i, work: [NO_NODE, 'Sold by the size of copper tube: measure bore and wall.', 'Brittle in the cold: a fine saw, a sharp bit, no blows.'],
    hazards: [SMOKE, OLD_PIPE] },
  { kind: 'PVC', like: /pvc/i, work: [NO_NODE, 'The printed size is neither bore nor outside: measure both.', 'A bit grabs it: drill slowly, ream the last half millimetre by hand.'],
    hazards: [SMOKE, OLD_PIPE] },
  { kind: 'plastic', like: PLASTIC, work: [NO_NODE, 'Drill slowly, with a sharp bit.'], hazards: [ANY_SMOKE, OLD_PIPE] },
  { kind: 'bamboo', like: /bamboo/i, work: ['Dried for months in the shade, it splits and moves less.', 'Knock the nodes out and file the ridges away; one may stay as the plug.',
    'Hard outside, soft inside: start the bit in a dimple, press lightly at the end.'], hazards: [FUMES] },
  { kind: 'reed grass', like: /reed/i, work: ['Thin and soft: a fine saw, a bit turned by hand, a padded clamp.', 'Breath softens it: seal the bore, let it dry between tests.'],
    hazards: [{ line: 'Musty reed is mouldy: its dust can make the lungs ill for good.', from: 'NIOSH 2013-102' }, FUMES] },
  { kind: 'river cane', like: /cane/i, work: ['A thinner wall than bamboo’s, and it splits sooner: burn or ream rather than force a bit.',
    'Straighten it over gentle heat before anything is measured.'], hazards: [FUMES] },
  { kind: 'wood', like: /wood|dowel/i, work: [NO_NODE, 'A long bit wanders: measure the bore at both ends and in the middle.', 'Bare wood drinks: seal the bore and let it dry before the first reading.'],
    hazards: [{ line: 'Wood dust, hardwoods’ above all, causes cancer of the nose, and asthma: draw it off where it is made.',
      from: 'IARC 62; HSE RR933' }, FUMES] },
];
/** @param {string} material */
export const materialOf = (material) => MATERIALS.find(({ like }) => like.test(material));
// Hemlock: children have died of whistles of its stems (university extension services); the same is told of elder.
/** @type {Hazard} */
export const POISONS = { line: 'Elder, oleander, yew and hemlock poison by the mouth, hogweed burns the skin in the sun; what is sprayed, treated or '
  + 'unknown may do either.', from: 'University of California, ANR 8560, with poison control' };
/** @param {string} material */
export const isPoison = (material) => /\belder|oleander|\byew|hemlock|hogweed|(?<!heat[- ]?)\btreated|\bsprayed/i.test(material);
/** @param {string} material */
export const aboutMaterial = (material) => (isPoison(material) ? `Never a flute of ${material}`
  : material === '' ? 'What not to make a flute of' : `Working with ${material}`);
export const ASK_PLASTIC = 'Which is it, as printed on it?';
export const PLASTICS = ['PVC pipe', 'CPVC pipe'];

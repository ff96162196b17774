// web/voice/breath/words.js: how hard each note may be blown, where it goes over to its octave, and whether that is clean.

/// <reference path="../types.d.ts" />
import { jetOf, pascals, two, voiceMissing, whyOut } from '../words.js';

// The breath of each note.
export const BREATH = 'The breath of each note';
export const BREATH_OF_NOTES = 'For each note how soft and how hard it may be blown, and the octave above it';
export const NOTE = 'Note';
export const PA = 'Pa, water';
export const SOFT = 'soft';
export const AT_PITCH = 'at pitch';
export const HARD = 'hard';
export const OCTAVE = 'octave';
export const RESONANCES = 'What each note resonates at, and the octave above it';
export const RESONATES = 'hertz';
export const SECOND_AT = 'above it';
/** @param {number | null} hz */
export const hertz = (hz) => (hz === null ? HARD_UNKNOWN : hz.toFixed(1));
export const OCTAVES_COUNT = 'Where holes are laid out, octaves count';
/** @type {[number, string][]} weights of song.octaves_weight */
export const OCTAVES_WEIGHTS = [[0, 'not at all'], [0.1, 'a little'], [1, 'most']];
export const OCTAVES_HELP = 'The notes stay as true as they are: what they leave open, how large each hole is and where it then lies, '
  + 'goes by the octaves. The note with all holes covered has no hole of its own: its octave hardly changes.';
/** The octave furthest off, and notes that have none. @param {{name: string, cents: number} | undefined} worst @param {string[]} none */
export const octavesNow = (worst, none) => `${worst === undefined ? ''
  : Math.abs(worst.cents) < 0.5 ? 'Blown up, every note gives its true octave.'
    : `Furthest off is the octave of ${worst.name}: ${Math.round(Math.abs(worst.cents))} cents ${worst.cents > 0 ? 'sharp' : 'flat'}.`}${
  none.length === 0 ? '' : ` ${none.join(', ')}: no octave of ${none.length > 1 ? 'their' : 'its'} own.`}`.trim();
/** @param {string} least @param {string} most */
export const octavesHoles = (least, most) => (least === most ? `Finger holes ${least} wide.` : `Finger holes from ${least} to ${most} wide.`);
/** What of the weight came to count. @param {number | undefined} counted @param {number} weight */
export const octavesHeld = (counted, weight) => (!(weight > 0) || counted === undefined || counted >= 0.99 * weight ? ''
  : counted > 0 ? 'They count less than that here: more, and a note would lose its octave.'
    : 'Here they cannot count: a note would give way, or lose its octave.');
export const JUMP_SIGN = '↑';
export const JUMPS = 'jumps up here';
export const HARD_UNKNOWN = '–';
/** What keeps a note from the breath at which it would be in tune. @param {NoteBreath} note */
function keptWords({ pa, pitch_kept_by: by }) {
  const at = pascals(pa?.at_pitch ?? 0);
  if (by === 'jumps_before') return `before it is in tune, at ${at} Pa`;
  if (by === 'dies_before') return `breaks off above ${pascals(pa?.hard ?? 0)} Pa, before it is in tune, at ${at} Pa`;
  return by === 'begins_above' ? `does not hold below ${pascals(pa?.soft ?? 0)} Pa: in tune it would be at ${at} Pa` : '';
}
const UNTOLD = 'not foretold';
/** In the octave's cell: whether it is clean, or why not. @type {Record<string, string>} */
const OCTAVE_WHY = { weak: 'weak', no_gain: 'will not speak', never_holds: 'never alone', another_nearer: 'another nearer',
  jumps_before: 'jumps on first', dies_before: 'breaks off first', begins_above: 'not at pitch',
  not_where_it_jumps: 'warbles first', faint_register: 'half hidden', no_resonance: 'none', hole_not_cut: 'hole not cut' };
/** @param {NoteBreath | undefined} second */
export const octaveWords = (second) => (second?.octave === undefined ? ''
  : second.octave.clean === true ? 'clean' : OCTAVE_WHY[second.octave.why?.code ?? ''] ?? UNTOLD);
/** What of the octaves is clean, for all notes whose holes are cut.
 * @param {{name: string, second: NoteBreath}[]} all */
export function octavesClean(all) {
  const those = (/** @type {boolean | null} */ clean) => all.filter(({ second: { octave } }) => octave?.clean === clean
    && octave.why?.code !== 'hole_not_cut');
  const names = (/** @type {boolean | null} */ clean) => those(clean).map(({ name }) => name).join(', ');
  const not = those(false).map(({ name, second }) => `${name} (${octaveWords(second)})`).join(', ');
  return [names(true) && `Clean: ${names(true)}.`, not && `Not clean: ${not}.`,
    names(null) && `Whether that of ${names(null)} is clean cannot be foretold.`].filter(Boolean).join(' ');
}
/** Where a note goes over to its octave and back. @param {NoteBreath} note @param {NoteBreath | undefined} second */
export function endsWords(note, second) {
  const { jumps_up_pa: up, pa } = note;
  const kept = keptWords(note);
  const back = second?.falls_back_pa;
  const early = note.pitch_kept_by === 'jumps_before' ? ` ${kept}` : '';
  const breaks = typeof pa?.hard === 'number' ? `breaks off above ${pascals(pa.hard)} Pa` : '';
  const rises = typeof up === 'number' ? `jumps up at ${pascals(up)} Pa${early}`
    : note.pitch_kept_by === 'dies_before' ? kept : breaks;
  const falls = typeof back === 'number' ? `${typeof up === 'number' ? '' : 'its octave '}falls back below ${pascals(back)} Pa` : '';
  const warbles = typeof up === 'number' && typeof back === 'number' && back > up ? 'between the two it warbles' : '';
  const silent = second?.null_why?.falls_back_pa === 'falls_silent' ? 'its octave, blown softer, falls silent' : '';
  const begins = note.pitch_kept_by === 'begins_above' ? kept : '';
  return sentenceOf([begins, [rises, falls].filter(Boolean).join(typeof up === 'number' ? ', ' : '; '), warbles, silent].filter(Boolean).join('; '));
}
/** @param {string} words */
const sentenceOf = (words) => (words === '' ? '' : `${words[0].toUpperCase()}${words.slice(1)}.`);
export const HOW_TO_READ = 'How to read these';
export const TABLE_HELP = '↑: blown harder, it jumps up to the octave. –: no end within what was checked. '
  + 'Octave: cents sharp (+) or flat (−) of a true one, the breath it is in tune at, and whether it is clean there: sounds '
  + 'alone, with twice what it loses, and the note jumps right into it. The bars show the '
  + 'same, full for the note, in outline for its octave. It falls back at less breath than it jumped up at; of the way between '
  + 'the two the model makes up to twice too much. The bars';
/** What the bars' two ends are. @param {number} least @param {number} most [Pa] */
export const barsRun = (least, most) => `${TABLE_HELP} run from ${pascals(least)} to ${pascals(most)} Pa, each doubling `
  + 'as long as any other.';
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

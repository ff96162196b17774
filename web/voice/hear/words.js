// web/voice/hear/words.js: hearing a flute before it exists, and the air in its tube.

/// <reference path="../types.d.ts" />
import { lengthWords, noteName } from '../../text/numbers.js';
import { openName, pascals, whyOut } from '../words.js';

// A flute that sounds before it is made, and the air in its tube.

export const HEAR = 'Hear it';
export const HEAR_SILENT = 'How it would sound is beyond this reckoning, as its breath is. A note shows the air in the tube below.';
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

// web/song/tones.js: soft tones one after the other, made on the spot.

import { noteName } from '../text/numbers.js';

const NOTE_S = 0.42;
const GAP_S = 0.05;
const LOUDNESS = 0.18;

/** Up and down again.
 * @param {AudioContext} audio @param {Note[]} notes those that do not speak are left out
 * @param {(name: string | null) => void} tell which note sounds; null when all is over
 * @returns {(() => void) | null} stops it; null where there is nothing to hear */
export function playScale(audio, notes, tell) {
  const up = notes.flatMap(({ hz, name }) => (typeof hz === 'number' ? [{ hz, name: noteName(name) }] : []))
    .sort((a, b) => a.hz - b.hz);
  const way = [...up, ...up.slice(0, -1).reverse()];
  if (way.length > 0) return playTones(audio, way.map(({ hz }) => hz), (index) => tell(way[index]?.name ?? null));
  tell(null);
  return null;
}

/**
 * @param {AudioContext} audio
 * @param {number[]} hertz
 * @param {(index: number) => void} tell which tone sounds; -1 when all is over
 * @returns {() => void} stops it
 */
function playTones(audio, hertz, tell) {
  const out = audio.createGain();
  out.gain.value = LOUDNESS;
  out.connect(audio.destination);
  const begin = audio.currentTime + 0.08;
  const voices = hertz.map((hz, i) => voice(audio, out, hz, begin + i * (NOTE_S + GAP_S)));
  let shown = -1;
  const timer = window.setInterval(() => {
    const at = Math.floor((audio.currentTime - begin) / (NOTE_S + GAP_S));
    if (at >= hertz.length) return stop();
    if (at >= 0 && at !== shown) {
      shown = at;
      tell(at);
    }
  }, 30);
  let over = false;
  function stop() {
    if (over) return;
    over = true;
    clearInterval(timer);
    out.gain.setTargetAtTime(0, audio.currentTime, 0.02);
    for (const v of voices) v.stop(audio.currentTime + 0.15);
    tell(-1);
  }
  return stop;
}

/** A flute's tone is nearly a sine with a little of its octave.
 * @param {AudioContext} audio @param {AudioNode} out @param {number} hz @param {number} at */
function voice(audio, out, hz, at) {
  const envelope = audio.createGain();
  envelope.gain.setValueAtTime(0, at);
  envelope.gain.linearRampToValueAtTime(1, at + 0.05);
  envelope.gain.setValueAtTime(0.9, at + NOTE_S - 0.08);
  envelope.gain.linearRampToValueAtTime(0, at + NOTE_S);
  envelope.connect(out);
  const tone = audio.createOscillator();
  tone.setPeriodicWave(audio.createPeriodicWave(new Float32Array([0, 0, 0, 0]),
    new Float32Array([0, 1, 0.16, 0.05])));
  tone.frequency.value = hz;
  tone.connect(envelope);
  tone.start(at);
  tone.stop(at + NOTE_S);
  return tone;
}

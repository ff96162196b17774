// web/voice/hear/play.js: what the core has reckoned, made into sound: buffers on the browser's own clock. Nothing sounds
// but what was asked for, and all of it stops at once.

const FADE_S = 0.012;   // long enough not to click, too short to be heard
const AHEAD_S = 0.03;   // between a touch and its sound
const HALF_PA = 0.3;    // a sound pressure played at half of full; louder and softer by its root: no loudness is promised
const DRONE = 0.35;     // beside what is played over it
const BLEND_S = 0.25;   // over which a drone's end goes into its beginning
export const HEAD_S = 0.3;   // of breath, of which a beginning is reckoned first
const SWITCH_S = 0.24;  // from there the whole goes on: a beginning's breath falls after it

/** @type {AudioContext | null} */
let context = null;

/** @typedef {{samples: Float32Array<ArrayBuffer>, rate: number, peak: number, hz: number}} Sound */
/** `whole`: of what `sound` is the beginning of. @typedef {{sound: Sound, factor: number, seconds: number,
 *   whole?: Promise<Sound | null>}} Playing */

/** 16 bits each, lower byte first, in base64url. @param {string} text @returns {Float32Array<ArrayBuffer>} */
export function unpacked(text) {
  const bytes = atob(text.replaceAll('-', '+').replaceAll('_', '/'));
  const samples = new Float32Array(bytes.length >> 1);
  for (let i = 0; i < samples.length; i += 1) {
    const value = bytes.charCodeAt(2 * i) + 256 * bytes.charCodeAt(2 * i + 1);
    samples[i] = (value < 32768 ? value : value - 65536) / 32768;
  }
  return samples;
}

/** A steady piece of a tone that goes round without an end to be heard: a whole number of its periods, blended.
 * @param {Sound} sound @returns {Float32Array<ArrayBuffer>} */
export function looped({ samples, rate, hz }) {
  const from = Math.round(0.3 * rate);
  const blend = Math.round(BLEND_S * rate);
  const room = samples.length - from - blend - Math.round(0.2 * rate);
  const count = Math.round(Math.floor(room / rate * hz) * rate / hz);
  const round = samples.slice(from, from + count);
  for (let i = 0; i < blend; i += 1) {
    const share = i / blend;
    round[i] = share * samples[from + i] + (1 - share) * samples[from + count + i];
  }
  return round;
}

const made = () => { context ??= new AudioContext(); return context; };
/** Made at rest, since it holds the page up (a quarter of a second and more on a phone), and silent until it is woken.
 * Not before anybody has touched the page: browsers complain of that. */
export function prepare() {
  if (context === null && navigator.userActivation?.hasBeenActive) void made().suspend();
}
/** Must be called in the touch itself: browsers let nothing else begin a sound. */
export function wake() {
  const audio = made();
  void audio.resume();
  return audio;
}

/** @param {(note: number) => void} tell which of what was asked sounds, -1 when all is over */
export function createPlayer(tell) {
  /** @type {Set<{node: AudioBufferSourceNode, gain: GainNode, drone: boolean, loud: number}>} */
  const playing = new Set();
  /** @type {ReturnType<typeof setTimeout>[]} */
  let timers = [];
  let turn = 0;

  /** @param {AudioContext} audio @param {Sound} sound @param {number} factor of the pitch @param {number} at
   * @param {number | null} seconds null: until it is stopped @param {number} [offset] into it
   * @param {number} [level] */
  function begin(audio, sound, factor, at, seconds, offset = 0, level) {
    const drone = seconds === null;
    const samples = drone ? looped(sound) : sound.samples;
    const buffer = audio.createBuffer(1, samples.length, sound.rate);
    buffer.copyToChannel(samples, 0);
    const node = audio.createBufferSource();
    const gain = audio.createGain();
    node.buffer = buffer;
    node.loop = drone;
    node.playbackRate.value = factor;
    const loud = level ?? Math.min(0.9, 0.5 * Math.sqrt(sound.peak / HALF_PA)) * (drone ? DRONE : 1);
    gain.gain.setValueAtTime(0, at);
    gain.gain.linearRampToValueAtTime(loud, at + FADE_S);
    if (seconds !== null) {
      gain.gain.setValueAtTime(loud, at + seconds - 3 * FADE_S);
      gain.gain.linearRampToValueAtTime(0, at + seconds);
    }
    node.connect(gain).connect(audio.destination);
    node.start(at, offset);
    if (seconds !== null) node.stop(at + seconds);
    const one = { node, gain, drone, loud };
    playing.add(one);
    node.onended = () => playing.delete(one);
    return one;
  }
  /** The whole of what has begun goes on where its beginning is, wave for wave: both are the same reckoning.
   * @param {AudioContext} audio @param {Sound} head @param {{gain: GainNode, loud: number}} begun
   * @param {Sound} whole @param {number} factor @param {number} at when it began @param {number} seconds */
  function goOn(audio, head, begun, whole, factor, at, seconds) {
    const from = Math.max(at + SWITCH_S / factor, audio.currentTime + AHEAD_S);
    if (from > at + seconds - 4 * FADE_S) return;
    const { gain } = begun.gain;
    if (from < at + HEAD_S / factor) {
      gain.cancelScheduledValues(from);
      gain.setValueAtTime(begun.loud, from);
      gain.linearRampToValueAtTime(0, from + FADE_S);
    }
    begin(audio, whole, factor, from, at + seconds - from, (from - at) * factor, begun.loud * whole.peak / head.peak);
  }
  /** @param {(one: {drone: boolean}) => boolean} which */
  function end(which) {
    const now = context?.currentTime ?? 0;
    for (const one of playing) {
      if (!which(one)) continue;
      one.gain.gain.cancelScheduledValues(now);
      one.gain.gain.setTargetAtTime(0, now, FADE_S / 3);
      one.node.stop(now + 2 * FADE_S);
      playing.delete(one);
    }
  }
  function halt() {
    turn += 1;
    timers.forEach(clearTimeout);
    timers = [];
    end(({ drone }) => !drone);
  }

  return {
    /** One after the other, each as soon as it is reckoned. @param {number} count
     * @param {(n: number) => Promise<Playing | null>} get null: it does not sound */
    async play(count, get) {
      const audio = wake();
      halt();
      const mine = turn;
      let next = 0;
      for (let n = 0; n < count; n += 1) {
        const got = await get(n);
        if (mine !== turn) return;
        if (got === null) continue;
        const at = Math.max(next, audio.currentTime + AHEAD_S);
        const { sound, factor, seconds, whole } = got;
        const begun = begin(audio, sound, factor, at, whole ? sound.samples.length / sound.rate / factor : seconds);
        void whole?.then((all) => {
          if (mine === turn && all !== null) goOn(audio, sound, begun, all, factor, at, seconds);
        });
        timers.push(setTimeout(() => tell(n), (at - audio.currentTime) * 1000));
        next = at + seconds;
        // no more than two notes are reckoned ahead
        const ahead = (next - audio.currentTime - 2) * 1000;
        if (ahead > 0) await new Promise((on) => { timers.push(setTimeout(on, ahead)); });
        if (mine !== turn) return;
      }
      timers.push(setTimeout(() => tell(-1), Math.max(0, next - audio.currentTime) * 1000));
    },
    /** @param {Sound | null} sound null: none any more @param {number} factor */
    drone(sound, factor) {
      end(({ drone }) => drone);
      if (sound !== null) begin(wake(), sound, factor, wake().currentTime + AHEAD_S, null);
    },
    stop() {
      halt();
      tell(-1);
    },
    /** How many sounds there are at this moment, for tests. */
    count: () => playing.size,
  };
}

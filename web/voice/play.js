// web/voice/play.js: what the core has reckoned, made into sound: buffers on the browser's own clock. Nothing sounds
// but what was asked for, and all of it stops at once.

const FADE_S = 0.012;   // long enough not to click, too short to be heard
const AHEAD_S = 0.03;   // between a touch and its sound
const HALF_PA = 0.3;    // a sound pressure played at half of full; louder and softer by its root: no loudness is promised
const DRONE = 0.35;     // beside what is played over it
const BLEND_S = 0.25;   // over which a drone's end goes into its beginning

/** @type {AudioContext | null} */
let context = null;

/** @typedef {{samples: Float32Array<ArrayBuffer>, rate: number, peak: number, hz: number}} Sound */

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

/** Must be called in the touch itself: browsers let nothing else begin a sound. */
export function wake() {
  context ??= new AudioContext();
  void context.resume();
  return context;
}

/** @param {(note: number) => void} tell which of what was asked sounds, -1 when all is over */
export function createPlayer(tell) {
  /** @type {Set<{node: AudioBufferSourceNode, gain: GainNode, drone: boolean}>} */
  const playing = new Set();
  /** @type {ReturnType<typeof setTimeout>[]} */
  let timers = [];
  let turn = 0;

  /** @param {AudioContext} audio @param {Sound} sound @param {number} factor of the pitch @param {number} at
   * @param {number | null} seconds null: until it is stopped */
  function begin(audio, sound, factor, at, seconds) {
    const drone = seconds === null;
    const samples = drone ? looped(sound) : sound.samples;
    const buffer = audio.createBuffer(1, samples.length, sound.rate);
    buffer.copyToChannel(samples, 0);
    const node = audio.createBufferSource();
    const gain = audio.createGain();
    node.buffer = buffer;
    node.loop = drone;
    node.playbackRate.value = factor;
    const level = Math.min(0.9, 0.5 * Math.sqrt(sound.peak / HALF_PA)) * (drone ? DRONE : 1);
    gain.gain.setValueAtTime(0, at);
    gain.gain.linearRampToValueAtTime(level, at + FADE_S);
    if (seconds !== null) {
      gain.gain.setValueAtTime(level, at + seconds - 3 * FADE_S);
      gain.gain.linearRampToValueAtTime(0, at + seconds);
    }
    node.connect(gain).connect(audio.destination);
    node.start(at);
    if (seconds !== null) node.stop(at + seconds);
    const one = { node, gain, drone };
    playing.add(one);
    node.onended = () => playing.delete(one);
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
     * @param {(n: number) => Promise<{sound: Sound, factor: number} | null>} get null: it does not sound
     * @param {(n: number, sound: Sound) => number} secondsOf */
    async play(count, get, secondsOf) {
      const audio = wake();
      halt();
      const mine = turn;
      let next = 0;
      for (let n = 0; n < count; n += 1) {
        const got = await get(n);
        if (mine !== turn) return;
        if (got === null) continue;
        const at = Math.max(next, audio.currentTime + AHEAD_S);
        const seconds = secondsOf(n, got.sound);
        begin(audio, got.sound, got.factor, at, seconds);
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

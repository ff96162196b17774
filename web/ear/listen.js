// web/ear/listen.js: the microphone, frame by frame, to the core's ear. Nothing is kept or sent.

/// <reference path="./types.d.ts" />
import { DENIED, INTERRUPTED, NONE_FOUND, NOTHING_COMES, NO_MICROPHONE } from './words.js';

const POLL_MS = 45;
const FRAME = 8192;          // samples: 0.17 s at 48 kHz, as long as the core's ear wants
const FAST_HZ = 60000;       // sample rates above take twice the frame for the same time
const KEPT_S = 4;
const TAKEN_S = 1;           // a tone held so long is booked; a shorter one when it ends
const FLAT_S = 1.5;          // so long nothing but zeros: the phone has taken the microphone away
const BETWEEN_S = 0.25;      // of quiet, before the next blow counts

/** @type {Hearing} */
const QUIET = { on: 'off', trouble: '', filtered: false, frame: null, held: null, taken: false };

/** @param {Pick<Workshop, 'pitchFrame' | 'heldTone'>} workshop */
export function createListener(workshop) {
  let hearing = QUIET;
  /** @type {Set<(hearing: Hearing) => void>} */
  const listeners = new Set();
  /** @type {((tone: HeldTone) => void) | null} */
  let take = null;
  /** @type {{stream: MediaStream | null, context: AudioContext, timer: number} | null} */
  let open = null;
  let expected_hz = 0;

  /** @param {Partial<Hearing>} news */
  function tell(news) {
    hearing = { ...hearing, ...news };
    for (const listener of listeners) listener(hearing);
  }

  /** @param {string} [trouble] why, where nobody asked for it */
  function stop(trouble = '') {
    const mine = open;
    open = null;
    if (mine !== null) {
      clearInterval(mine.timer);
      mine.context.onstatechange = null;
      for (const track of mine.stream?.getTracks() ?? []) {
        track.onended = null;
        track.onmute = null;
        track.stop();
      }
      void mine.context.close().catch(() => {});
    }
    if (hearing.on !== 'off' || hearing.trouble !== trouble) tell({ ...QUIET, trouble });
  }

  /** Only on a tap: builds everything anew, as only that brings back what a call has taken. */
  async function start() {
    stop();
    if (!navigator.mediaDevices?.getUserMedia || typeof AudioContext === 'undefined') {
      return tell({ ...QUIET, trouble: NO_MICROPHONE });
    }
    const mine = { stream: /** @type {MediaStream | null} */ (null), context: new AudioContext(), timer: 0 };
    open = mine;
    tell({ ...QUIET, on: 'starting' });
    try {
      const stream = await navigator.mediaDevices.getUserMedia({ audio: { echoCancellation: false,
        noiseSuppression: false, autoGainControl: false } });
      mine.stream = stream;
      if (open !== mine) return void stream.getTracks().forEach((track) => track.stop());
      if (mine.context.state === 'suspended') await mine.context.resume();
      listenTo(mine, stream);
    } catch (error) {
      if (open !== mine) return;
      const name = error instanceof Error ? error.name : '';
      stop(name === 'NotAllowedError' || name === 'SecurityError' ? DENIED
        : name === 'NotFoundError' ? NONE_FOUND : `${NO_MICROPHONE} (${name})`);
    }
  }

  /** @param {NonNullable<typeof open>} mine @param {MediaStream} stream */
  function listenTo(mine, stream) {
    const { context } = mine;
    const analyser = context.createAnalyser();
    context.createMediaStreamSource(stream).connect(analyser);
    const [track] = stream.getAudioTracks();
    const settings = track?.getSettings() ?? {};
    track.onended = () => stop(INTERRUPTED);
    track.onmute = () => stop(INTERRUPTED);
    context.onstatechange = () => { if (context.state !== 'running') stop(INTERRUPTED); };
    tell({ on: 'on', filtered: [settings.echoCancellation, settings.noiseSuppression,
      settings.autoGainControl].some((on) => on === true) });
    const ear = createEar(workshop, () => context.sampleRate, {
      wanted: () => expected_hz, gone: () => open !== mine,
      tell, take: (tone) => take?.(tone), lost: () => stop(NOTHING_COMES),
    });
    mine.timer = window.setInterval(() => {
      analyser.fftSize = context.sampleRate > FAST_HZ ? 2 * FRAME : FRAME;
      const samples = new Float32Array(analyser.fftSize);
      analyser.getFloatTimeDomainData(samples);
      void ear(samples, performance.now() / 1000);
    }, POLL_MS);
  }

  document.addEventListener('visibilitychange', () => { if (document.hidden) stop(); });
  return {
    start, stop: () => stop(),
    get: () => hearing,
    /** What the present fingering should give, and who takes a finished tone.
     * @param {number} hz 0: not known @param {(tone: HeldTone) => void} taker
     * @returns {() => void} nobody does any more */
    serve(hz, taker) {
      expected_hz = hz;
      take = taker;
      return () => { if (take === taker) take = null; };
    },
    /** @param {(hearing: Hearing) => void} listener */
    subscribe(listener) {
      listeners.add(listener);
      listener(hearing);
      return () => listeners.delete(listener);
    },
  };
}

/**
 * Frames in, blows out: each held tone is taken once, and after it there has to be a pause.
 * @param {Pick<Workshop, 'pitchFrame' | 'heldTone'>} workshop @param {() => number} rate
 * @param {{wanted: () => number, gone: () => boolean, tell: (news: Partial<Hearing>) => void,
 *   take: (tone: HeldTone) => void, lost: () => void}} to
 */
export function createEar(workshop, rate, to) {
  /** @type {{s: number, pitch: PitchFrame}[]} */
  let frames = [];
  let busy = false;
  let flat_from = NaN;
  let quiet_from = NaN;
  let taken = false;
  /** @type {HeldTone | null} */
  let ready = null;

  /** @param {HeldTone} held @param {number} s */
  function follow(held, s) {
    const sounds = held.state !== 'no_tone';
    if (sounds) quiet_from = NaN;
    else if (Number.isNaN(quiet_from)) quiet_from = s;
    if (taken && s - quiet_from > BETWEEN_S) {
      taken = false;
      frames = frames.slice(-1);
    }
    const before = ready;
    ready = held.state === 'ready' && !taken ? held : null;
    const whole = ready !== null && ready.held_s >= TAKEN_S ? ready
      : ready === null && !sounds && !taken ? before : null;
    if (whole !== null) {
      taken = true;
      ready = null;
    }
    to.tell({ held, taken });
    if (whole !== null) to.take(whole);
  }

  /** @param {Float32Array} samples @param {number} s when the last of them was heard */
  return async function hear(samples, s) {
    if (samples.some((x) => x !== 0)) flat_from = NaN;
    else if (Number.isNaN(flat_from)) flat_from = s;
    else if (s - flat_from > FLAT_S) return to.lost();
    if (busy) return;
    busy = true;
    try {
      const pitch = await workshop.pitchFrame(samples, rate());
      if (to.gone() || pitch.fault !== undefined) return;
      frames = [...frames.filter((f) => f.s > s - KEPT_S && f.s < s), { s, pitch }];
      to.tell({ frame: pitch });
      const held = await workshop.heldTone(frames, to.wanted());
      if (to.gone() || held.state === undefined) return;
      follow(held, s);
    } finally {
      busy = false;
    }
  };
}

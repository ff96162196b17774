// web/ear/types.d.ts: shapes of what listens. Types only, never loaded by a browser.

/** Frame by frame what the microphone hears: core/listen/pitch_frame.hpp. */
interface PitchFrame {
  tone: boolean; why_not: string; hz: number | null; clarity: number; level_db: number;
  clipped: boolean; drift_cents_per_s: number; fundamental_share: number;
}
interface HeldTone {
  state: 'no_tone' | 'too_soft' | 'clipped' | 'jumped' | 'hold_longer' | 'ready';
  hz: number | null; uncertainty_cents: number | null; held_s: number;
  fault?: string;
}

/** What the microphone gives at this moment. */
interface Hearing {
  on: 'off' | 'starting' | 'on';
  trouble: string;          // why it is off, in a sentence; empty: nobody asked
  filtered: boolean;        // the phone works on the sound
  frame: PitchFrame | null;
  held: HeldTone | null;
  taken: boolean;           // this blow has been booked: wait for the next one
}

type Listener = ReturnType<typeof import('./listen.js').createListener>;

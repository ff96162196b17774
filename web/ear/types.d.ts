// web/ear/types.d.ts: shapes of what listens. Types only, never loaded by a browser.

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

// web/bench/types.d.ts: shapes of the bench's own. Types only, never loaded by a browser.

/** What the bench keeps beside the document: it says nothing of the flute. */
interface Aside { bench?: BenchAside }

interface BenchAside {
  checked?: string[];       // of the voice's checklist
  awake?: boolean;          // whether the screen shall stay on; absent: yes
  room_c?: number;          // as last typed
  hushed?: string[];        // hints taken note of
  progress?: Progress;
  scatter?: Scatter;        // of this maker's blows, as the core knows it by now
  removed?: { log: LogEntry[]; left: string };  // the log before an undo, and the one after as text
}

/** What was heard and done since the last entry, for the step in hand. */
interface Progress {
  of: string;               // the step it belongs to
  attempts: number[];       // Hz
  blows: Blow[];
  strokes: number;          // made since the last blow
  tapping?: 'tapped' | 'not told';  // as asked, whether it was opened without a tap
}

/** What the views of the bench look at beside the page's state. */
interface BenchState {
  next: NextStep | null;    // the last one that could be had
  of: Doc | null;           // the document it is for
  problems: Violation[];
  fault: string;
  working: boolean;
  stopped: boolean;         // by the maker, in the middle
  reading: number[] | null; // holes open: the maker wants to read this, whatever the step says
}

/** What came out of a cut; `error_mm` where it is only guessed. */
interface AsMeasured { at_mm?: number; diameter_mm?: number; bit_mm?: number; error_mm?: number }

/** A part of the card that listens to something and has to be let go. */
interface Panel { element: HTMLElement; remove(): void }

type Session = ReturnType<typeof import('./session.js').createSession>;

interface StrokeAdvice {
  what: 'blow' | 'more' | 'light' | 'stop'; count: number; hz: number; sigma_cents: number;
  cents_per_stroke: number;
  mark_hz: number;         // where to stop, as this sitting's breath has it
  opened_untold: boolean;  // the blows rise as if it was opened between them
  first_hz: number; first_sigma_cents: number;  // before the first stroke
  scatter_cents: number; scatter_blows: number;
}
/** How far this maker's blows lie apart, and how many blows say so; nothing known: nothing given. */
interface Scatter { scatter_cents?: number; scatter_blows?: number }

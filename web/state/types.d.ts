// web/state/types.d.ts: flutes as they are kept, and the plans of those being built. Types only, never
// loaded by a browser.

/** A flute as it stands in this browser's storage: web/state/slots.js. */
interface Slot { revision: number; json: string }

/** What there is to tell of keeping, or of what reckons. `lost`: this browser did not keep it; `copied`:
 * another tab had written the same flute, so this one goes on as one of its own; `other`: another tab
 * wrote it; `damaged`: not all could be read back; `second`: only the second copy is left. */
type News = 'lost' | 'copied' | 'other' | 'damaged' | 'second' | 'restarted';

interface Marks {
  foot_mm: number; finger_holes: FingerHole[]; lowest?: string | null;
  by?: string;                // the version that reckoned them
  cents?: (number | null)[];  // of each note
  kept?: boolean;             // the maker wants these although a later version has others
}

/** The old marks of a build, which another version would move: web/state/plan.js. */
interface Plan {
  marks: Marks; now: Marks;   // the old ones, and those of this version
  rest: string; log: number;  // what they are of
  kept: boolean;              // chosen, for this log
}
interface Move { what: 'hole' | 'size' | 'foot' | 'note'; number: number; from: number; to: number }
/** A flute on the shelf: web/shelf/flutes.js. */
interface Flute {
  id: string; at: number; kept: Kept; marks: Marks | null; revision: number; json: string;
}

interface Aside {
  pattern?: PatternMarks;
  hand?: unknown;  // what several flutes taught, while one flute's pattern has its place: taught.js
  begun?: 'empty' | 'sheet' | 'link' | 'file';  // how it came here; `sheet`: made already; absent: of the example, or with an earlier version
}
/** Marks of the flute that was made the pattern, to be seen beside those of this tube. */
interface PatternMarks {
  name: string; foot_mm: number; finger_holes: FingerHole[]; sound_hole_mm: number;
  lowest?: string | null;
}
interface Doc { pattern?: unknown; foot_mm?: number; finger_holes?: FingerHole[]; x?: unknown }

/** What became of the tube by the log. */
interface Stand {
  foot_mm: number;
  sound_hole: { length_mm: number; width_mm: number };
  holes: Map<number, { at_mm: number; diameter_mm?: number }>;
}

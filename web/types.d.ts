// web/types.d.ts: the shapes of the document, the answer and the page's state. Types only, known
// everywhere, never loaded by a browser.

interface Violation { code: string; path: string; value?: unknown; limit?: unknown }
interface BoreStation { at_mm: number; diameter_mm: number; across_mm?: number }
interface Bit { mm: number; label?: string }
interface Limits { min?: number; max?: number }
type Lowest = string | { hz: number };
type Scale = string | { cents: number[] };

/** The document as document.md describes it; keys this page does not read stay untouched. */
interface Doc {
  format: string;
  name?: string;
  show?: { unit: string; fraction: number; datum: string };
  air?: { room_c?: number; humidity_percent?: number; pressure_kpa?: number };
  tube: {
    bore: BoreStation[]; wall_mm?: number; outer_mm?: number; end_mm: number; above_mm?: number;
    material?: string; ridge?: { at_mm: number; opening_mm: number; thickness_mm?: number };
  };
  plug?: { offset_mm?: number; thickness_mm?: number };
  track?: { length_mm?: number };
  sound_hole: {
    length_mm: number; width_mm: number; wall_mm?: number;
    ramp_mm?: number; ramp?: 'none' | 'short' | 'long'; edge_mm?: number;
  };
  block?: 'none' | Block;  // absent: nobody said whether one stands there
  song: {
    lowest: Lowest; scale: Scale; holes: number; a4_hz?: number; tolerance_cents?: number; good_enough_cents?: number;
    octaves_weight?: number;
    play_c?: number; lift_cents?: number; fingerings?: number[][];
  };
  shop?: Partial<ShopErrors> & { bits?: Bit[]; diameter_mm?: Limits; spacing_mm?: Limits;
    hands?: number[] };
  log?: LogEntry[];
  pattern?: unknown;  // what a finished flute taught: core/task/build.hpp
}

/** Each measured, or not known yet. */
interface Block {
  height_mm?: number; width_mm?: number; front_mm?: number;
  side_walls?: 'none' | 'low' | 'high'
    | { height_mm: number; thickness_mm: number; length_mm?: number };
}

/** One thing that happened in the build: one of the keys but the last four. */
interface LogEntry {
  read?: { open: number[]; hz: number; sigma_cents?: number };
  foot?: { at_mm: number };
  hole?: { number: number; at_mm: number; diameter_mm?: number; bit_mm?: number };
  undercut?: { number: number };
  narrow?: { number: number; diameter_mm?: number };
  sound_hole?: { length_mm: number; width_mm: number };
  foot_plug?: { opening_mm: number };
  block?: 'moved';
  bore?: 'sealed';
  breath?: {
    open: number[]; pa?: number; water_mm?: number;  // one of the two
    what: 'jumps up' | 'falls back' | 'at pitch';
  };
  room_c?: number; at?: string | number; error_mm?: number; note?: string;
}

/** How far the maker's measurements may be off, one standard deviation each. */
interface ShopErrors {
  ruler_mm: number; bit_mm: number; bore_mm: number; wall_mm: number; sound_hole_mm: number;
  temperature_c: number;
}

interface FingerHole {
  at_mm: number; diameter_mm: number; inner_diameter_mm?: number; wall_mm?: number;
}

interface Note {
  open: number[];
  target_hz: number;
  hz: number | null;
  second_hz?: number | null;
  cents: number | null;
  name: string | null;
  interval_cents: number;
  cents_per_mm: number | null;
  cents_per_tenth_mm: number | null;
  cents_per_mm_foot: number | null;
  converged: boolean;
}

interface Binding { constraint: string; path: string; costs_cents: number | null; together?: boolean }

/** What the tube is good for. */
interface Cane {
  lowest_hz: number | null;    // of the whole tube without holes
  lowest_name: string | null;  // the lowest note not below that
  spare_mm: number;
  length_to_bore: number;
  taper_percent: number;       // above 0 it narrows towards the foot
  oval_percent: number;
  sound_speed_m_s: number;
  bore_air_c: number | null;
  warnings: string[];
}

interface Answer extends Doc {
  foot_mm: number; finger_holes: FingerHole[]; notes: Note[]; binding: Binding[];
  loose_mm?: number;  // how far the marks of a flute lie to which a hair may lead
  octaves_counted?: number;  // of song.octaves_weight
  converged: boolean; worst_cents: number | null; cane: Cane;  // null: a note does not speak
}

interface NoteSpread {
  open: number[];
  name?: string | null;
  hz: number | null;
  sigma_cents: number | null;  // null, as all below: it does not speak
  shop_cents?: number;
  model_cents?: number;
  parts?: Record<string, number>;
}

type Shares = Record<'5' | '10' | '20', number>;

interface Cause {
  cause: string; of: 'shop' | 'model'; path: string; hole?: number; share: number; cents: number;
}

interface BoreWay { way: string; sigma_mm: number; cents: number; step_cents?: number; best: boolean }

/** What errors do to the notes of a layout: core/verbs/spread.hpp. */
interface Spread {
  at_c?: number;  // the room it is tuned for
  notes: NoteSpread[];
  within: Shares;       // share of flutes with every note so near
  within_shop: Shares;  // the same, were all known that the model does not know
  ranked: Cause[];
  worth_repeating: Cause | null;
  climate: { cents_10_to_30_c: number; per_c: number } | null;
  bore_ways: BoreWay[];
}

interface MonteCarlo {
  builds: number; failed: number; within: Shares; agrees: boolean;
  notes: { open: number[]; sigma_cents: number | null; over_linear?: number | null }[];
}
interface Builds { monte_carlo: MonteCarlo; sums: unknown }

/** Many flutes built from one layout, in pieces. */
interface Trial {
  of: Answer; wanted: number; running: boolean; result: MonteCarlo | null; fault: string;
}

interface Measurement { way: string; [quantity: string]: string | number }
interface Measured { diameter_mm?: number; outer_mm?: number; sigma_mm: number }

interface ChartRow { cents: number; open: number[]; name: string | null }

interface Choices {
  scales: { name: string; cents: number[] }[];
  fractions: number[];
  datums: string[];
  materials: string[];
  defaults: Partial<Doc>;
}

/**
 * A text as the maker typed it. `value` is what the core read from it (null: unreadable, the
 * document keeps the last readable one), `unit` the unit assumed then.
 */
interface Typed { text: string; unit: string; value: unknown; problem: Violation | null }

interface State {
  doc: Doc;                      // what is entered now
  good: Doc;                     // the last document that had an answer
  answer: Answer;                // the answer to `good`
  problems: Violation[];         // what the core says against `doc`
  fault: string;                 // a fault of ours, else empty
  typed: Record<string, Typed>;  // by path
  chart: ChartRow[];             // default fingerings of the song
  sure: Spread | null;           // how sure the notes of `sureOf` are: for a moment the answer before
  sureOf: Answer;
  unsure: string;                // why `sure` could not be had, else empty
  trial: Trial | null;
  aside: Aside;                  // what a switch set aside, to come back with it
  station: string;               // the one shown on a narrow screen
  example: string;               // the example document as text, to know an untouched page
  built: Built | null;           // what the Bench says of `answer`
  plan: Plan | null;             // `answer` has its marks
  before: (Kept & Pick<State, 'plan'>) | null;  // what 'back to the example' replaced
  working: boolean;              // a solution takes longer than one should notice
  unexplained: boolean;          // what holds the notes is still to come: `binding` is of the marks before
  stopped: boolean;              // the maker stopped it: `answer` is not that of `doc`
  keeps: boolean;                // whether this browser keeps what is typed
}

/** The flute of `of` as it stands, by the Bench's own answer. `cut`: of each hole its width, null where that
 * is not known, undefined where it is not cut; `left`: what is to be done, in words. */
interface Built { of: Answer; next: NextStep; cut: (number | null | undefined)[]; left: string }

interface Aside {
  bits?: Bit[]; lowest?: Record<string, Lowest>; scale?: Scale;
  measure?: Record<string, string>;  // texts typed to find the bore, which the document never sees
}
type Kept = Pick<State, 'doc' | 'good' | 'typed' | 'aside' | 'station'>;

/** Where on the page a path of the document can be entered. */
interface Place {
  path: string; label: string; element: Element; shown: () => boolean; focus: () => void;
}

type Reading = { value: unknown } | { problem: Violation };
type Reader = (text: string, unit: string) => Reading;

type Store = ReturnType<typeof import('./state/store.js').createStore<State>>;
type Desk = ReturnType<typeof import('./state/desk.js').createDesk>;
type Engine = Awaited<ReturnType<typeof import('./engine/engine.js').loadEngine>>;
interface Solved { layout: Reply<Answer>; fingerings: Reply<{ fingerings: ChartRow[] }> }
interface Question {
  verb: string; text: string;
  builds?: { from: number; to: number; seed: number; before: string };
  samples?: Float32Array; rate?: number; expected?: number;  // of what is heard
}

interface Blow { strokes: number; hz: number }

/** One step of the bench: core/verbs/next.hpp. */
interface NextStep {
  outside?: { path: string; value: number; limit: number }[];  // beyond what was checked [mm]
  step: {
    do: 'read' | 'foot' | 'hole' | 'undercut' | 'rescue' | 'wait' | 'done';
    open?: number[];                        // read
    at_mm?: number;                         // foot, hole
    number?: number;                        // hole, undercut
    diameter_mm?: number;                   // hole: the bit
    wide_mm?: number;                       // hole: as it comes out of it, where that is known to be another size
    until?: { open: number[]; hz: number; allowance_cents?: number; now_hz?: number | null;
      now_sigma_cents?: number | null; moment_cents?: number };
    expect_hz?: number | null; of?: number[];  // a cut: what that fingering should sound after it
    what?: string;                          // rescue: the remedy to try first
    options?: RescueOption[];               // rescue: all, reversible first
    verdict?: { open: number[]; name: string | null; cents: number; sigma_cents: number;
      within: boolean }[];                  // done
  };
  why: string;             // code; web/bench/words has the sentence
  expect_cents: number | null; sigma_cents: number | null; overshoot: number | null;
  notes: StepNote[];
  finger_holes: FingerHole[]; foot_mm: number;  // the goal as now believed
  prospect?: { within_cents: number | null; good_enough_cents: number; tolerance_cents: number; chance: number; all_cut: boolean;
    steps_left: number };  // every note, probably (null: one will not speak); about
  maker?: { moment_cents: number; usual_moment_cents: number; hands: number; wider: string };
  ways: { open: number[]; cents: number | null; sigma_cents: number | null; options: RescueOption[] }[];
  trouble: string; remedies: RescueOption[];    // what the belief says is wrong, or 'none'
  readings: { entry: number; trusted: boolean; of_this_voice: boolean; off_cents: number | null;
    sigma_cents: number | null }[];
  unknowns: { name: string; mean: number; sigma: number; prior_sigma: number; told: boolean }[];
  at_c: number; converged: boolean;  // the present room: of the last entry that names one
}
interface StepNote {
  open: number[]; name: string | null; target_hz: number;
  hz: number | null;            // expected of the finished flute
  sigma_cents: number | null;   // of this
  before_cents: number | null;  // the same with no reading at all: what the readings are worth
  now_cents: number | null;     // where it is now against where it should be; null: not playable yet
  ends_cents?: number | null;   // where it will end; null: it will not speak; none: all holes are cut
}
interface RescueOption {
  what: string; reversible: boolean; number?: number; size_mm?: number; length_mm?: number;
  target_hz?: number; shift_cents: number; sigma_cents?: number; costs_cents: number;
}

/** The second module: web/engine/workshop.js. */
interface Workshop {
  stop(verb: string): void;
  next(doc: Doc): Promise<Reply<NextStep>>;
  pattern(doc: Doc): Promise<Reply<unknown>>;
  hand(documents: Doc[]): Promise<Reply<any>>;  // web/shelf/hand.js has its shape
  link(doc: Doc): Promise<Reply<{ link: string }>>;
  unlink(text: string): Promise<Reply<Doc>>;
  layout(doc: Doc): Promise<Reply<Answer>>;
  sound(doc: Doc): Promise<Reply<{ notes: { hz: number | null; cents?: number | null }[] }>>;
  spread(answer: Answer): Promise<Reply<Spread>>;
  solve(doc: Doc): Promise<Solved>;
  builds(answer: Answer, of: NonNullable<Question['builds']>): Promise<Reply<Builds>>;
  strokes(o: { blows: Blow[]; stop_hz: number; now_hz?: number; now_sigma_cents?: number; moment_cents?: number;
    tapping?: 'tapped' | 'not told' } & Scatter): Promise<Reply<StrokeAdvice>>;
  /** A pitch typed off any other meter. */
  reading(typed: { text: string; note_hz?: number; name?: string; expected_hz?: number; a4_hz?: number }):
    Reply<{ hz: number }>;
  bore(what: Measurement): Reply<Measured>;
  attempts(o: { hz: number[] } & Scatter): Promise<Reply<{ hz: number; sigma_cents: number;
    scatter_cents: number; scatter_blows: number }>>;
  pitchFrame(samples: Float32Array, rate: number): Promise<PitchFrame & { fault?: string }>;
  heldTone(frames: { s: number; pitch: PitchFrame }[], expected: number): Promise<HeldTone>;
}
interface Reply<T> { answer?: T; violations?: Violation[]; fault?: string; stopped?: boolean }

/** A worker and what waits for it: web/engine/host.js. */
interface Host {
  ask(question: Question): Promise<any>;  // null: no worker can be had, so whoever asks has to reckon
  stop(verb: string): void;  // the replies to such questions: that they were stopped
}

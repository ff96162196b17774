// web/voice/types.d.ts: what the core says of a voice: core/verbs/voice/voice.hpp. Types only, never loaded by a browser.

/** What a judgement hangs on: a number by its path or name, and the limit it misses. */
interface Measure {
  code?: string; path?: string; value: number | null; limit: number | null; out?: boolean; open?: number[];
}
type Band = 'good' | 'rough' | 'out';
interface Breaths { soft: number | null; at_pitch: number | null; hard: number | null }

interface Jet {
  flow_ml_s: number | null; seconds: number | null; jet_m_s: number | null; reynolds: number | null;
  ratio: number | null; pa: number | null; water_mm?: number | null; band: Band; why?: Measure | null;  // null where the band is out
  flow_range_ml_s?: (number | null)[]; flow_sealed_ml_s?: (number | null)[]; flow_range_pa?: number[];
  flow_gap_mm?: number | null; flow_gap_from?: 'given' | 'proposed' | 'none';
}
/** Of a second register: core/verbs/voice/voice_parts.hpp, octave_json. */
interface Octave { there: boolean; clean: boolean | null; why: Measure | null }
interface NoteBreath {
  open: number[]; register: number; hz: number | null;
  pa: Breaths | null; water_mm?: Breaths | null;
  jumps_up_pa: number | null; falls_back_pa?: number | null;
  cents_soft?: number | null; cents_hard?: number | null; cents_from_octave?: number | null;
  octave?: Octave;
  pitch_kept_by?: 'jumps_before' | 'dies_before' | 'begins_above' | null;
  jump_gap?: number | null;   // jump up over falling back, of second registers
  band?: Band; pa_factor?: number | null; why?: Measure | null;
  null_why?: Record<string, string>;  // of the numbers that are null, by their key
}
interface CutPart {
  path: string; mm: number | null; known: 'measured' | 'seen' | 'taken'; cents_per_mm: number | null;
  back_1_mm_cents?: number | null; over_1_mm_cents?: number | null;  // of the block's front
}
interface Proposal { path: string; mm: number; rule: string; of: { path: string; mm: number | null }[] }
interface FaultCause {
  code: string; first?: boolean; removes?: boolean; number?: Measure | null; weight?: number;
}
interface Fault { symptom: string; causes: FaultCause[] }

interface VoiceAnswer {
  voice: Jet | null;          // null: the track is not described
  with_proposed?: Jet | null; // then the same with what is proposed, and so are the notes
  missing?: string[];
  notes: NoteBreath[];
  calibrated?: { factor: number; from_entry: number; band_factor: number } | null;
  as_cut: { lowest_cents: number | null; sigma_cents: number | null; sigma_why?: string; parts: CutPart[] };
  proposed: Proposal[];
  advice?: Measure[];
  faults: Fault[];
}
/** A sound hole to begin with: core/verbs/voice/opening.hpp. */
interface OpeningChoice {
  breath: 'usual' | 'soft'; wanted_pa: number; foot_mm: number; tube_reaches: boolean;
  sound_hole: { length_mm: number; width_mm: number; ramp_mm?: number };
  track: { depth_mm: number | null; width_mm: number | null; length_mm: number | null };
  limit: 'shortest' | 'longest' | null; pa: Breaths | null; water_mm: number | null; flow_ml_s: number | null;
  jump_over_pitch: number | null; band: Band;
}
interface OpeningAnswer { lowest_hz: number; choices: OpeningChoice[] }

interface Workshop {
  opening(doc: Doc): Promise<Reply<OpeningAnswer>>;
  voice(doc: Doc): Promise<Reply<VoiceAnswer>>;
  tone(asked: ToneAsked): Promise<Reply<ToneAnswer>>;
  tune(asked: { document: Answer; tune: string }): Promise<Reply<{ notes: { open: number[]; register: number; name: string }[] }>>;
  wave(asked: { document: Answer; open: number[]; register: number }): Promise<Reply<WaveAnswer>>;
}

/** A note to listen to: core/verbs/voice/tone.hpp. */
interface ToneAsked {
  document: Answer; open: number[]; register: number; breath: number; breath_to: number; seconds: number;
}
interface ToneAnswer {
  hz: number | null; heard_hz: number | null; holds: boolean; pa: number[] | null; in_tune: number | null;
  why: Measure | null; seconds: number | null; rate_hz: number | null; peak_pa: number | null; samples: string | null;
}
interface WaveAnswer {
  hz: number | null; at_mm: number[]; pressure: number[]; flow: number[];
  openings: { at_mm: number; share: number }[]; why: Measure | null;
}
interface Playable { open: number[]; register: number; name: string; of: Answer; hz?: number }

/** What the parts of the station look at beside the page's state. */
interface VoiceState { now: VoiceAnswer | null; of: Answer | null; problems: Violation[]; fault: string }
type VoiceSession = ReturnType<typeof import('./session.js').createSession>;

/** What a choice of the station set aside, by its key, to come back with it. */
interface Aside { voice?: Record<string, { values?: Record<string, unknown>; texts?: Record<string, Typed> }> }

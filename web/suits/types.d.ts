// web/suits/types.d.ts: what the core says of a tube's choices: core/verbs/choose/suits.hpp, mends.hpp. Types only.

interface SuitsReason { code: string; value: number | null; limit: number | null; ok: boolean }
interface SuitsChoice {
  lowest: string; scale: Doc['song']['scale']; holes: number; score: number; reasons: SuitsReason[];
  layout: { foot_mm: number; finger_holes: { at_mm: number; diameter_mm: number }[]; worst_cents: number | null };
}
interface MinMax { min: number; max: number }
interface SuitsAnswer {
  reaches: { hz: number; lowest: string | null } | null;
  choices: SuitsChoice[]; carries: number; worth: boolean; not_tried: number; without_shop: boolean;
  refused: { lowest: string; holes: number; code: string; value: number | null; limit: number }[];
  wish: { reached: boolean; nearest: { lowest: string; foot_mm: number }[] } | null;
  instead: {
    fewer_holes: { lowest: string; scale: string; holes: number; score: number; foot_mm: number } | null; fewer_tried: boolean;
    no_holes: { hz: number; name: string | null; second_hz: number | null; bores: number };
  } | null;
  look_for: { lowest_hz: number; carries: boolean; bore_mm: MinMax; length_mm: MinMax; wall_mm: MinMax; above_mm: number } | null;
}
/** Some of the wishes: what came of each, and the best of them. */
interface SuitsPart { of: number; tried: unknown[]; best: SuitsChoice | null }
interface Mend {
  code: string; set: { path: string; value: any }[]; amount_mm?: number; lowest?: string; holes?: number;
  worst_cents: number | null; gains_cents: number | null; in_tune: boolean; label?: string;
}
interface MendsAnswer { worst_cents: number | null; heard: boolean; mends: Mend[] }

interface HandSize { name: string; span_mm: number; pad_mm: number }
interface HandLimits { apart_min_mm: number; apart_max_mm: number; hole_max_mm: number }
interface GripAnswer {
  holes: { number: number; hand: string }[];
  warnings: { code: string; holes: number[]; mm: number; limit_mm: number; own: boolean }[];
}

interface Workshop {
  reach(hand: { span_mm?: number; pad_mm?: number }): Promise<Reply<{ sizes: HandSize[]; limits: HandLimits | null }>>;
  grip(doc: Doc): Promise<Reply<GripAnswer>>;
  suitsPart(asked: { document: Doc; from: number; to: number }): Promise<Reply<SuitsPart>>;
  suitsOf(asked: { document: Doc; tried: unknown[] }): Promise<Reply<SuitsAnswer>>;
  drills(): Promise<Reply<{ sets: { name: string; bits: Bit[] }[] }>>;
  mends(doc: Doc): Promise<Reply<MendsAnswer>>;
}

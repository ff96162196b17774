// core/verbs/voice/voice.hpp -- the verb `voice`: the breath that a flute wants, what its voice
// does to the lowest note, what a maker might begin with, and what to look at when it does not
// speak well.
#pragma once

#include "core/verbs/answer.hpp"

namespace canewright {

// {"voice": {"flow_ml_s","seconds","jet_m_s","reynolds","ratio","pa","water_mm","band","why",
//     "edge_offset_mm","flow_range_ml_s"?,"flow_sealed_ml_s"?,"flow_gap_mm"?,"flow_gap_from"?,
//     "flow_range_pa"?,"flow_range_why"?} | null, "missing":[path], "from":"given"|"proposed",
//  "with_proposed": as voice | null,
//  "notes":[{"open","register","hz","pa","water_mm","jumps_up_pa","falls_back_pa","pitch_kept_by",
//     "cents_soft","cents_hard","cents_per_doubling","cents_from_octave"?,"octave"?,"jump_gap"?,
//     "band","pa_factor","pa_factors","why"?,"null_why"?}],
//  "calibrated": {"convection","factor","from_entry","band_factor","quoted"} | null,
//  "calibrated_why"?, "as_cut", "proposed", "advice", "faults"}: the parts' comments say the rest
// (voice_parts.hpp, voice_faults.hpp).
//
// `voice` is at the design breath of the lowest note (every hole covered); null where the track is
// not described: `missing` says what of it, `with_proposed` is the same with the proposals in the
// holes, and so are the notes. Where the band is out there are no pressures, and `flow_range_ml_s`
// says what flows between kLeastBlown_Pa and kMostBlown_Pa: friction in the track, with the gap
// under the block (`flow_gap_mm`, `flow_gap_from` "given", "proposed" for one that nobody has said,
// or "none"); `flow_sealed_ml_s` is the same without a gap.
//
// `hz` is the passive resonance. `falls_back_pa` is where a second register, blown softer, goes
// over to the first: as sure as its other pressures. It is null with "falls_silent" where the first
// has no gain there to take over with, "beyond_the_model" where the second holds down to a
// sixteenth of its breath or the model cannot say whether the first sounds. How far it lies under
// the jump up is the model's weakest number: `jump_gap`, of second registers, is the one over the
// other where the jet is good at both, else null with "rough_band"; "neither_between" where the
// second does not hold yet at the jump. `pitch_kept_by` is null where a register holds at the
// breath at which it is in tune, else "jumps_before", "dies_before" (the tone breaks off, no other
// takes over) or "begins_above" it: `at_pitch` is then a breath at which it is not to be had.
//
// With a log: of the flute as it stands and, as far as the song is told, as its readings have shown
// it to be.
// Requires  missing_for(Verb::voice) finds nothing.
Answer voice_answer(const Document& document);

inline constexpr double kLeastBlown_Pa = 100.0,
                        kMostBlown_Pa = 1000.0;  // common practice, no source

}  // namespace canewright

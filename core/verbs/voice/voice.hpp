// core/verbs/voice/voice.hpp -- the verb `voice`: the breath that a flute wants, what its voice
// does to the lowest note, what a maker might begin with, and what to look at when it does not
// speak well.
#pragma once

#include "core/verbs/answer.hpp"

namespace canewright {

// {"voice":
// {"flow_ml_s","seconds","jet_m_s","reynolds","ratio","pa","water_mm","band","why","edge_offset_mm",
//     "flow_range_ml_s"?,"flow_range_pa"?,"flow_range_why"?} | null, "missing":[path],
//     "from":"given"|"proposed",
//  "with_proposed": as voice | null,
//  "notes":[{"open","register","hz","pa","water_mm","jumps_up_pa","falls_back_pa","cents_soft",
//     "cents_hard","cents_per_doubling","cents_from_octave"?,"band","pa_factor","pa_factors","why"?,
//     "null_why"?}],
//  "calibrated": {"convection","factor","from_entry","band_factor","quoted"} | null,
//  "calibrated_why"?, "as_cut", "proposed", "advice", "faults"}: the parts' comments say the rest
// (voice_parts.hpp, voice_faults.hpp).
//
// `voice` is at the design breath of the lowest note (every hole covered); null where the track is
// not described: `missing` says what of it, `with_proposed` is the same with the proposals in the
// holes, and so are the notes. Where the band is out there are no pressures, and `flow_range_ml_s`
// says what flows between kLeastBlown_Pa and kMostBlown_Pa: friction in the track, the gap under
// the block included. `hz` is the passive resonance. With a log: of the flute as it stands and, as
// far as the song is told, as its readings have shown it to be.
// Requires  missing_for(Verb::voice) finds nothing.
Answer voice_answer(const Document& document);

inline constexpr double kLeastBlown_Pa = 100.0,
                        kMostBlown_Pa = 1000.0;  // common practice, no source

}  // namespace canewright

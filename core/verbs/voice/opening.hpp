// core/verbs/voice/opening.hpp -- the verb `opening`: a sound hole to begin with.
#pragma once

#include "core/verbs/answer.hpp"

namespace canewright {

// For a tube and the lowest note it is to sound, a sound hole with its ramp and track, and the
// breath that these will want: for a usual breath, and for a softer one (a child's).
//
// {"lowest_hz","choices":[{"breath":"usual"|"soft","wanted_pa","foot_mm","tube_reaches",
//   "sound_hole":{"length_mm","width_mm","ramp_mm"},"track":{"depth_mm","width_mm","length_mm"},
//   "rules":[{"path","rule","of":[{"path","mm"}]}],"limit":"shortest"|"longest"|null,
//   "pa":{"soft","at_pitch","hard"},"water_mm","flow_ml_s","seconds","jumps_up_pa","jump_over_pitch",
//   "ratio","band","why"}]}
//
// Model    the length along the tube is the one whose lowest note is at its pitch (core/jet/regime)
//          nearest to the wanted pressure, of those between kShortest and kLongest of the bore in
//          tenths of a millimetre, a band that is out last; all other sizes by common practice
//          (voice_proposals). The foot is put where the tube sounds the lowest note, or left at its
//          end where that is too near (tube_reaches false).
// Valid    as core/jet/band says; out: no pressures, the resonance's rule alone (length by bore).
//          A track for which nothing is left above the sound hole has no length (null).
// Error    that of core/jet/regime: pressures to a factor 1.8 either way until one is measured.
// Needs    tube and song.lowest, not "free".
Answer opening_answer(const Document& document);

// Wanted at the lowest note [Pa]. Common practice, no source: 15 mm of water on a small duct
// flute's lowest note blown by a grown-up; a child's gentle breath is less than half of that.
inline constexpr double kUsualBreath_Pa = 150.0, kSoftBreath_Pa = 60.0;
// Of the bore. Within what the element has been compared with (core/element/sound_hole), and what
// is cut: a fifth to not quite a half of the bore (common practice, no source).
inline constexpr double kShortestOpening = 0.2, kLongestOpening = 0.45;
inline constexpr double kOpeningWidth = 0.5;  // of the bore; common practice, no source

}  // namespace canewright

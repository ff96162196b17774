// core/document/hear.hpp -- core/listen for the page: a frame of sound, and frames of a held tone.
#pragma once

#include <cstddef>
#include <string>

#include "core/document/answer.hpp"

namespace canewright {

// {"tone","why_not","hz","clarity","level_db","drift_cents_per_s","fundamental_share","clipped"};
// hz is null where there is none. Arguments as pitch_frame()'s.
Json pitch_frame_json(const float* samples, std::size_t count, double sample_rate_Hz);

// {"state","hz","uncertainty_cents","held_s"} to [{"s","pitch":as above},..], oldest first.
Answer held_tone_answer(const std::string& text, double expected_Hz);

}  // namespace canewright

// core/verbs/hear.hpp -- core/listen for the page: a frame of sound, frames of a held tone, and
// what was typed off another meter.
#pragma once

#include <cstddef>
#include <string>

#include "core/verbs/answer.hpp"

namespace canewright {

// {"tone","why_not","hz","clarity","level_db","drift_cents_per_s","fundamental_share","clipped"};
// hz is null where there is none. Arguments as pitch_frame()'s.
Json pitch_frame_json(const float* samples, std::size_t count, double sample_rate_Hz);

// {"state","hz","uncertainty_cents","held_s"} to [{"s","pitch":as above},..], oldest first.
Answer held_tone_answer(const std::string& text, double expected_Hz);

// {"hz"} to {"text","note_hz"?,"name"?,"expected_hz"?,"a4_hz"?}: a pitch as typed off any other
// meter (core/listen/typed_pitch.hpp). Cents count from `name` in equal temperament, as a meter's
// do, or where the note has no name from note_hz.
Answer reading_answer(const std::string& text);

}  // namespace canewright

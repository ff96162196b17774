// core/listen/held_tone.hpp -- many frames of one held tone: a reading, or what to do for one.
#pragma once

#include <cstddef>
#include <vector>

#include "core/listen/pitch_frame.hpp"

namespace canewright {

struct TimedFrame {
    double time_s;  // of the frame's last sample; any zero
    PitchFrame pitch;
};

enum class Held {
    no_tone,      // nothing a flute would do
    too_soft,     // a tone, but too faint or too deep in noise: nearer, or a quieter room
    clipped,      // too loud for the microphone: further away
    jumped,       // the second register: blow softer
    hold_longer,  // a tone; hold it a little longer, and steadily
    ready,        // the reading stands
};

inline constexpr int kHeldCount = 6;
// The stable name of a state ("hold_longer"); the page keys its texts on it.
const char* name(Held state);

struct HeldTone {
    Held state;
    double frequency_Hz;       // median over the held tone; NaN at no_tone and too_soft
    double uncertainty_cents;  // one standard deviation of the frames, not below the floor; NaN as
                               // above
    double held_s;             // how long the tone has been read; 0 as above
    double from_s;             // time of the first and last frame that counted; NaN as above
    double to_s;
};

// A reading is never called more certain than this: what the tracker itself may be wrong by, and
// the clock of a phone's converter (100 ppm are 0.17 cents).
inline constexpr double kHeldFloor_cents = 0.5;
// The promise, for frames of 0.17 s taken at least every 50 ms of a steady tone: `ready` no later
// than this after the tone has begun. The test uses it.
inline constexpr double kHeldReady_s = 0.7;
// The promise, for tones as in pitch_frame.hpp: |error| of a reading against the median of the true
// frequency over the same time.
inline constexpr double kHeldMedianError_cents = 1.0;
inline constexpr double kHeld95Error_cents = 3.0;

// The reading of the tone that sounds at the end of `frames`.
//
//   frames        rising in time, from the start of this attempt to now; overlapping as they come
//   expected_Hz   what the fingering should give, if known within a tone; 0 when it is not
//
// Model    The newest frames that have a tone, follow each other without a hole and lie within a
//          band of 80 cents are one run. Its first 0.15 s are the attack, while the frame still
//          holds what was before, and do not count. What is left is the held tone, of which the
//          last 2 s are read: median, and spread (core/listen/robust.hpp).
//          A run that glides, faster than 200 cents per second, is a voice and no tone.
//          Jumped: an octave or a twelfth above `expected_Hz`; or, with that unknown, above a run
//          that came just before.
// Checked  tests/core/listen/held_tone_test.cpp
HeldTone held_tone(const std::vector<TimedFrame>& frames, double expected_Hz);

}  // namespace canewright

// core/listen/typed_pitch.hpp -- a pitch as a maker types it off any other meter.
#pragma once

#include <cstddef>
#include <string_view>

#include "core/base/violation.hpp"

namespace canewright {

// What the reading is of.
struct MeteredNote {
    double note_Hz;      // what cents count from where the text names no note; 0 when not known
    double expected_Hz;  // what the flute should give now; 0 when that is not known
    double a4_Hz;        // the meter's pitch standard, for notes that the text names
};

struct TypedPitch {
    bool ok;
    double frequency_Hz;  // NaN when not ok
    Violation wrong;      // meaningless when ok
};

// No meter shows more cents than this.
inline constexpr double kFarthestTyped_cents = 600.0;
inline constexpr std::size_t kLongestTyped_bytes = 64;

// Reads hertz, or cents from a note.
//
//   text     UTF-8, decimal point or comma, spaces around and between:
//            587.3   587,3 Hz   587 hertz           hertz; without a unit from 100 up
//            +12   -7 cents   12 flat   3.5 sharp   cents from `note_Hz`; with sign or word, or 0
//            G4   G4 +12   B♭4 -3 ct   c#5 12 flat  cents from a note of equal temperament
//            Any dash or minus is a sign; cent, cents, ct and ¢ are one.
//   returns  the frequency [Hz], or why it is none: `not_a_pitch` (also a bare number below 100:
//            nobody can tell sharp from flat); `too_large` at path "cents"; `too_small`,
//            `too_large` at path "hz" outside what the ear takes (kLowestTone_Hz to
//            kHighestTone_Hz); `second_register` or `octave_below` where it lies within
//            kJumpWithin_cents of an octave or twelfth above, or an octave below, the expected
// Checked  tests/core/listen/typed_pitch_test.cpp
TypedPitch read_typed_pitch(std::string_view text, const MeteredNote& of);

}  // namespace canewright

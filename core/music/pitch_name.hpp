// core/music/pitch_name.hpp -- note names and their frequencies, for any pitch standard.
//
// A note is a number of semitones, A4 = 69 and C4 = 60, octaves counted from C (the numbering of
// physics and of electronic instruments). All twelve are equally tempered.
#pragma once

#include <string>
#include <string_view>

#include "core/base/violation.hpp"

namespace canewright {

inline constexpr double kStandardA4_Hz = 440.0;  // ISO 16:1975
inline constexpr int kA4 = 69;
inline constexpr int kLowestNote = 12;    // C0
inline constexpr int kHighestNote = 120;  // C9

struct ParsedNote {
    bool ok;
    int note;    // 0 when not ok
    Code error;  // not_a_note, or too_small / too_large outside C0..C9; meaningless when ok
};

// Reads a letter, an accidental or none, and an octave: A4, c5, Bb4, B♭4, F#5, F♯5, G♮4.
// Letters in either case; "b4" is B natural, "bb4" B flat. The octave belongs to the letter, so
// that Cb4 is B3 and B#3 is C4. Spaces only around it. No double accidentals, and no H: in the
// document a note is letter and octave, and where H is used, B means two different notes.
ParsedNote read_note(std::string_view text);

// "B♭4", with the accidentals one sees most: C♯ E♭ F♯ A♭ B♭ (common practice, no source).
// Requires kLowestNote <= note <= kHighestNote; empty outside.
std::string note_name(int note);

// Frequency of a note [Hz]: a4_Hz 2^((note - 69) / 12).
//
//   a4_Hz    > 0, the pitch standard [Hz]
// Source   ISO 16:1975 for A4 = 440 Hz; the rest is the definition of equal temperament.
// Checked  tests/core/music/pitch_name_test.cpp
double note_Hz(int note, double a4_Hz);

struct NearestNote {
    bool ok;           // false: not a positive finite frequency, or nearest is outside C0..C9
    int note;          // 0 when not ok
    std::string name;  // "B♭4"; empty when not ok
    double cents_off;  // from that note to the frequency, -50..50; NaN when not ok
};

NearestNote nearest_note(double frequency_Hz, double a4_Hz);

}  // namespace canewright

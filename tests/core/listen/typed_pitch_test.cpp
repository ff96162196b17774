// tests/core/listen/typed_pitch_test.cpp -- pitches as people type them off any other meter.
#include "core/listen/typed_pitch.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <utility>

#include "core/base/units.hpp"
#include "core/listen/pitch_frame.hpp"

using namespace canewright;

namespace typed_pitch_test {  // its own where tests are compiled together
using Catch::Matchers::WithinAbs;

namespace {

// Equal temperament on A4 = 440 Hz: D5 is five semitones above (arithmetic).
const double kD5_Hz = 440.0 * std::exp2(5.0 / 12.0);
const MeteredNote kOfD5{kD5_Hz, kD5_Hz, 440.0};

std::string why_no_pitch(const std::string& text, const MeteredNote& of = kOfD5) {
    const TypedPitch pitch = read_typed_pitch(text, of);
    if (pitch.ok) return "";
    CHECK(std::isnan(pitch.frequency_Hz));
    return std::string(name(pitch.wrong.code)) + " " + pitch.wrong.path;
}

double off_cents(const std::string& text, const MeteredNote& of = kOfD5) {
    const TypedPitch pitch = read_typed_pitch(text, of);
    return pitch.ok ? cents_between(pitch.frequency_Hz, kD5_Hz) : NAN;
}

}  // namespace

TEST_CASE("hertz, with comma or point", "[listen][analytic]") {
    for (const std::string text :
         {"587,3 Hz", "587.3", " 587.3hz ", "587,3 hertz", "587.3\u00A0HZ"}) {
        CAPTURE(text);
        const TypedPitch pitch = read_typed_pitch(text, kOfD5);
        REQUIRE(pitch.ok);
        CHECK_THAT(pitch.frequency_Hz, WithinAbs(587.3, 1e-9));
    }
}

TEST_CASE("cents from the note, with sign or word", "[listen][analytic]") {
    using Case = std::pair<std::string, double>;
    for (const auto& [text, off] :
         {Case{"+12", 12}, Case{"\u22127", -7}, Case{"-7 cents", -7}, Case{"\u20137 ct", -7},
          Case{"12 flat", -12}, Case{"12 cents flat", -12}, Case{"3,5 Sharp", 3.5}, Case{"+0", 0},
          Case{"0", 0}, Case{"0 cents", 0}, Case{"+ 12 \u00A2", 12}, Case{"+.5", 0.5}}) {
        CAPTURE(text);
        CHECK_THAT(off_cents(text), WithinAbs(off, 1e-9));
    }
}

// Arithmetic: a semitone is 100 cents.
TEST_CASE("cents from a note that is named, in the meter's pitch standard", "[listen][analytic]") {
    using Case = std::pair<std::string, double>;
    for (const auto& [text, off] :
         {Case{"D5 +12", 12}, Case{"D5", 0}, Case{"d5 \u22123", -3}, Case{"D5 12", 12},
          Case{"C#5 +40", -60}, Case{"E\u266D5 -30", 70}, Case{"Eb5 30 flat", 70},
          Case{"c\u266F5+40", -60}}) {
        CAPTURE(text);
        CHECK_THAT(off_cents(text), WithinAbs(off, 1e-9));
    }
    CHECK_THAT(read_typed_pitch("A4 +0", {415.0, 415.0, 415.0}).frequency_Hz,
               WithinAbs(415.0, 1e-9));
    const MeteredNote between{600.0, 600.0, 440.0};
    CHECK_THAT(read_typed_pitch("-1200 cents", between).wrong.value, WithinAbs(1200.0, 0.0));
    CHECK_THAT(cents_between(read_typed_pitch("+12", between).frequency_Hz, 600.0),
               WithinAbs(12.0, 1e-9));
}

TEST_CASE("what is no pitch says so", "[listen][corner]") {
    for (const std::string text :
         {"",         " ",   "abc",   "12",       "12 cents", "12.5", "+12 flat", "12 flat sharp",
          "5,8,7",    "1e3", "D5 +",  "D5 cents", "++3",      "+-3",  "+12 Hz",   "D5 587 Hz",
          "Infinity", "NaN", "H4 +3", "D +3",     "\u0663",   "587.", "5 87",     "587 Hz!"}) {
        CAPTURE(text);
        CHECK(why_no_pitch(text) == "not_a_pitch text");
    }
    CHECK(why_no_pitch(std::string(kLongestTyped_bytes + 1, '9')) == "not_a_pitch text");
    CHECK(why_no_pitch("+9999") == "too_large cents");
    CHECK(why_no_pitch("+600.1") == "too_large cents");
    CHECK(why_no_pitch("20 Hz") == "too_small hz");
    CHECK(why_no_pitch("149.9") == "too_small hz");
    CHECK(why_no_pitch("150", {kD5_Hz, 0.0, 440.0}) == "");
    CHECK(why_no_pitch("5000") == "too_large hz");
    CHECK(read_typed_pitch("5000", kOfD5).wrong.limit == kHighestTone_Hz);
}

TEST_CASE("another register is told, not taken", "[listen][property]") {
    CHECK(why_no_pitch("1174") == "second_register hz");  // an octave
    CHECK(why_no_pitch("1770") == "second_register hz");  // a twelfth
    CHECK(why_no_pitch("293,7") == "octave_below hz");
    CHECK(why_no_pitch("700") == "");  // a third off is a reading
    // Where nobody knows what to expect, it is what was typed.
    CHECK(why_no_pitch("1174", {kD5_Hz, 0.0, 440.0}) == "");
}

}  // namespace typed_pitch_test

// tests/core/music/pitch_name_test.cpp -- note names and equal temperament.
#include "core/music/pitch_name.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "core/base/units.hpp"

using namespace canewright;
using Catch::WithinAbs;

namespace {

int note_of(const std::string& text) {
    const ParsedNote read = read_note(text);
    CAPTURE(text);
    CHECK(read.ok);
    return read.note;
}

void check_refused(const std::string& text, Code error) {
    const ParsedNote read = read_note(text);
    CAPTURE(text);
    CHECK_FALSE(read.ok);
    CHECK(std::string(name(read.error)) == name(error));
}

}  // namespace

// Source     ISO 16:1975 for A4; the other rows are the tabulated equal temperament on it
// (reference
//            rows ET-*), printed to 0.0001 Hz.
// Tolerance  half of the last printed digit, 0.00005 Hz, is 0.0004 cents at the lowest of them.
TEST_CASE("equal temperament on A4 = 440 Hz", "[pitch][published]") {
    struct Row {
        const char* name;
        double printed_Hz;
    };
    for (const Row& row :
         {Row{"A4", 440.0}, Row{"C4", 261.6256}, Row{"E4", 329.6276}, Row{"F#4", 369.9944},
          Row{"G4", 391.9954}, Row{"B4", 493.8833}, Row{"D5", 587.3295}}) {
        const double frequency_Hz = note_Hz(note_of(row.name), kStandardA4_Hz);
        CAPTURE(row.name, frequency_Hz);
        CHECK_THAT(cents_between(frequency_Hz, row.printed_Hz), WithinAbs(0.0, 0.0004));
    }
    CHECK(note_Hz(note_of("A4"), kStandardA4_Hz) == 440.0);
}

// A4 = 440 Hz puts middle C, C4, nine semitones below it, and octaves double.
TEST_CASE("other pitch standards and octaves", "[pitch][analytic]") {
    CHECK(note_Hz(note_of("A4"), 432.0) == 432.0);
    CHECK(note_Hz(note_of("A5"), 415.0) == 830.0);
    CHECK(note_Hz(note_of("A0"), 440.0) == 27.5);
    CHECK_THAT(cents_between(note_Hz(note_of("C4"), 442.0), 442.0), WithinAbs(-900.0, 1e-9));
}

TEST_CASE("spellings of one note", "[pitch]") {
    for (const char* text : {"Bb4", "bb4", "B♭4", "b♭4", "BB4", "A#4", "a♯4", " A#4 ", "A♯4\n"}) {
        CHECK(note_of(text) == 70);
    }
    CHECK(note_of("b4") == 71);
    CHECK(note_of("B♮4") == 71);
    CHECK(note_of("c5") == 72);
    CHECK(note_of("F#5") == note_of("F♯5"));
    CHECK(note_of("Gb5") == note_of("F♯5"));
}

TEST_CASE("the octave belongs to the letter", "[pitch][trade]") {  // common practice, no source
    CHECK(note_of("Cb4") == note_of("B3"));
    CHECK(note_of("B#3") == note_of("C4"));
    CHECK(note_of("E#4") == note_of("F4"));
    CHECK(note_of("Fb4") == note_of("E4"));
}

TEST_CASE("C0 to C9 and no further", "[pitch]") {
    CHECK(note_of("C0") == kLowestNote);
    CHECK(note_of("C9") == kHighestNote);
    CHECK(note_of("B#8") == kHighestNote);
    check_refused("Cb0", Code::too_small);
    check_refused("B-1", Code::too_small);
    check_refused("C#9", Code::too_large);
    check_refused("D9", Code::too_large);
    check_refused("C10", Code::too_large);
    check_refused("A44", Code::too_large);
}

TEST_CASE("what is no note is refused", "[pitch]") {
    for (const char* text :
         {"",     " ",     "A",    "4",    "Bb",   "#4",     "H4",       "h4",   "Hb4",  "X4",
          "A 4",  "A4 B4", "Abb4", "A##4", "A#b4", "A♭♭4",   "A4#",      "A4.5", "A440", "A+4",
          "A--4", "A-",    "440",  "do4",  "As4",  "A4\x80", "\xE2\x99", "A♭",   "Ａ4"}) {
        check_refused(text, Code::not_a_note);
    }
    check_refused(std::string(400, 'A'), Code::not_a_note);
    check_refused("A" + std::string(400, '4'), Code::not_a_note);
    check_refused(std::string("A4\0", 3), Code::not_a_note);
}

TEST_CASE("every note's name is read back as that note", "[pitch][property]") {
    for (int note = kLowestNote; note <= kHighestNote; ++note) {
        CHECK(note_of(note_name(note)) == note);
    }
    CHECK(note_name(70) == "B♭4");
    CHECK(note_name(66) == "F♯4");
    CHECK(note_name(kLowestNote - 1).empty());
    CHECK(note_name(kHighestNote + 1).empty());
}

// Property: a frequency made of a note and some cents is taken apart again, for any standard.
TEST_CASE("the nearest note and the cents off it", "[pitch][property]") {
    for (const double a4_Hz : {415.0, 440.0, 466.16}) {
        for (int note = kLowestNote; note <= kHighestNote; ++note) {
            for (const double off_cents : {-49.9, -10.0, 0.0, 0.5, 49.9}) {
                const NearestNote near =
                    nearest_note(shifted_Hz(note_Hz(note, a4_Hz), off_cents), a4_Hz);
                CAPTURE(a4_Hz, note, off_cents);
                CHECK(near.ok);
                CHECK(near.note == note);
                CHECK(near.name == note_name(note));
                CHECK_THAT(near.cents_off, WithinAbs(off_cents, 1e-8));
            }
        }
    }
}

// 368.9 Hz against F♯4 = 369.9944 Hz (reference row ET-F#4): 1200 log2(368.9 / 369.9944) by hand
// from ln(1 + x) = x - x^2/2: x = -0.0029579, -5.1283 cents.
TEST_CASE("a reading from the bench", "[pitch][derived]") {
    const NearestNote near = nearest_note(368.9, 440.0);
    CHECK(near.name == "F♯4");
    CHECK_THAT(near.cents_off, WithinAbs(-5.128, 0.001));
}

TEST_CASE("no nearest note", "[pitch]") {
    constexpr double kInfinity = std::numeric_limits<double>::infinity();
    const double nan = std::numeric_limits<double>::quiet_NaN();
    for (const double frequency_Hz : {0.0, -440.0, nan, kInfinity, 1e-300, 1e300, 15.0, 9000.0}) {
        const NearestNote near = nearest_note(frequency_Hz, 440.0);
        CAPTURE(frequency_Hz);
        CHECK_FALSE(near.ok);
        CHECK(near.name.empty());
        CHECK(std::isnan(near.cents_off));
    }
    for (const double a4_Hz : {0.0, -440.0, nan, kInfinity}) {
        CHECK_FALSE(nearest_note(440.0, a4_Hz).ok);
    }
    CHECK_FALSE(nearest_note(-440.0, -440.0).ok);
}

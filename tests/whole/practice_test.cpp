// tests/whole/practice_test.cpp: a pattern that makers of very small cane flutes use.
//
// Source     common practice, no source: holes at about 53, 66, 88, 106.5 and 121 mm from the
//            sound hole's centre, bore 8 to 9.5 mm, bits about 2.5 mm opened by burning.
// Ours       bore 8.7, wall 1.5, sound hole 3.5 x 4 (along, across), foot at 172 mm from the
//            centre, holes of 2.5 mm, plug against the edge, soft fingers, a room of 20 C.
#include <catch2/catch.hpp>
#include <cmath>

#include "tests/support/layouts.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;

namespace {

const std::vector<double> kPractised_mm = {53.0, 66.0, 88.0, 106.5, 121.0};
constexpr double kHalfSoundHole_m = 0.00175;

Flute cane() {
    Flute flute;
    flute.bore = {{0.0, 0.0087, 0.0087}};
    flute.wall_m = 0.0015;
    flute.sound_hole = {2.0 * kHalfSoundHole_m, 0.004, 0.0015};
    flute.foot_m = 0.172 + kHalfSoundHole_m;
    return flute;
}

}  // namespace

// Tolerance  60 cents: holes burned by eye. Intervals count from the flute's own lowest note.
TEST_CASE("the practised pattern sounds a minor pentatonic", "[practice][trade]") {
    Flute flute = cane();
    for (const double at_mm : kPractised_mm)
        flute.holes.push_back(round_hole(m_from_mm(at_mm) + kHalfSoundHole_m, 0.0025, 0.0015));
    const Air air = played_air();
    const double lowest_Hz = pitch_Hz(flute, air, {});
    Fingering open;
    for (int opened = 1; opened <= 5; ++opened) {
        open.insert(open.begin(), 6 - opened);
        CAPTURE(opened);
        CHECK_THAT(cents_between(pitch_Hz(flute, air, open), lowest_Hz),
                   WithinAbs(kMinorPentatonic[static_cast<std::size_t>(opened)], 60.0));
    }
    // an A5 (880 Hz) is what such a flute is called: within a semitone
    CHECK_THAT(cents_between(lowest_Hz, 880.0), WithinAbs(0.0, 100.0));
}

// Tolerance  8 mm. At least 200 mm of chamber to start from.
TEST_CASE("a layout for A5 puts the marks near the practised ones", "[practice][trade]") {
    LayoutTask task;
    task.flute = cane();
    task.end_m = 0.200;
    task.hole_count = 5;
    task.notes = opened_in_order(5, 880.0, kMinorPentatonic);
    task.shop.spacing_min_m = 0.013;
    task.shop.diameter_min_m = 0.002;
    task.shop.diameter_max_m = 0.003;
    const LayoutResult result = place_holes(task, played_air());
    CHECK(result.converged);
    REQUIRE(result.flute.holes.size() == 5);
    for (std::size_t i = 0; i < 5; ++i) {
        CAPTURE(i);
        CHECK_THAT(mm_from_m(result.flute.holes[i].at_m - kHalfSoundHole_m),
                   WithinAbs(kPractised_mm[i], 8.0));
    }
    CHECK(result.flute.foot_m < 0.200);
}

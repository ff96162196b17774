// tests/core/element/voice_test.cpp: what ramp, block and side walls do to a sound hole.
#include "core/element/voice.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "core/base/units.hpp"
#include "core/element/sound_hole.hpp"
#include "core/element/strip.hpp"

using namespace canewright;
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {

WindowShape opening() { return {9e-3, 5.5e-3, 9e-3, 3e-3, 0.0}; }

double change_m(VoiceShape voice, double by = 1.0) {
    WindowShape s = opening();
    s.bore_radius_m *= by;
    s.length_m *= by;
    s.width_m *= by;
    s.wall_m *= by;
    for (double* part :
         {&voice.ramp_m, &voice.edge_m, &voice.block_height_m, &voice.block_width_m, &voice.front_m,
          &voice.walls_height_m, &voice.walls_thickness_m, &voice.walls_length_m})
        *part *= by;
    s.voice = voice;
    return voice_end_change_m(s);
}

const VoiceShape kRamp{18e-3, 0.45e-3};
const VoiceShape kBlock{18e-3, 0.45e-3, 7e-3, 19.2e-3};
const VoiceShape kWalls{18e-3, 0.45e-3, 7e-3, 19.2e-3, 0.0, 3e-3, 2e-3, 5.5e-3};

}  // namespace

TEST_CASE("a bare opening has no voice", "[element][voice][exact]") {
    CHECK(change_m({}) == 0.0);
    CHECK(window_inertance_length_m(opening()) > 0.0);
}

// Reference  the end length of a rectangular piston in a flat wall over the root of its area, by
// the
//            same integral in a table of the literature of end corrections (from memory; it was
//            reckoned anew by hand for the square: 2 (2 asinh 1 + (2 - 2 sqrt 2) / 3) / 2 pi).
TEST_CASE("a rectangle in a flat wall has its end length", "[element][voice][exact]") {
    const double expected[] = {0.47320, 0.45976, 0.44074, 0.42338};
    for (int wide = 1; wide <= 4; ++wide) {
        const double H = wide, area = H;
        CHECK_THAT(strip_potential_m3(1.0, H) / (2.0 * kPi * area) / std::sqrt(area),
                   WithinAbs(expected[wide - 1], 5e-6));
    }
    CHECK(strip_potential_m3(0.0, 1.0) == 0.0);
}

// Potential flow knows no length of its own.
TEST_CASE("a voice twice as large changes its opening twice as much", "[element][voice][exact]") {
    for (const VoiceShape& voice : {kRamp, kBlock, kWalls})
        CHECK_THAT(change_m(voice, 2.0), WithinRel(2.0 * change_m(voice), 1e-12));
}

// The sign of each is what moving a boundary does to a flow's energy: taking wall away lets it
// spread sooner, adding wall keeps it together (Kelvin's principle of least energy, 1849).
TEST_CASE("wall taken away sharpens, wall added flattens", "[element][voice][exact]") {
    CHECK(change_m(kRamp) < 0.0);
    CHECK(change_m(kBlock) > change_m(kRamp));
    CHECK(change_m(kWalls) > change_m(kBlock));
    VoiceShape over = kBlock, back = kBlock;
    over.front_m = -1e-3;
    back.front_m = 1e-3;
    CHECK(change_m(over) > change_m(kBlock));
    CHECK(change_m(back) < change_m(kBlock));
    VoiceShape thin = kRamp;
    thin.edge_m = 2e-3;
    CHECK(change_m(thin) > change_m(kRamp));
    VoiceShape higher = kWalls, shorter = kRamp;
    higher.walls_height_m = 6e-3;
    shorter.ramp_m = 9e-3;
    CHECK(change_m(higher) > change_m(kWalls));
    CHECK(change_m(shorter) > change_m(kRamp));
}

// A ramp that takes next to nothing away, a block that hardly stands there.
TEST_CASE("a voice comes in without a jump", "[element][voice]") {
    CHECK_THAT(change_m({1e-7, 0.45e-3}), WithinAbs(0.0, 1e-6));
    CHECK_THAT(change_m({18e-3, 2.9999e-3}), WithinAbs(0.0, 1e-6));
    CHECK_THAT(change_m({0.0, 0.0, 1e-7, 19e-3}), WithinAbs(0.0, 1e-6));
    VoiceShape flush = kBlock;
    for (const double front_m : {-1e-7, 1e-7}) {
        flush.front_m = front_m;
        CHECK_THAT(change_m(flush), WithinAbs(change_m(kBlock), 1e-6));
    }
}

// What a document may say is far wider than what was solved.
TEST_CASE("no voice of any shape leaves an opening without a number", "[element][voice]") {
    for (const double length : {1e-3, 40e-3})
        for (const double width : {1e-3, 60e-3})
            for (const double wall : {0.2e-3, 20e-3})
                for (const double bore : {1.5e-3, 30e-3})
                    for (const double part : {0.1e-3, 60e-3})
                        for (const double front : {-0.9e-3, 10e-3}) {
                            WindowShape s{bore, length, width, wall, 0.0};
                            s.voice = {part, 0.5 * wall, part, part, front, part, part, part};
                            CAPTURE(length, width, wall, bore, part, front);
                            const double l_m = window_inertance_length_m(s);
                            CHECK(std::isfinite(l_m));
                            CHECK(l_m >= 0.0);
                        }
    WindowShape far = opening();
    far.voice = kWalls;
    CHECK(in_voice_range(far));
    far.voice.walls_height_m = 40e-3;
    CHECK_FALSE(in_voice_range(far));
}

// tests/core/bench/builder_test.cpp: a log becomes stages.
#include "core/bench/builder.hpp"

#include <catch2/catch.hpp>

#include "tests/support/flutes.hpp"

namespace canewright {
namespace {

using Catch::WithinAbs;

Builder builder() {
    const Flute blank = testing::plain_tube(17e-3, 3e-3, 0.44);
    const std::vector<NoteTarget> notes = {
        {{}, 0.0, 390.0}, {{3}, 200.0, 440.0}, {{2, 3}, 400.0, 490.0}, {{1, 2, 3}, 700.0, 580.0}};
    return Builder(blank, AirState{}, std::vector<FingerHole>(3), notes, Measures{});
}

TEST_CASE("each cut is a stage, each opening a number", "[bench][builder][property]") {
    Builder b = builder();
    b.read({}, 400.0, 3.0, 20.0);
    b.foot(0.38);
    b.hole(3, 0.30, 5e-3);
    b.read({3}, 450.0, 3.0, 21.0);
    b.hole(3, 0.30, 5.6e-3);
    b.read({3}, 460.0, 3.0, 22.0);
    const History& h = b.history();
    REQUIRE(h.stages.size() == 4);
    CHECK(h.heard[0].stage == 0);
    CHECK(h.heard[1].stage == 2);
    CHECK(h.heard[2].stage == 3);
    CHECK(h.heard[2].entry == 5);
    CHECK(h.heard[0].above_cents == 0.0);
    CHECK(h.heard[1].above_cents == 200.0);
    CHECK(h.now().foot_m == 0.38);
    CHECK(h.now().holes[2].diameter_m == 5.6e-3);
    CHECK(h.now().holes[2].times_cut == 2);
    CHECK_FALSE(h.now().holes[0].cut);
    // the tube's end, the foot, the drilled hole and the opened one
    CHECK(h.cuttings == 4);
    CHECK(h.stages[2].holes[2].cutting != h.now().holes[2].cutting);
    CHECK(h.stages[2].foot_cutting == h.now().foot_cutting);
    // a bit is truer than a hole opened by hand
    CHECK(h.stages[2].holes[2].size_sigma_m < h.now().holes[2].size_sigma_m);
    const Flute flute = flute_at(h, h.now());
    REQUIRE(flute.holes.size() == 1);
    CHECK(over_cut_holes(h.now(), {1, 3}) == Fingering{1});
}

TEST_CASE("a size that nobody measured is a wide guess", "[bench][builder][property]") {
    Builder b = builder();
    b.hole(2, 0.25, std::nullopt);
    const HoleNow first = b.history().now().holes[1];
    CHECK(first.size_sigma_m > 0.05 * first.diameter_m);
    b.hole(2, 0.25, std::nullopt);
    CHECK(b.history().now().holes[1].diameter_m > first.diameter_m);
    b.hole(2, 0.25, 7e-3, 0.05e-3);
    CHECK_THAT(b.history().now().holes[1].size_sigma_m, WithinAbs(0.05e-3, 0.03e-3));
    b.narrow(2, 6e-3);
    CHECK(b.history().now().holes[1].diameter_m == 6e-3);
}

TEST_CASE("a changed voice makes what was heard before another flute's", "[bench][builder]") {
    Builder b = builder();
    b.read({}, 400.0, 3.0, 20.0);
    SECTION("block") { b.block_moved(); }
    SECTION("sound hole") { b.sound_hole(6e-3, 9e-3); }
    b.read({}, 405.0, 3.0, 20.0);
    CHECK(b.history().heard[0].voice_moved_since);
    CHECK_FALSE(b.history().heard[1].voice_moved_since);
}

TEST_CASE("sealing is drying only when all holes are cut", "[bench][builder]") {
    Builder b = builder();
    b.sealed();
    CHECK(b.history().dried_entry == -1);
    for (int number = 3; number >= 1; --number) b.hole(number, 0.1 * number, 5e-3);
    b.sealed();
    CHECK(b.history().dried_entry == 4);
}

TEST_CASE("what is passed over keeps its number and changes nothing else", "[bench][builder]") {
    Builder b = builder();
    b.read({}, 400.0, 3.0, 20.0);
    b.pass_over();
    b.read({}, 401.0, 3.0, 20.0);
    CHECK(b.history().heard[1].entry == 2);
    CHECK(b.history().stages.size() == 1);
    CHECK_FALSE(b.history().heard[0].voice_moved_since);
}

}  // namespace
}  // namespace canewright

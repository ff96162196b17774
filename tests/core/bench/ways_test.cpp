// tests/core/bench/ways_test.cpp: what would bring each note to its place, and the foot that is
// said.
#include "core/bench/ways.hpp"

#include <catch2/catch.hpp>

#include "core/bench/cuts.hpp"
#include "tests/core/bench/workshop.hpp"

namespace canewright {
namespace {

using Catch::WithinAbs;
using testing::Dice;
using testing::Workshop;

// Foot and the last hole are cut, both notes heard `off_cents` from where they should be.
struct HalfMade {
    Dice dice{61};
    Workshop shop{dice};
    HalfMade(double foot_cents, double hole_cents) {
        shop.saw(0.362);
        hear({}, foot_cents);
        shop.drill(5, find_goal(shop.history(), shop.known(), shop.aim).stage.holes[4].at_m, 6e-3);
        hear({5}, hole_cents);
    }
    void hear(const Fingering& open, double off_cents) {
        for (const NoteTarget& note : shop.aim.notes)
            if (note.open == open)
                for (int n = 0; n < 6; ++n)
                    shop.log().read(open, shifted_Hz(note.target_Hz, off_cents), 1.0, 20.0);
    }
    std::vector<NoteWays> ways() const {
        const Estimate known = shop.known();
        return ways_of(shop.history(), known, shop.aim, find_goal(shop.history(), known, shop.aim));
    }
};

TEST_CASE("every note that can be played has its ways, no other", "[bench][ways][property]") {
    const std::vector<NoteWays> ways = HalfMade(0.0, 0.0).ways();
    REQUIRE(ways.size() == 2);
    CHECK(ways[0].note == 0);
    CHECK(ways[1].note == 1);
    for (const NoteWays& one : ways) {
        CHECK(std::abs(one.off_cents) < 3.0);
        CHECK(one.sigma_cents > 0.0);
        CHECK(one.options.empty());  // near enough
    }
}

TEST_CASE("what is sharp is lowered, what is flat opened", "[bench][ways][property]") {
    const std::vector<NoteWays> sharp = HalfMade(30.0, 30.0).ways();
    REQUIRE(sharp.size() == 2);
    for (const NoteWays& one : sharp) {
        REQUIRE_FALSE(one.options.empty());
        CHECK(one.options.front().shift_cents < -10.0);
    }
    const HalfMade build(-30.0, -30.0);
    const std::vector<NoteWays> flat = build.ways();
    REQUIRE(flat.size() == 2);
    for (const NoteWays& one : flat) {
        REQUIRE(one.options.size() == 1);
        CHECK(one.options.front().shift_cents > 10.0);
    }
}

// A disc is in the foot, or the lowest note may be any: then the foot is nobody's to saw.
TEST_CASE("the lowest note's ways end where the foot may not be sawn", "[bench][ways][corner]") {
    for (const double off_cents : {-30.0, 30.0}) {
        CAPTURE(off_cents);
        HalfMade discs(0.0, 0.0), floats(off_cents, 0.0);
        discs.shop.log().foot_plug(12e-3, 3e-3);
        discs.hear({}, off_cents);
        floats.shop.aim.lowest_free = true;
        for (const HalfMade* build : {&discs, &floats}) {
            const std::vector<NoteWays> ways = build->ways();
            REQUIRE_FALSE(ways.empty());
            CHECK(ways.front().note == 0);
            CHECK(ways.front().options.empty());
        }
        CHECK(std::abs(discs.ways().front().off_cents) > 10.0);
    }
}

// No saw takes a nanometre off: a foot that comes to lie within it is the one that stands.
TEST_CASE("a foot that stays is said as it stands", "[bench][corner]") {
    Goal goal;
    Stage now;
    now.foot_m = 0.3621;
    goal.task.end_m = 0.36;  // as it is believed to act
    goal.layout.flute.foot_m = goal.task.end_m - 0.5 * kSameFoot_m;
    CHECK(foot_to_say_m(goal, now) == now.foot_m);
    goal.layout.flute.foot_m = goal.task.end_m - 1.5 * kSameFoot_m;
    CHECK(foot_to_say_m(goal, now) == goal.layout.flute.foot_m);
}

// Reference  the note model itself on the flute as it is to become. One bit for every hole and
// close
//            limits, so that something is left over.
TEST_CASE("what a step expects is how the goal sounds", "[bench][property]") {
    Dice dice(62);
    Workshop shop(dice);
    shop.aim.shop.bits_m = {5e-3};
    shop.aim.shop.spacing_max_m = 24e-3;
    shop.saw(0.362);
    shop.hear({});
    const Estimate known = shop.known();
    const Step step = next_step(shop.history(), known, shop.aim);
    REQUIRE(step.notes.size() == shop.aim.notes.size());
    double most_cents = 0.0;
    for (std::size_t n = 0; n < step.notes.size(); ++n) {
        CAPTURE(n);
        const double sounds_Hz =
            note_Hz(shop.history(), step.goal.stage, step.notes[n].open, shop.aim.play_C,
                    known.belief.mean, shop.above_cents(step.notes[n].open));
        CHECK_THAT(cents_between(step.notes[n].expected_Hz, sounds_Hz), WithinAbs(0.0, 0.1));
        most_cents =
            std::max(most_cents, std::abs(cents_between(sounds_Hz, step.notes[n].target_Hz)));
    }
    CHECK(most_cents > 3.0);
}

}  // namespace
}  // namespace canewright

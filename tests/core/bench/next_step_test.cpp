// tests/core/bench/next_step_test.cpp: the planner over whole builds, and single decisions.
#include "core/bench/next_step.hpp"

#include <catch2/catch.hpp>

#include "tests/core/bench/workshop.hpp"

namespace canewright {
namespace {

using testing::Dice;
using testing::Workshop;

constexpr int kMostSteps = 90;

Step next(const Workshop& shop) { return next_step(shop.history(), shop.known(), shop.aim); }

// What every cut must respect, whatever is believed.
void check_cut(const Workshop& shop, const Step& step) {
    const Stage& now = shop.history().now();
    const bool any_cut =
        std::any_of(now.holes.begin(), now.holes.end(), [](const HoleNow& h) { return h.cut; });
    CHECK(step.overshoot <= shop.aim.risk);
    if (step.what == Do::foot) {
        CHECK(step.at_m < now.foot_m + 1e-3);  // by ear the ruler's error is in it
        if (!step.until) CHECK(step.at_m < now.foot_m);
        if (!step.until) CHECK_FALSE(any_cut);  // the saw comes before the first hole
        return;
    }
    const HoleNow& hole = now.holes[static_cast<std::size_t>(step.number - 1)];
    CHECK(hole.cut == step.until.has_value());
    if (hole.cut) return;
    CHECK(std::count(shop.aim.shop.bits_m.begin(), shop.aim.shop.bits_m.end(), *step.diameter_m) ==
          1);
    CHECK(*step.diameter_m <
          step.goal.stage.holes[static_cast<std::size_t>(step.number - 1)].diameter_m);
    for (std::size_t below = static_cast<std::size_t>(step.number); below < now.holes.size();
         ++below)
        CHECK(now.holes[below].cut);  // from the foot up
}

// Follows to the word; returns the number of steps.
int follow(Workshop& shop) {
    for (int steps = 0; steps < kMostSteps; ++steps) {
        const Step step = next(shop);
        CAPTURE(steps, static_cast<int>(step.what), static_cast<int>(step.why));
        CHECK(step.notes.size() == shop.aim.notes.size());
        switch (step.what) {
            case Do::read:
                CHECK(playable(shop.history().now(), step.open));
                shop.hear(step.open);
                break;
            case Do::foot:
                check_cut(shop, step);
                step.until ? shop.open_until(step) : shop.saw(step.at_m);
                break;
            case Do::hole:
                check_cut(shop, step);
                step.until ? shop.open_until(step)
                           : shop.drill(step.number, step.at_m, *step.diameter_m);
                break;
            case Do::rescue: {
                const RescueOption& way = step.rescue.options.front();
                REQUIRE(way.what == Remedy::narrow);
                shop.narrow(way.number, way.size_m);
                break;
            }
            case Do::wait:
                CHECK(shop.aim.needs_drying);
                shop.log().sealed();
                break;
            case Do::undercut:
                FAIL("no hole of this tune comes near its limit");
                break;
            case Do::done:
                return steps;
        }
    }
    return kMostSteps;
}

TEST_CASE("builds are led from the tube to the last note", "[bench][next][property]") {
    Dice dice(31);
    int notes = 0, within_10 = 0;
    for (int build = 0; build < 6; ++build) {
        CAPTURE(build);
        Workshop shop(dice);
        shop.aim.needs_drying = build % 2 == 1;
        const int steps = follow(shop);
        CHECK(steps < kMostSteps);
        for (const NoteTarget& note : shop.aim.notes) {
            const double off =
                cents_between(shop.true_Hz(note.open, shop.aim.play_C), note.target_Hz);
            CAPTURE(note.interval_cents, off);
            CHECK(off < 15.0);  // what is cut cannot be put back
            ++notes;
            within_10 += std::abs(off) <= 10.0;
        }
    }
    CHECK(within_10 >= notes - 1);
}

TEST_CASE("a floating lowest note keeps the scale", "[bench][next][property]") {
    Dice dice(32);
    Workshop shop(dice);
    shop.aim.lowest_free = true;
    shop.saw(0.372);
    CHECK(follow(shop) < kMostSteps);
    CHECK(shop.history().now().foot_m == 0.372);
    const double lowest_Hz = shop.true_Hz({}, shop.aim.play_C);
    for (const NoteTarget& note : shop.aim.notes)
        CHECK(std::abs(cents_between(shop.true_Hz(note.open, shop.aim.play_C), lowest_Hz) -
                       note.interval_cents) < 12.0);
}

TEST_CASE("it begins with the foot, then the voice, then a trim", "[bench][next]") {
    Dice dice(33);
    Workshop shop(dice);
    const Step first = next(shop);
    CHECK(first.why == Why::saw_long);
    CHECK(first.at_m > first.goal.stage.foot_m);
    shop.saw(first.at_m);
    CHECK(next(shop).why == Why::hear_voice);
    const double before = next(shop).notes[0].sigma_cents;
    shop.hear({});
    const Step trim = next(shop);
    CHECK(trim.why == Why::trim_foot);
    shop.saw(trim.at_m);
    const Step again = next(shop);
    CHECK(again.why == Why::hear_trimmed);
    shop.hear({});
    CHECK(next(shop).notes[0].sigma_cents < before);
    CHECK(next(shop).what == Do::hole);
    CHECK(next(shop).number == 5);
}

// The order's own rule: what does not fit is asked for again before anything is cut.
TEST_CASE("a wrong reading is asked for again", "[bench][next]") {
    Dice dice(34);
    Workshop shop(dice);
    shop.saw(next(shop).at_m);
    shop.hear({});
    shop.saw(next(shop).at_m);
    shop.hear({}, 1210.0);
    const Step step = next(shop);
    CHECK(step.what == Do::read);
    CHECK(step.why == Why::hear_again);
    shop.hear({});
    CHECK(next(shop).what == Do::hole);
}

// A wider doubt leaves more for the ear; a larger accepted risk leaves less.
TEST_CASE("cuts are sized by doubt and risk", "[bench][next][property]") {
    Dice dice(35);
    Workshop shop(dice);
    shop.saw(next(shop).at_m);
    shop.hear({});
    const double by_default_m = next(shop).at_m;
    shop.aim.risk = 0.6;
    CHECK(next(shop).at_m <= by_default_m);
    shop.aim.risk = 1e-4;
    CHECK(next(shop).at_m > by_default_m);
}

// Cut by ear in a warm room for a cool one: the mark on the meter is higher.
TEST_CASE("the stopping pitch allows for the room", "[bench][next][property]") {
    Dice dice(36);
    Workshop shop(dice);
    while (next(shop).why != Why::open_by_ear) {
        const Step step = next(shop);
        if (step.what == Do::read) shop.hear(step.open);
        if (step.what == Do::foot) shop.saw(step.at_m);
        if (step.what == Do::hole) shop.drill(step.number, step.at_m, *step.diameter_m);
    }
    const double here_Hz = next(shop).until->stop_Hz;
    shop.aim.room_C = 26.0;
    const double warm_Hz = next(shop).until->stop_Hz;
    // Reference  2.95 cents a kelvin for air of one temperature (sqrt T); the bore's air is partly
    //            breath, which the room does not warm: a third to all of that.
    const double per_K = cents_between(warm_Hz, here_Hz) / 6.0;
    CHECK(per_K > 1.0);
    CHECK(per_K < 2.95);
}

}  // namespace
}  // namespace canewright

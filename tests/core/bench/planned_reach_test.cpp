// tests/core/bench/planned_reach_test.cpp: how far a planned hole may go, against difference
// quotients.
#include "core/bench/planned_reach.hpp"

#include <catch2/catch.hpp>

#include "tests/core/bench/workshop.hpp"

namespace canewright::planned_reach_test {  // its own where tests are compiled together

using Catch::WithinRel;
using testing::Dice;
using testing::Workshop;

// A tube whose plan is the goal of the untouched one, nothing done yet.
struct PlannedTube {
    std::vector<FingerHole> holes;
    Builder log;
};
PlannedTube planned_tube(const Workshop& shop) {
    const Goal goal = find_goal(shop.history(), shop.known(), shop.aim);
    Flute blank = shop.history().blank;
    std::vector<FingerHole> holes;
    for (const HoleNow& hole : goal.stage.holes)
        holes.push_back({hole.at_m, hole.diameter_m, hole.diameter_m, blank.wall_m});
    blank.foot_m = goal.stage.foot_m;
    return {holes, Builder(blank, AirState{}, holes, shop.aim.notes, Measures{})};
}

// Reference  planned_reach.hpp: what the note was uncertain by [cents] over its slope [cents per
// m], both
//            by the whole flute's own solution; three sigmas, three millimetres at least.
TEST_CASE("a planned hole goes as far as its note was unknown", "[bench][planned][derived]") {
    Dice dice(71);
    Workshop shop(dice);
    auto [planned, log] = planned_tube(shop);
    log.hole(5, planned[4].at_m, planned[4].diameter_m);
    const Estimate then = estimate(log.history(), Workshop::belief(), known_maker());
    std::vector<double> above_cents;
    for (const NoteTarget& note : shop.aim.notes) above_cents.push_back(note.interval_cents);
    const std::vector<PlannedPlace> places =
        planned_places(log.history(), then, shop.aim, above_cents);
    REQUIRE(places.size() == 5);
    CHECK_FALSE(std::isfinite(places[4].reach_m));  // it is cut: nothing to plan
    Stage plan = log.history().stages.front();
    for (HoleNow& hole : plan.holes) hole.cut = true, hole.cutting = -1;
    for (std::size_t i = 0; i < 4; ++i) {
        CAPTURE(i);
        const std::size_t n = 5 - i;  // hole 1 tunes the highest note
        const Fingering& open = shop.aim.notes[n].open;
        const auto model = [&](double moved_m) {
            Stage stage = plan;
            stage.holes[i].at_m += moved_m;
            return note_model(log.history(), stage, open, shop.aim.play_C, then.before.mean,
                              above_cents[n], shop.aim.notes[n].target_Hz);
        };
        constexpr double kApart_m = 2e-4;
        const double slope =
            cents_between(model(kApart_m).frequency_Hz, model(-kApart_m).frequency_Hz) /
            (2.0 * kApart_m);
        const double reach_m = 3.0 * sigma_cents(model(0.0), then.before) / std::abs(slope);
        CHECK(places[i].at_m == planned[i].at_m);
        CHECK_THAT(places[i].reach_m, WithinRel(std::max(3e-3, reach_m), 0.02));
        CHECK(reach_m > 3e-3);  // else nothing was compared
    }
}

// A lowest note that floats takes the others with it: their intervals are what was planned, and how
// far these were unknown is how far a hole may go.
TEST_CASE("where the lowest note floats planned holes stay too", "[bench][planned][property]") {
    Dice dice(72);
    Workshop shop(dice);
    auto [planned, log] = planned_tube(shop);
    Aim floats = shop.aim;
    floats.lowest_free = true;
    std::vector<double> above_cents;
    for (const NoteTarget& note : shop.aim.notes) above_cents.push_back(note.interval_cents);
    // a first reading 60 cents below what was planned: all that was not known moves
    log.read({}, shifted_Hz(392.0, -60.0), 2.0, 20.0);
    const Estimate known = estimate(log.history(), Workshop::belief(), known_maker());
    const std::vector<PlannedPlace> fixed =
        planned_places(log.history(), known, shop.aim, above_cents);
    const std::vector<PlannedPlace> places =
        planned_places(log.history(), known, floats, above_cents);
    const Goal after = find_goal(log.history(), known, floats);
    for (std::size_t i = 0; i < planned.size(); ++i) {
        CAPTURE(i);
        REQUIRE(std::isfinite(places[i].reach_m));
        // what moves all notes alike is no doubt about an interval
        CHECK(places[i].reach_m <= fixed[i].reach_m);
        CHECK(std::abs(after.stage.holes[i].at_m - planned[i].at_m) <= places[i].reach_m + 1e-6);
    }
    // planned for other intervals: nothing is held
    for (NoteTarget& note : floats.notes) note.interval_cents *= 1.3;
    for (double& cents : above_cents) cents *= 1.3;
    for (const PlannedPlace& place : planned_places(log.history(), known, floats, above_cents))
        CHECK_FALSE(std::isfinite(place.reach_m));
}

}  // namespace canewright::planned_reach_test

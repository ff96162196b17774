// tests/core/bench/cuts_test.cpp: what the log says of a note, sizes nobody measured, and cuts by
// measure, against small sums.
#include "core/bench/cuts.hpp"

#include <catch2/catch.hpp>

#include "core/bench/make_step.hpp"
#include "tests/core/bench/workshop.hpp"

namespace canewright::cuts_test {  // its own where tests are compiled together

using Catch::WithinAbs;
using Catch::WithinRel;
using testing::Dice;
using testing::Workshop;

// Rules of readings.hpp, counted by hand.
TEST_CASE("readings belong to a note and to its hole as it is", "[bench][by_hand]") {
    CHECK(own_hole({}) == -1);
    CHECK(own_hole({5}) == 4);
    CHECK(own_hole({5, 3, 4}) == 2);
    Dice dice(63);
    Workshop shop(dice);
    CHECK(note_of(shop.aim, 4) == 1);
    CHECK(note_of(shop.aim, 0) == 5);
    CHECK(note_of(shop.aim, -1) == 0);
    CHECK(note_of(shop.aim, 7) == -1);
    // of two notes with the same own hole the lower one tunes it
    shop.aim.notes.push_back({{1, 3}, 1150.0, 0.0});
    CHECK(note_of(shop.aim, 0) == 6);
    shop.aim.notes.back().interval_cents = 1250.0;
    CHECK(note_of(shop.aim, 0) == 5);

    Builder& log = shop.log();
    const auto hear = [&](const Fingering& open) {
        log.read(open, shop.true_Hz(open, 20.0), 3.0, 20.0);
    };
    log.foot(0.39, 1e-4);
    hear({}), hear({});
    CHECK(feet_heard(shop.history()) == 1);
    log.foot(0.38, 1e-4);
    CHECK(feet_heard(shop.history()) == 1);
    hear({});
    CHECK(feet_heard(shop.history()) == 2);
    CHECK(playable(shop.history().now(), {}));
    CHECK_FALSE(playable(shop.history().now(), {5}));
    log.hole(5, 0.3, 5e-3);
    CHECK(playable(shop.history().now(), {5}));
    hear({5});
    log.hole(4, 0.27, 5e-3);  // another hole: the reading of {5} still stands
    const auto count = [&](const Fingering& open, int after) {
        return read_of(shop.history(), shop.known(), open, own_hole(open), after).all();
    };
    CHECK(count({5}, -1) == 1);
    CHECK(count({}, -1) == 1);  // since the last saw cut
    hear({}), hear({5});
    CHECK(count({5}, -1) == 2);
    CHECK(count({}, -1) == 2);
    CHECK(count({5}, 8) == 1);  // entries: foot, two readings, foot, one, hole, one, hole, two
    CHECK(count({5}, 9) == 1);
    CHECK(count({5}, 10) == 0);
    log.hole(5, 0.3, 5.3e-3);
    CHECK(count({5}, -1) == 0);
    log.foot_plug(14e-3, 4e-3);
    CHECK(count({}, -1) == 0);
    log.block_moved();
    CHECK(count({4, 5}, -1) == 0);
    CHECK(feet_heard(shop.history()) == 0);
}

// Rules of builder.hpp, by hand: what nobody measured, and undercutting.
TEST_CASE("sizes that nobody measured, by hand", "[bench][by_hand][analytic]") {
    const double place_m = 0.15 * 0.3e-3;  // a steel rule read by eye (common practice)
    std::vector<FingerHole> planned(3);
    planned[1].at_m = 0.25, planned[1].diameter_m = 7e-3;
    const std::vector<NoteTarget> notes = {
        {{}, 100.0, 0.0}, {{3}, 300.0, 0.0}, {{2, 3}, 500.0, 0.0}, {{1, 2, 3}, 800.0, 0.0}};
    Builder log(testing::plain_tube(17e-3, 3e-3, 0.44), AirState{}, planned, notes, Measures{});
    const auto hole = [&](int number) {
        return log.history().now().holes[static_cast<std::size_t>(number - 1)];
    };
    log.hole(2, 0.26, std::nullopt);  // as planned, where it was drilled
    CHECK(hole(2).at_m == 0.26);
    CHECK_THAT(hole(2).diameter_m, WithinRel(7e-3, 1e-12));
    CHECK_THAT(hole(2).size_sigma_m, WithinRel(std::hypot(0.7e-3, place_m), 1e-12));
    log.hole(2, 0.27, std::nullopt);  // opened by a usual share, its place stays
    CHECK(hole(2).at_m == 0.26);
    CHECK_THAT(hole(2).diameter_m, WithinRel(1.06 * 7e-3, 1e-12));
    log.hole(3, 0.3, std::nullopt);  // no plan either: four tenths of the bore
    CHECK_THAT(hole(3).diameter_m, WithinRel(0.4 * 17e-3, 1e-12));
    log.hole(1, 0.2, 5e-3);
    CHECK_THAT(hole(1).size_sigma_m, WithinRel(std::hypot(0.05e-3, place_m), 1e-12));
    log.hole(1, 0.2, 5.5e-3);
    CHECK_THAT(hole(1).size_sigma_m, WithinRel(std::hypot(0.15e-3, place_m), 1e-12));
    const double before_m = hole(1).size_sigma_m;
    log.undercut(1);
    CHECK_THAT(hole(1).flare, WithinRel(1.12, 1e-12));
    CHECK_THAT(hole(1).size_sigma_m, WithinRel(std::hypot(before_m, 0.06 * 5.5e-3), 1e-12));
    const Flute flute = flute_at(log.history(), log.history().now());
    CHECK_THAT(flute.holes[0].inner_diameter_m, WithinRel(1.12 * 5.5e-3, 1e-12));
    CHECK(flute.holes[0].wall_m == 3e-3);
    CHECK(hole(1).times_cut == 2);
    log.narrow(1, std::nullopt);
    CHECK_THAT(hole(1).diameter_m, WithinRel(0.94 * 5.5e-3, 1e-12));
    CHECK(hole(1).flare == 1.0);
    CHECK(hole(1).times_cut == 1);
    CHECK_THAT(hole(1).size_sigma_m, WithinRel(std::hypot(0.1 * 0.94 * 5.5e-3, place_m), 1e-12));
    CHECK(over_cut_holes(log.history().now(), {1, 2, 3}) == Fingering{1, 2, 3});
}

// Reference  cuts.hpp: a bit is so much too small that the drill's own error (0.07 mm) and the
//            note's doubt, at the risk's share, do not go too far; 12 cents at least.
TEST_CASE("a drilled hole leaves what doubt demands", "[bench][by_hand][analytic]") {
    const double risk = GENERATE(0.3, 0.05, 1e-7);
    CAPTURE(risk);
    Dice dice(64);
    Workshop shop(dice);
    shop.aim.shop.bits_m.clear();
    shop.aim.risk = risk;
    shop.log().foot(0.365, 1e-5);
    for (int n = 0; n < 4; ++n) shop.log().read({}, 392.0, 0.3, 20.0);
    const Estimate known = shop.known();
    const Goal goal = find_goal(shop.history(), known, shop.aim);
    const Cuts cuts(shop.history(), known, shop.aim, goal);
    const StepMaker make(shop.history(), known, shop.aim, goal, cuts);
    const Step step = make.drill(4, 1);
    REQUIRE(step.diameter_m);
    CHECK(step.at_m == goal.stage.holes[4].at_m);
    const auto with_hole_Hz = [&](double diameter_m) {
        Stage stage = shop.history().now();
        stage.holes[4] = goal.stage.holes[4];
        stage.holes[4].diameter_m = diameter_m;
        return cuts.Hz(stage, 1, 20.0);
    };
    const double goal_m = goal.stage.holes[4].diameter_m;
    const double per_m =
        cents_between(with_hole_Hz(goal_m + 1e-5), with_hole_Hz(goal_m - 1e-5)) / 2e-5;
    CHECK_THAT(
        step.expect_cents,
        WithinAbs(cents_between(with_hole_Hz(*step.diameter_m), with_hole_Hz(goal_m)), 1e-3));
    const double by_size =
        cents_between(with_hole_Hz(*step.diameter_m + 0.07e-3), with_hole_Hz(*step.diameter_m));
    CHECK(step.sigma_cents > by_size);
    Stage drilled = shop.history().now();
    drilled.holes[4] = goal.stage.holes[4];
    drilled.holes[4].diameter_m = *step.diameter_m;
    const double unknown = sigma_cents(
        note_model(shop.history(), drilled, {5}, 20.0, known.belief.mean, 300.0), known.belief);
    CHECK_THAT(step.sigma_cents, WithinRel(std::hypot(unknown, by_size), 2e-3));
    CHECK(step.overshoot < risk / 12.0);
    // sawn short of where it shall be it is flat, beyond it sharp: by measure and by chance
    const Step back_off = make.saw(goal.stage.foot_m + 5e-3, Why::saw_long);
    const Step beyond = make.saw(goal.stage.foot_m - 5e-3, Why::saw_long);
    CHECK(back_off.overshoot < 0.01);
    CHECK(beyond.overshoot > 0.5);
    CHECK(beyond.expect_cents > back_off.expect_cents);
    // on the slope at the goal: the note's own doubt from the belief, the drill's from its error
    Stage stage = shop.history().now();
    stage.holes[4] = goal.stage.holes[4];
    stage.holes[4].cutting = -1;
    const double doubt = std::hypot(
        sigma_cents(note_model(shop.history(), stage, {5}, 20.0, known.belief.mean, 300.0),
                    known.belief),
        per_m * 0.07e-3);
    const double back = std::max(12.0, cuts.safe_sigmas() * doubt);
    CHECK_THAT(goal_m - *step.diameter_m, WithinRel(std::min(back / per_m, 0.6 * goal_m), 5e-3));
}

TEST_CASE("the largest bit that is small enough", "[bench][by_hand]") {
    Dice dice(65);
    Workshop shop(dice);
    shop.aim.shop.bits_m = {4e-3, 6e-3, 5e-3};
    const Estimate known = shop.known();
    const Goal goal = find_goal(shop.history(), known, shop.aim);
    const Cuts cuts(shop.history(), known, shop.aim, goal);
    CHECK(cuts.bit_m(5.5e-3) == 5e-3);
    CHECK(cuts.bit_m(5e-3) == 5e-3);
    CHECK(cuts.bit_m(9e-3) == 6e-3);
    CHECK_FALSE(cuts.bit_m(3.9e-3));
}

// Reference  the belief's own slopes (sigma_cents of note_model), asked for anew.
TEST_CASE("a step by ear says how sure its note is, now and when it is opened",
          "[bench][by_hand]") {
    Dice dice(66);
    Workshop shop(dice);
    shop.log().foot(0.365, 1e-4);
    shop.log().read({}, 392.0, 3.0, 20.0);
    shop.log().hole(5, 0.3, 5e-3);
    shop.log().read({5}, 440.0, 3.0, 20.0);
    const Estimate known = shop.known();
    const Goal goal = find_goal(shop.history(), known, shop.aim);
    const Cuts cuts(shop.history(), known, shop.aim, goal);
    const StepMaker make(shop.history(), known, shop.aim, goal, cuts);
    const Step step = make.by_ear(1, 4);
    REQUIRE(step.until);
    const double now = sigma_cents(
        note_model(shop.history(), shop.history().now(), {5}, 20.0, known.belief.mean, 300.0),
        known.belief);
    CHECK(now > 1.0);
    CHECK_THAT(step.until->now_sigma_cents, WithinRel(now, 0.02));
    CHECK(step.until->moment_cents == cuts.moment_sigma_cents());
    CHECK(step.sigma_cents == cuts.opened_sigma_cents(1));
    CHECK(step.sigma_cents > 1.0);
}

}  // namespace canewright::cuts_test

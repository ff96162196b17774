// tests/core/bench/order_test.cpp: when a flute is finished, what is heard again, what is rescued.
#include <catch2/catch.hpp>
#include <functional>

#include "core/bench/cuts.hpp"
#include "tests/core/bench/workshop.hpp"

namespace canewright::order_test {  // its own where tests are compiled together
namespace {

using Catch::WithinAbs;
using Catch::WithinRel;
using testing::Dice;
using testing::Workshop;

// A flute cut as its plan says, each note read often and well, so many cents off its target.
struct CutFlute {
    Dice dice{51};
    Workshop shop{dice};
    explicit CutFlute(const std::vector<double>& off_cents, int readings = 4, int last_hole = 1) {
        const Goal goal = find_goal(shop.history(), shop.known(), shop.aim);
        shop.log().foot(goal.stage.foot_m);
        for (int number = 5; number >= last_hole; --number) {
            const HoleNow& hole = goal.stage.holes[static_cast<std::size_t>(number - 1)];
            shop.log().hole(number, hole.at_m, hole.diameter_m);
        }
        for (std::size_t n = 0; n < off_cents.size(); ++n)
            for (int each = 0; each < readings; ++each) read(n, off_cents[n]);
    }
    void read(std::size_t note, double off_cents) {
        const NoteTarget& target = shop.aim.notes[note];
        shop.log().read(target.open, shifted_Hz(target.target_Hz, off_cents), 0.3, shop.aim.play_C);
    }
    Step next() const { return next_step(shop.history(), shop.known(), shop.aim); }
};

// The target is the reference: a note read so far off is so far off. Tolerance  what prior and
// neighbours pull, with four readings of a third of a cent.
TEST_CASE("a note is off by what was read", "[bench][order][property]") {
    const CutFlute flute({0.0, 0.0, -3.0, 0.0, 2.0, 0.0});
    const Step step = flute.next();
    const double off_cents[] = {0.0, 0.0, -3.0, 0.0, 2.0, 0.0};
    for (std::size_t n = 0; n < 6; ++n) {
        CAPTURE(n);
        CHECK_THAT(step.notes[n].now_cents, WithinAbs(off_cents[n], 0.6));
    }
}

// The finish line: within it every note is left alone; at a nearer one three cents flat gets a last
// touch. Beyond the usual one it does as well.
TEST_CASE("what is within the finish line is left alone", "[bench][order]") {
    CHECK(CutFlute({0, 0, 0, 0, 0, 0}).next().what == Do::done);
    CHECK(CutFlute({-3.2, 2, 3, -3, -2, 3}).next().what == Do::done);
    for (int note = 0; note <= 5; ++note) {
        CAPTURE(note);
        std::vector<double> off(6, 0.0);
        off[static_cast<std::size_t>(note)] = -7.5;
        const Step step = CutFlute(off).next();
        CHECK(step.what == (note == 0 ? Do::foot : Do::hole));
        CHECK(step.why == Why::last_touch);
        if (note > 0) CHECK(step.number == 6 - note);
        CutFlute enough(off);
        enough.shop.aim.good_enough_cents = 9.0;
        CHECK(enough.next().what == Do::done);
    }
    CutFlute near({0, 0, -4.7, 0, 0, 0});
    CHECK(near.next().what == Do::done);
    near.shop.aim.good_enough_cents = 2.0;
    CHECK(near.next().why == Why::last_touch);
}

// Two makers, two cents flat everywhere as far as they know, with the same readings of this flute.
// Of another voice, which tells nothing of it, one had read well and one badly: where the next
// reading would hardly move what is believed it is not asked for.
TEST_CASE("who reads badly is not asked to read on", "[bench][order]") {
    const auto next_of = [](double read_before_cents) {
        CutFlute flute({}, 0);
        Workshop& shop = flute.shop;
        for (int n = 0; n < 10; ++n)
            shop.log().read({}, shop.aim.notes[0].target_Hz, read_before_cents, shop.aim.play_C);
        shop.log().block_moved();
        for (const NoteTarget& note : shop.aim.notes)
            shop.log().read(note.open, shifted_Hz(note.target_Hz, -2.0), 4.0, shop.aim.play_C);
        return flute.next();
    };
    const Step well = next_of(0.5), badly = next_of(15.0);
    CHECK_THAT(well.notes[2].sigma_cents, WithinRel(badly.notes[2].sigma_cents, 1e-9));
    CHECK_THAT(well.notes[2].now_cents, WithinAbs(badly.notes[2].now_cents, 1e-9));
    CHECK(well.what == Do::read);
    CHECK(badly.what == Do::done);
}

// One note seems 6 cents sharp, by one reading of a maker whose readings lie wide apart: nothing
// can be opened for it, and one more reading would not have it rescued; two may.
TEST_CASE("a note that may be too sharp is heard again before all is called done",
          "[bench][order]") {
    CutFlute flute({}, 0);
    const HoleNow hole = flute.shop.history().now().holes[2];
    flute.shop.log().hole(3, hole.at_m, hole.diameter_m, 1e-3);  // opened, and badly measured
    for (int each = 0; each < 4; ++each)
        for (const std::size_t n : {0U, 1U, 2U, 4U, 5U}) flute.read(n, 0.0);
    const NoteTarget& third = flute.shop.aim.notes[3];
    flute.shop.log().read(third.open, shifted_Hz(third.target_Hz, 8.5), 5.0, flute.shop.aim.play_C);
    const Step step = flute.next();
    CAPTURE(step.notes[3].now_cents, step.notes[3].sigma_cents);
    CHECK(step.what == Do::read);
    CHECK(step.why == Why::hear_note);
    CHECK(step.open == Fingering{3, 4, 5});
    CHECK(step.prospect.steps_left >= 1);
}

// A maker logged hole 3 far too sharp, holes 2 and 1 not yet drilled: nothing else comes first.
TEST_CASE("a cut too far is rescued before any other cut", "[bench][order]") {
    CutFlute flute({}, 0);
    Workshop shop(flute.dice);
    const Goal goal = find_goal(shop.history(), shop.known(), shop.aim);
    shop.log().foot(goal.stage.foot_m);
    const auto read = [&](std::size_t note, double off_cents) {
        shop.log().read(shop.aim.notes[note].open,
                        shifted_Hz(shop.aim.notes[note].target_Hz, off_cents), 2.0, 20.0);
    };
    for (int n = 0; n < 2; ++n) read(0, -4.0);
    for (const int number : {5, 4, 3}) {
        const HoleNow& hole = goal.stage.holes[static_cast<std::size_t>(number - 1)];
        shop.log().hole(number, hole.at_m, hole.diameter_m + (number == 3 ? 1.5e-3 : 0.0));
        read(static_cast<std::size_t>(6 - number), number == 3 ? 24.0 : -1.0);
    }
    const Step step = next_step(shop.history(), shop.known(), shop.aim);
    CHECK(step.what == Do::rescue);
    CHECK(step.why == Why::too_sharp_hole);
    CHECK(step.number == 3);
}

// Where a note lies: the lowest 6 cents flat, all well known; a finish line nearer than that is
// reached with about as many steps as there are notes beyond it.
TEST_CASE("where one stands is said", "[bench][order]") {
    const Prospect done = CutFlute({0, 0, 0, 0, 0, 0}).next().prospect;
    CHECK(done.all_cut);
    CHECK(done.steps_left == 0);
    CHECK(done.within_cents < 3.0);
    CHECK(done.chance > 0.95);
    const Prospect two = CutFlute({0, -7, 0, -7, 0, 0}).next().prospect;
    CHECK_THAT(two.within_cents, WithinAbs(7.5, 1.0));
    CHECK(two.steps_left >= 2);
    CHECK(two.steps_left <= 4);
    Dice dice(54);
    Workshop begun(dice);
    const Prospect first = next_step(begun.history(), begun.known(), begun.aim).prospect;
    CHECK_FALSE(first.all_cut);
    CHECK(first.steps_left >= 5 + 5 + 4);  // drilled, opened, and the foot with its readings
    CHECK(first.steps_left < 30);
}

// Openings that ended low, one after another: who stops when the meter first shows it. The next
// mark is higher by a part of that; it is said.
TEST_CASE("a maker who stops low gets a higher mark", "[bench][order][property]") {
    const auto allowance = [](double off_cents) {
        CutFlute flute({off_cents, off_cents, off_cents, off_cents, off_cents, off_cents});
        for (int number = 5; number >= 1; --number) {
            const HoleNow hole =
                flute.shop.history().now().holes[static_cast<std::size_t>(number - 1)];
            flute.shop.log().hole(number, hole.at_m, hole.diameter_m);
            flute.read(static_cast<std::size_t>(6 - number), off_cents);
        }
        const Estimate known = flute.shop.known();
        const Goal goal = find_goal(flute.shop.history(), known, flute.shop.aim);
        const Cuts cuts(flute.shop.history(), known, flute.shop.aim, goal);
        CHECK(cuts.stop(3, 2).allowance_cents == cuts.stop_allowance_cents());
        return cuts.stop_allowance_cents();
    };
    CHECK(allowance(-6.0) > 2.0);
    CHECK(allowance(-6.0) < 5.0);
    CHECK(allowance(2.0) == 0.0);
}

// The pitch of a note from which on it is rescued, as believed, in standard deviations below the
// tolerance. `next_of`: the step where the note of hole 3 was read so far off.
double sigmas_to_rescue(const std::function<Step(double)>& next_of) {
    double left = 2.0, rescued = 14.0;
    for (int n = 0; n < 12; ++n) {
        const double middle = 0.5 * (left + rescued);
        const Step step = next_of(middle);
        (step.what == Do::rescue ? rescued : left) = middle;
        if (step.what != Do::rescue) continue;
        // said to be so only where it is: one standard deviation beyond the tolerance
        const Forecast& note = step.notes[3];
        CHECK(step.why == (note.now_cents - note.sigma_cents > 10.0 ? Why::too_sharp_hole
                                                                    : Why::likely_sharp_hole));
        CHECK(step.number == 3);
    }
    const Forecast& note = next_of(rescued).notes[3];
    return (10.0 - note.now_cents) / note.sigma_cents;
}

// Reference  a quarter of a normal distribution lies above 0.6745 standard deviations, a twelfth
//            above 1.3830 (tables): while there are holes to cut a note is rescued where it is as
//            likely as that too sharp; once all are, where narrowing's minutes are such a part of a
//            flute's (worth.hpp: 20 of 240; a note opened anew is hardly ever beyond).
TEST_CASE("a note that is one in four too sharp is rescued", "[bench][order][analytic]") {
    CHECK_THAT(sigmas_to_rescue([](double off_cents) {
                   return CutFlute({0, 0, 0, off_cents}, 4, 3).next();
               }),
               WithinAbs(0.6745, 0.02));
}

TEST_CASE("on a flute that is all cut, one in twelve", "[bench][order][analytic]") {
    CHECK_THAT(sigmas_to_rescue([](double off_cents) {
                   return CutFlute({0, 0, 0, off_cents, 0, 0}).next();
               }),
               WithinAbs(1.3830, 0.02));
}

// The order's own rule: only what is heard after the drying is of the finished flute. The ends of
// the scale are heard again, and nothing else where nothing is in doubt.
TEST_CASE("after drying the ends of the scale are heard anew", "[bench][order]") {
    CutFlute flute({0, 0, 0, 0, 0, 0});
    flute.shop.aim.needs_drying = true;
    CHECK(flute.next().what == Do::wait);
    flute.shop.log().sealed();
    const Step top = flute.next();
    CHECK(top.what == Do::read);
    CHECK(top.why == Why::hear_note);
    CHECK(top.open == Fingering{1, 2, 3, 4, 5});
    flute.read(5, 0.0);
    const Step low = flute.next();
    CHECK(low.what == Do::read);
    CHECK(low.open.empty());
    flute.read(0, 0.0);
    CHECK(flute.next().what == Do::done);
}

// A hole that is surely flat is opened at once, blowing comes with it; one that may be right is
// heard first.
TEST_CASE("a hole is heard before it is opened, unless it is surely flat", "[bench][order]") {
    const auto after_drilling = [](double smaller_m) {
        CutFlute flute({}, 0);
        Workshop shop(flute.dice);
        const Goal goal = find_goal(shop.history(), shop.known(), shop.aim);
        shop.log().foot(goal.stage.foot_m, 1e-5);
        for (int n = 0; n < 4; ++n) shop.log().read({}, shop.aim.notes[0].target_Hz, 0.3, 20.0);
        const HoleNow& hole = goal.stage.holes[4];
        shop.log().hole(5, hole.at_m, hole.diameter_m - smaller_m);
        return next_step(shop.history(), shop.known(), shop.aim);
    };
    const Step flat = after_drilling(2.5e-3), near = after_drilling(0.2e-3);
    CHECK(flat.what == Do::hole);
    CHECK(flat.why == Why::open_by_ear);
    CHECK(near.what == Do::read);
    CHECK(near.why == Why::hear_note);
}

// Reference  next_step.hpp: the accepted risk is shared evenly over all cuts to come; a note has
// two
//            (a drilled or sawn one, one by ear), so twelve for six notes. Gaussian tail by erfc.
TEST_CASE("every cut keeps to its share of the risk", "[bench][order][analytic]") {
    Dice dice(52);
    Workshop shop(dice);
    for (const double risk : {0.01, 0.05, 0.2}) {
        CAPTURE(risk);
        shop.aim.risk = risk;
        const Estimate known = shop.known();
        const Goal goal = find_goal(shop.history(), known, shop.aim);
        const Cuts cuts(shop.history(), known, shop.aim, goal);
        CHECK_THAT(12.0 * 0.5 * std::erfc(cuts.safe_sigmas() / std::sqrt(2.0)),
                   WithinRel(risk, 1e-6));
        // ten cents of tolerance, five of doubt, expected in tune: two standard deviations
        CHECK_THAT(cuts.overshoot(0.0, 5.0), WithinAbs(0.5 * std::erfc(std::sqrt(2.0)), 1e-9));
    }
}

// A tube trimmed by measure keeps the risk's share: so far from the goal that, with the doubt of
// its own forecast, going too far is as unlikely as the share.
TEST_CASE("the trim leaves as many cents as doubt demands", "[bench][order][analytic]") {
    Dice dice(53);
    Workshop shop(dice);
    shop.saw(0.400);
    shop.hear({});
    const Step trim = next_step(shop.history(), shop.known(), shop.aim);
    REQUIRE(trim.why == Why::trim_foot);
    Stage sawn = trim.goal.stage;
    sawn.foot_m = trim.at_m;
    const Eigen::VectorXd mean = shop.known().belief.mean;
    const double left_cents =
        cents_between(note_Hz(shop.history(), trim.goal.stage, {}, 20.0, mean, 0.0),
                      note_Hz(shop.history(), sawn, {}, 20.0, mean, 0.0));
    const double share = 0.5 * std::erfc(left_cents / trim.sigma_cents / std::sqrt(2.0));
    CAPTURE(left_cents, trim.sigma_cents);
    CHECK(share < 1.1 * shop.aim.risk / 12.0);
    if (left_cents > 10.5) CHECK(share > 0.5 * shop.aim.risk / 12.0);
}

}  // namespace
}  // namespace canewright::order_test

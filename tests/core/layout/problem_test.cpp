// tests/core/layout/problem_test.cpp: what the walk to a layout stands on: slopes, aims, the first
// guess, and by how much limits that leave no room give way.
#include "core/layout/problem.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "tests/support/layouts.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;

namespace {

// Difference quotients of the notes' errors, each found from below to 1e-12: four points, so that
// what they neglect goes with the fourth power of the way (textbook).
Eigen::VectorXd errors_grow(Problem& problem, const Eigen::VectorXd& x, Eigen::Index number) {
    constexpr double kWide = 1e-3;
    const auto errors = [&](double steps) {
        Eigen::VectorXd y = x;
        y(number) += steps * kWide;
        return problem.sound(y, {}, true).errors_cents;
    };
    return (8.0 * (errors(1.0) - errors(-1.0)) - (errors(2.0) - errors(-2.0))) / (12.0 * kWide);
}

}  // namespace

// Cones, a ridge, an undercut and a disc besides the plain tube; far from the notes and near them.
TEST_CASE("a slope is what the errors do", "[layout][problem]") {
    for (int n = 0; n < 4; ++n) {
        LayoutTask task = easy_task();
        if (n == 1)
            task.flute.bore = {
                {0.0, 0.0125, 0.0125}, {0.1, 0.0121, 0.0121}, {0.25, 0.0123, 0.0123}};
        if (n == 2) task.flute.ridge = Ridge{0.1, 0.010, 2e-3};
        if (n == 3) task.flute.foot_plug = FootPlug{0.010, 3e-3};
        if (n == 3) task.lowest_free = true;
        if (n == 3) task.flute.foot_m = 0.24;
        Problem problem(task, played_air());
        Flute guess = problem.first_guess(0.35);
        if (n == 2) guess.holes[2].inner_diameter_m *= 1.1;
        const Eigen::VectorXd x = problem.numbers(guess);
        Sound here = problem.sound(x, {}, true);
        REQUIRE(here.speaks);
        const Eigen::MatrixXd slopes = problem.slopes(x, here);
        for (Eigen::Index i = 0; i < problem.size(); ++i) {
            const Eigen::VectorXd change = errors_grow(problem, x, i);
            for (Eigen::Index k = 0; k < change.size(); ++k) {
                CAPTURE(n, i, k, change(k));
                const double most = slopes.row(k).cwiseAbs().maxCoeff();
                CHECK_THAT(slopes(k, i), WithinAbs(change(k), kSlopesError * most + 1e-7));
            }
        }
    }
}

// Its own, and a second a hair beside it where none was asked for before, whatever may move.
TEST_CASE("slopes cost one impedance a note or two", "[layout][problem]") {
    const LayoutTask task = easy_task();
    Problem problem(task, played_air());
    const Eigen::VectorXd x = problem.numbers(problem.first_guess(0.35));
    Sound here = problem.sound(x, {});
    const long before = problem.evaluations();
    problem.slopes(x, here);
    const long notes = static_cast<long>(task.notes.size());
    CHECK(problem.evaluations() - before >= notes);
    CHECK(problem.evaluations() - before < 2 * notes);
}

TEST_CASE("an aim beside a note counts as none", "[layout][problem]") {
    const LayoutTask task = easy_task();
    Problem plain(task, played_air());
    const Eigen::VectorXd x = plain.numbers(plain.first_guess(0.35));
    const Eigen::VectorXd errors = plain.sound(x, {}).errors_cents;
    Rules rules;
    rules.aim_cents = {3.0, -4.0};  // of the first two; the others have none
    Problem aimed(task, played_air(), rules);
    const Eigen::VectorXd left = aimed.sound(x, {}).errors_cents;
    REQUIRE(left.size() == errors.size());
    CHECK_THAT(errors(0) - left(0), WithinAbs(3.0, 1e-9));
    CHECK_THAT(errors(1) - left(1), WithinAbs(-4.0, 1e-9));
    for (Eigen::Index k = 2; k < left.size(); ++k)
        CHECK_THAT(errors(k) - left(k), WithinAbs(0.0, 1e-9));
}

// One open hole and the end below it (Benade 1960, J. Acoust. Soc. Am. 32, 1591) neglects the holes
// above, the losses and the open tube's own end; on an easy tube that is a few per cent of the
// length (computed here, no published figure). The walk has to begin near.
TEST_CASE("the first guess lies near the answer", "[layout][problem]") {
    const LayoutTask task = easy_task();
    const LayoutResult answer = place_holes(task, played_air());
    REQUIRE(answer.converged);
    Problem problem(task, played_air());
    const double size = answer.flute.holes[2].diameter_m / bore_diameter_m(task.flute.bore, 0.2);
    const Flute guess = problem.first_guess(size);
    for (std::size_t i = 0; i < guess.holes.size(); ++i) {
        CAPTURE(i, guess.holes[i].at_m, answer.flute.holes[i].at_m);
        CHECK_THAT(guess.holes[i].at_m,
                   WithinAbs(answer.flute.holes[i].at_m, 0.015 * answer.flute.foot_m));
    }
    CHECK_THAT(guess.foot_m, WithinAbs(answer.flute.foot_m, 0.01 * answer.flute.foot_m));
}

// Five holes that must lie 30 mm apart with the foot held where 60 mm are left: the four distances
// ask for 120 mm, and what gives way does so alike. The least give is reckoned by hand.
TEST_CASE("limits that leave no room give way by no more than they must", "[layout][problem]") {
    LayoutTask task = easy_task();
    task.shop.spacing_min_m = 0.030;
    task.flute.holes = place_holes(easy_task(), played_air()).flute.holes;
    FingerHole& first = task.flute.holes.front();
    FingerHole& last = task.flute.holes.back();
    first.at_fixed = last.at_fixed = true;
    last.at_m = first.at_m + 0.100;
    Problem problem(task, played_air());
    const Eigen::VectorXd x = problem.numbers(task.flute);
    // 4 distances of 25 mm where 30 are wanted
    CHECK_THAT(problem.give_needed_m(x), WithinAbs(0.005, 2e-6));
    last.at_m = first.at_m + 0.130;
    Problem roomy(task, played_air());
    CHECK(roomy.give_needed_m(roomy.numbers(task.flute)) == 0.0);
}

// A size that is held is a reason as a held place is.
TEST_CASE("a held size alone is named", "[layout][problem]") {
    LayoutTask task = easy_task();
    task.shop.spacing_max_m = 0.030;
    task.flute.holes = place_holes(task, played_air()).flute.holes;
    LayoutTask loose = task;
    FingerHole& held = task.flute.holes[2];
    held.diameter_m = held.inner_diameter_m = 0.0015;
    held.diameter_fixed = true;
    const LayoutResult r = place_holes(task, played_air());
    CAPTURE(r.errors_cents);
    REQUIRE(r.worst_cents > 3.0);
    REQUIRE(place_holes(loose, played_air()).worst_cents < 0.1);
    const Binding* fixed = binding(r, Limit::fixed);
    REQUIRE(fixed != nullptr);
    CHECK(fixed->hole == 2);
}

// tests/core/layout/builds_test.cpp: many builds of the full model against linear propagation.
#include "core/layout/builds.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <ctime>
#include <string>

#include "core/base/noise.hpp"
#include "core/base/units.hpp"
#include "core/flute/resonance.hpp"
#include "tests/core/layout/by_hand.hpp"
#include "tests/support/figures.hpp"
#include "tests/support/spreads.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {

constexpr int kFlutes = 50;
constexpr std::uint64_t kSeed = 5;

}  // namespace

// Reference  the flute of each build solved anew with all its errors at once.
// Tolerance  the README's figures for small errors and for the defaults, on the same errors for
// both
//            sides. What is left of chance is the sample's mean, z^2 / (2 n) with z at most 3.5.
TEST_CASE("linear and simulated standard deviations agree", "[builds][property][sweep]") {
    constexpr int kSome = 5;
    constexpr double kBuilds = 600.0, kChance = 3.5 * 3.5 / (2.0 * kBuilds);
    Dice dice(31);
    for (int n = 0; n < kSome; ++n) {
        CAPTURE(n);
        const SpreadTask usual = random_spread(dice);
        for (const bool small : {true, false}) {
            CAPTURE(small);
            const SpreadTask task = small ? with_small_errors(usual) : usual;
            const double percent = figure(small ? "spread_small" : "spread_usual").most();
            const Spread linear = spread(task);
            const BuildSums sums = run_builds(task, linear, 0, static_cast<long>(kBuilds), kSeed);
            CHECK(sums.builds == static_cast<long>(kBuilds));
            if (small) CHECK(sums.failed == 0);
            for (std::size_t k = 0; k < task.open.size(); ++k) {
                CHECK_THAT(sums.over_linear(k), WithinRel(1.0, 0.01 * percent + kChance));
                CHECK_THAT(sums.over_linear(k), WithinRel(1.0, kLinearError));
            }
        }
    }
}

// The README's figures: 10,000 builds against the linear standard deviation itself, nothing shared.
// Tolerance  those figures (this seed's, the sample's own scatter of 0.7 % in them).
TEST_CASE("linear and simulated standard deviations agree on 10,000 builds",
          "[builds][property][.long]") {
    for (const bool small : {true, false}) {
        Dice dice(32);
        double worst = 0.0;
        long failed = 0;
        for (int n = 0; n < kFlutes; ++n) {
            CAPTURE(small, n);
            const SpreadTask usual = random_spread(dice);
            const SpreadTask task = small ? with_small_errors(usual) : usual;
            const Spread linear = spread(task);
            const BuildSums sums = run_builds(task, linear, 0, 10000, kSeed);
            failed += sums.failed;
            for (std::size_t k = 0; k < task.open.size(); ++k) {
                const double ratio = sums.sigma_cents(k) / linear.notes[k].sigma_cents;
                worst = std::max(worst, std::abs(ratio - 1.0));
                CHECK_THAT(ratio, WithinRel(1.0, kLinearError));
                CHECK_THAT(sums.mean_cents(k), WithinAbs(0.0, 0.1 * linear.notes[k].sigma_cents));
            }
            for (std::size_t i = 0; i < kWithin_cents.size(); ++i)
                CHECK_THAT(sums.share_within(i), WithinAbs(linear.within[i], 3.0 * kShareError));
        }
        CHECK(100.0 * worst <= figure(small ? "spread_small" : "spread_usual").most());
        if (small) CHECK(failed == 0);
        WARN((small ? "small" : "usual")
             << " errors: largest departure of a note's standard "
             << "deviation: " << 100.0 * worst << " %, " << failed << " builds without a flute");
    }
}

// Tolerance  five standard errors of a standard deviation from 1500 builds, 1 / sqrt(2 n) each,
//            and the departure from linear that the shares of variance leave (1 %).
TEST_CASE("the sample's own deviation is the linear one", "[builds][property]") {
    SpreadTask task = with_small_errors(easy_spread());
    const Spread linear = spread(task);
    const long builds = 1500;
    const BuildSums sums = run_builds(task, linear, 0, builds, kSeed);
    const double error = 5.0 / std::sqrt(2.0 * static_cast<double>(builds)) + 0.01;
    for (std::size_t k = 0; k < task.open.size(); ++k)
        CHECK_THAT(sums.sigma_cents(k), WithinRel(linear.notes[k].sigma_cents, error));
}

TEST_CASE("pieces add up to the whole", "[builds][property]") {
    const SpreadTask task = easy_spread();
    const Spread linear = spread(task);
    const BuildSums whole = run_builds(task, linear, 0, 50, kSeed);
    BuildSums sum = run_builds(task, linear, 0, 13, kSeed);
    sum.add(run_builds(task, linear, 13, 14, kSeed));
    sum.add(run_builds(task, linear, 14, 50, kSeed));
    CHECK(sum.builds == whole.builds);
    CHECK(sum.within == whole.within);
    CHECK(sum.worst_linear_cents == whole.worst_linear_cents);
    for (std::size_t k = 0; k < task.open.size(); ++k) {
        CHECK_THAT(sum.mean_cents(k), WithinAbs(whole.mean_cents(k), 1e-12));
        CHECK_THAT(sum.sigma_cents(k), WithinRel(whole.sigma_cents(k), 1e-12));
    }
    CHECK(run_builds(task, linear, 0, 50, kSeed + 1).notes[0].cents != whole.notes[0].cents);
}

// Reference  the bracketed search, which knows nothing of the linear guess.
TEST_CASE("a build sounds as its flute does", "[builds][property]") {
    SpreadTask task = easy_spread();
    task.model = kPerfectModel;
    task.shop = kPerfectShop;
    task.shop.bore_m = 4e-4;  // the one cause
    const Spread linear = spread(task);
    REQUIRE(linear.causes.size() == 1);
    for (long number = 0; number < 20; ++number) {
        const BuildSums one = run_builds(task, linear, number, number + 1, kSeed);
        // from the lowest note, which error it was; then what the others must sound
        double low_m = -4e-3, high_m = 4e-3;
        const auto pitch_off = [&](double amount_m, std::size_t k) {
            const Build build = off_by_hand(task.plan, What::bore, -1, amount_m);
            return cents_between(pitch_Hz(build.flute, build.air, task.open[k]),
                                 linear.notes[k].nominal_Hz);
        };
        const bool rises = linear.effects_cents(0, 0) > 0.0;
        for (int trip = 0; trip < 60; ++trip) {
            const double middle_m = 0.5 * (low_m + high_m);
            ((pitch_off(middle_m, 0) < one.notes[0].cents) == rises ? low_m : high_m) = middle_m;
        }
        for (std::size_t k = 1; k < task.open.size(); ++k)
            CHECK_THAT(pitch_off(low_m, k), WithinAbs(one.notes[k].cents, 1e-3));
    }
}

TEST_CASE("errors that leave no flute are counted, not hidden", "[builds][property]") {
    SpreadTask task = easy_spread();
    task.shop.ruler_m = 0.02;  // holes cross each other
    const Spread linear = spread(task);
    const BuildSums sums = run_builds(task, linear, 0, 200, kSeed);
    CHECK(sums.failed > 20);
    CHECK(sums.builds == 200);
    for (std::size_t k = 0; k < task.open.size(); ++k) CHECK(std::isfinite(sums.sigma_cents(k)));
    CHECK(sums.share_within(2) <= 1.0 - static_cast<double>(sums.failed) / 200.0);
}

// Counted, not timed: evaluations of the network are what a build costs.
TEST_CASE("a build takes two or three evaluations a note", "[builds][property]") {
    SpreadTask task = easy_spread();
    const Spread linear = spread(task);
    long evaluations = 0, solves = 0;
    for (int n = 0; n < 50; ++n) {
        Build build = task.plan;
        Noise noise(kSeed, static_cast<std::uint64_t>(n));
        Eigen::VectorXd z(linear.effects_cents.cols());
        for (std::size_t c = 0; c < linear.causes.size(); ++c) {
            z(static_cast<Eigen::Index>(c)) = noise.normal();
            put_off(build, linear.causes[c],
                    z(static_cast<Eigen::Index>(c)) * linear.causes[c].sigma);
        }
        build.refresh_air();
        const Eigen::VectorXd expected = linear.effects_cents * z;
        for (std::size_t k = 0; k < task.open.size(); ++k) {
            const NoteSpread& note = linear.notes[k];
            const Network network(build.flute, build.air, task.open[k]);
            const Resonance r = resonance_near(
                network, 1, shifted_Hz(note.nominal_Hz, expected(static_cast<Eigen::Index>(k))),
                note.cents_per_rad);
            CHECK(r.converged);
            evaluations += r.evaluations;
            ++solves;
        }
    }
    CHECK(static_cast<double>(evaluations) / static_cast<double>(solves) < 3.2);
}

// Times are the processor's and therefore only printed: the power of the cost in the number of
// builds, and the seconds that each note and each hole add to 10,000 builds.
TEST_CASE("what builds cost", "[builds][.long]") {
    const SpreadTask task = easy_spread();
    const auto seconds = [](const SpreadTask& of, long many) {
        const Spread linear = spread(of);
        const std::clock_t since = std::clock();
        run_builds(of, linear, 0, many, kSeed);
        return static_cast<double>(std::clock() - since) / CLOCKS_PER_SEC;
    };
    const double few = seconds(task, 1000), many = seconds(task, 16000);
    WARN("builds: cost goes with their number to the power "
         << std::log(many / few) / std::log(16.0));
    std::string notes, holes;
    for (const std::size_t count : {1U, 2U, 4U, 6U}) {
        SpreadTask some = task;
        some.open.assign(task.open.begin(), task.open.begin() + static_cast<std::ptrdiff_t>(count));
        notes += " " + std::to_string(count) + ": " + std::to_string(seconds(some, 10000)) + " s";
    }
    for (const std::size_t count : {1U, 2U, 3U, 4U, 5U}) {  // one note, all holes covered
        SpreadTask some = task;
        some.open = {{}};
        some.plan.flute.holes.resize(count);
        holes += " " + std::to_string(count) + ": " + std::to_string(seconds(some, 10000)) + " s";
    }
    WARN("10,000 builds, notes" << notes);
    WARN("10,000 builds of one note, holes" << holes);
}

// Reference  arithmetic: cents 1, 2, 3, 6 have the sum 12, squares 50, mean 3, and 14 left about
// it.
TEST_CASE("sums of builds by hand", "[builds][analytic]") {
    BuildSums sums;
    sums.builds = 5;
    sums.failed = 1;
    sums.notes.resize(1);
    sums.notes[0].cents = 12.0;
    sums.notes[0].cents2 = 50.0;
    sums.notes[0].linear_cents2 = 56.0;
    sums.within[0] = 2;
    CHECK_THAT(sums.mean_cents(0), WithinAbs(3.0, 1e-12));
    CHECK_THAT(sums.sigma_cents(0), WithinAbs(std::sqrt(14.0 / 3.0), 1e-12));
    CHECK_THAT(sums.over_linear(0), WithinAbs(0.5, 1e-12));
    CHECK_THAT(sums.share_within(0), WithinAbs(0.4, 1e-12));
}

// Reference  the linear model, where the breath and each note's own error do most. Tolerance  four
//            standard deviations of a deviation from 400 builds; of a share, and 2 % for the tails.
TEST_CASE("breath and the notes' own errors are in every build once", "[builds][property]") {
    SpreadTask task = easy_spread();
    task.shop = kPerfectShop;
    task.model = {0.005, 0.0, 0.05, 0.0, 2.0};
    const Spread linear = spread(task);
    const double builds = 400.0;
    const BuildSums sums = run_builds(task, linear, 0, static_cast<long>(builds), kSeed);
    for (std::size_t k = 0; k < task.open.size(); ++k) {
        CAPTURE(k);
        CHECK_THAT(sums.sigma_cents(k),
                   WithinRel(linear.notes[k].sigma_cents, 4.0 / std::sqrt(2.0 * builds) + 0.01));
    }
    for (std::size_t i = 0; i < kWithin_cents.size(); ++i) {
        const double share = linear.within[i];
        CHECK_THAT(sums.share_within(i),
                   WithinAbs(share, 0.02 + 4.0 * std::sqrt(share * (1.0 - share) / builds)));
    }
}

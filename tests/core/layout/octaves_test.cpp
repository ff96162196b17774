// tests/core/layout/octaves_test.cpp: octaves as a goal of what the notes leave open.
#include "core/layout/octaves.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/flute/resonance.hpp"
#include "core/layout/placement.hpp"
#include "core/layout/thorough.hpp"
#include "tests/support/layouts.hpp"
#include "tests/support/random_tubes.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;

namespace {

// Each note's second register over twice its first, both counted from below on flutes of their own.
Eigen::VectorXd heard_octaves_cents(const LayoutTask& task, const Flute& flute, const Air& air) {
    Eigen::VectorXd octaves(static_cast<Eigen::Index>(task.notes.size()));
    for (std::size_t n = 0; n < task.notes.size(); ++n) {
        const Fingering& open = task.notes[n].open;
        octaves(static_cast<Eigen::Index>(n)) =
            cents_between(resonance(flute, air, open, 2).frequency_Hz,
                          2.0 * resonance(flute, air, open, 1).frequency_Hz);
    }
    return octaves;
}

// A wider bore than easy_task(): its octaves are further off.
LayoutTask wide_task() {
    LayoutTask task;
    task.flute = plain_tube(0.0184, 0.0031, 0.43);
    task.end_m = 0.43;
    task.hole_count = 6;
    task.notes = opened_in_order(6, 392.0, {0.0, 200.0, 300.0, 500.0, 700.0, 800.0, 1000.0});
    return task;
}

LayoutResult laid_out(LayoutTask task, double weight) {
    task.octaves_weight = weight;
    return place_holes(thorough(std::move(task)), played_air());
}

double place_mm(const LayoutResult& result, std::size_t hole) {
    return 1e3 * result.flute.holes[hole].at_m;
}

}  // namespace

// Against difference quotients of registers counted from below (four points, textbook).
TEST_CASE("an octave's slope is what the octave does", "[layout][octaves]") {
    for (const bool tapered : {false, true}) {
        LayoutTask task = wide_task();
        if (tapered) task.flute.bore = {{0.0, 0.0184, 0.0184}, {0.43, 0.0176, 0.0176}};
        Problem problem(task, played_air());
        const Eigen::VectorXd x = problem.numbers(problem.first_guess(0.4));
        const Octaves octaves = problem.octaves(x, problem.sound(x, {}, true));
        const Eigen::VectorXd heard = heard_octaves_cents(task, problem.flute(x), played_air());
        CHECK(octaves.there == heard.array().isFinite().count());
        CHECK(octaves.there >= 6);
        constexpr double kWide = 1e-3;
        for (Eigen::Index i = 0; i < problem.size(); ++i) {
            const auto at = [&](double steps) {
                Eigen::VectorXd y = x;
                y(i) += steps * kWide;
                return heard_octaves_cents(task, problem.flute(y), played_air());
            };
            const Eigen::VectorXd change =
                (8.0 * (at(1.0) - at(-1.0)) - (at(2.0) - at(-2.0))) / (12.0 * kWide);
            for (Eigen::Index k = 0; k < change.size(); ++k) {
                CAPTURE(tapered, i, k, change(k));
                if (!std::isfinite(heard(k))) {
                    CHECK(octaves.slopes(k, i) == 0.0);
                    continue;
                }
                CHECK_THAT(octaves.cents(k), WithinAbs(heard(k), 1e-6));
                const double most = octaves.slopes.row(k).cwiseAbs().maxCoeff();
                // a second register is found to 1e-7 cents: so much, twice, over twice kWide
                CHECK_THAT(octaves.slopes(k, i),
                           WithinAbs(change(k), kOctavesSlopesError * most + 2e-4));
            }
        }
    }
}

TEST_CASE("octaves count by their weight, and no note gives way", "[layout][octaves]") {
    const LayoutTask task = wide_task();
    double last_cents = kNoLimit;
    for (const double weight : {0.0, 0.03, 0.1, 0.3, 1.0}) {
        const LayoutResult result = laid_out(task, weight);
        CAPTURE(weight);
        REQUIRE(result.converged);
        CHECK(result.binding.empty());
        CHECK(heard_errors_cents(task, result, played_air()) < 1e-3);
        const double off_cents = heard_octaves_cents(task, result.flute, played_air()).norm();
        CHECK(off_cents < last_cents);
        last_cents = off_cents;
    }
    // What is left is the lowest note's, which has no hole: the tube is as long as it has to be.
    const LayoutResult most = laid_out(task, 1.0);
    const Eigen::VectorXd octaves = heard_octaves_cents(task, most.flute, played_air());
    CHECK(octaves.tail(6).cwiseAbs().maxCoeff() < 2.0);
    CHECK(heard_octaves_cents(task, laid_out(task, 0.0).flute, played_air())
              .tail(6)
              .cwiseAbs()
              .maxCoeff() > 10.0);
}

TEST_CASE("octaves that do not count change nothing", "[layout][octaves]") {
    LayoutTask limited = wide_task();
    limited.shop.spacing_min_m = 0.022;
    for (const LayoutTask& task : {wide_task(), limited}) {
        const LayoutResult absent = place_holes(task, played_air()), none = laid_out(task, 0.0);
        for (std::size_t i = 0; i < absent.flute.holes.size(); ++i) {
            CHECK(absent.flute.holes[i].at_m == none.flute.holes[i].at_m);
            CHECK(absent.flute.holes[i].diameter_m == none.flute.holes[i].diameter_m);
        }
    }
}

// The least of what is asked for, and not where a way has ended: no small move along what the notes
// leave open (found here, by the singular vectors of their slopes) makes it less.
TEST_CASE("no flute in tune nearby has truer octaves", "[layout][octaves]") {
    const LayoutTask task = wide_task();
    Problem problem(task, played_air());
    const Placement home = unlimited_placement(task, played_air());
    constexpr double kWeight = 0.1;
    const Walk w = walk_by_octaves(problem, home.walk, problem.numbers(home.flute), kWeight);
    REQUIRE(w.converged);
    const auto cost = [&](const Eigen::VectorXd& x) {
        return std::pow(kWeight * kOctave, 2) *
                   heard_octaves_cents(task, problem.flute(x), played_air()).squaredNorm() +
               0.04 * (x - home.walk.x).squaredNorm() +
               problem.sound(x, {}, true).errors_cents.squaredNorm();
    };
    Sound sound = w.sound;
    const Eigen::MatrixXd slopes = problem.slopes(w.x, sound);
    const Eigen::JacobiSVD<Eigen::MatrixXd> svd(slopes, Eigen::ComputeFullV);
    const double least = cost(w.x);
    CHECK(least < 0.7 * cost(home.walk.x));
    for (Eigen::Index k = slopes.rows(); k < problem.size(); ++k)
        for (const double way : {-0.05, 0.05}) {
            const Eigen::VectorXd aside = w.x + way * svd.matrixV().col(k);
            CAPTURE(k, way);
            CHECK(cost(aside) > least);
        }
}

TEST_CASE("octaves keep to hands and tools, and to what is cut", "[layout][octaves]") {
    LayoutTask task = wide_task();
    task.shop.diameter_min_m = 0.0065;
    task.shop.diameter_max_m = 0.0085;
    LayoutResult result = laid_out(task, 1.0);
    CHECK(heard_errors_cents(task, result, played_air()) < 1e-3);
    for (const FingerHole& hole : result.flute.holes) {
        CHECK(hole.diameter_m > 0.0065 - 1e-9);
        CHECK(hole.diameter_m < 0.0085 + 1e-9);
    }
    const double within_cents = heard_octaves_cents(task, result.flute, played_air()).norm();
    CHECK(within_cents < heard_octaves_cents(task, laid_out(task, 0.0).flute, played_air()).norm());
    CHECK(within_cents >
          heard_octaves_cents(wide_task(), laid_out(wide_task(), 1.0).flute, played_air()).norm());

    task = wide_task();
    task.shop.bits_m = {0.006, 0.0065, 0.007, 0.0075, 0.008, 0.0085, 0.009, 0.0095, 0.010};
    result = laid_out(task, 1.0);
    CHECK(heard_errors_cents(task, result, played_air()) < 1e-3);
    CHECK(heard_octaves_cents(task, result.flute, played_air()).tail(6).norm() <
          0.5 * heard_octaves_cents(task, laid_out(task, 0.0).flute, played_air()).tail(6).norm());
}

// Of tubes as they come: the notes are met as without octaves, no note loses its own, and where
// they came to count they are truer together; more weight is not less true, but for rounding.
TEST_CASE("octaves take nothing from the notes of random tubes",
          "[layout][octaves][property][sweep]") {
    Dice dice(20261129);
    int counted = 0, held = 0, compared = 0;
    for (int n = 0; n < 30; ++n) {
        LayoutTask task = random_tube(dice, 0.03, played_air());
        if (n % 3 == 0)
            for (int tenth = 25; tenth <= 100; tenth += 5) task.shop.bits_m.push_back(1e-4 * tenth);
        const LayoutResult plain = laid_out(task, 0.0);
        if (!plain.converged) continue;
        const Eigen::VectorXd before = heard_octaves_cents(task, plain.flute, played_air());
        double last_cents = kNoLimit;
        for (const double weight : {0.1, 1.0}) {
            const LayoutResult result = laid_out(task, weight);
            CAPTURE(n, weight, result.octaves_counted);
            CHECK(result.converged);
            CHECK(result.errors_cents <= plain.errors_cents + kLayoutError_cents);
            CHECK(result.octaves_counted >= 0.0);
            CHECK(result.octaves_counted <= weight);
            const Eigen::VectorXd after = heard_octaves_cents(task, result.flute, played_air());
            double was = 0.0, is = 0.0;
            for (Eigen::Index k = 0; k < before.size(); ++k) {
                if (!std::isfinite(before(k))) continue;
                CAPTURE(k);
                CHECK(std::isfinite(after(k)));
                was += before(k) * before(k);
                is += after(k) * after(k);
            }
            ++compared;
            counted += result.octaves_counted > 0.0 ? 1 : 0;
            held += result.octaves_counted < weight ? 1 : 0;
            // by a drill they are as true as its sizes let them be
            if (task.shop.bits_m.empty()) CHECK(std::sqrt(is) <= std::sqrt(was) + 0.1);
            if (task.shop.bits_m.empty()) CHECK(std::sqrt(is) <= last_cents + 0.5);
            last_cents = std::sqrt(is);
        }
    }
    CHECK(compared >= 40);
    CHECK(counted >= 0.8 * compared);
    CHECK(held > 0);
}

// A hundredth of a millimetre of the wall, of the sound hole or of the bore, or a hundredth of the
// weight: less than two of marks, on tubes as they come.
TEST_CASE("octaves move no mark far for a hair", "[layout][octaves][property][sweep]") {
    Dice dice(20261130);
    int compared = 0;
    for (int n = 0; n < 25; ++n) {
        const LayoutTask task = random_tube(dice, 0.03, played_air());
        for (const double weight : {0.1, 1.0}) {
            const LayoutResult here = laid_out(task, weight);
            if (!here.converged) continue;
            for (int hair = 0; hair < 4; ++hair) {
                LayoutTask other = task;
                if (hair == 0) other.flute.wall_m += 1e-5;
                if (hair == 1) other.flute.sound_hole.width_m += 1e-5;
                if (hair == 2)
                    for (BoreStation& station : other.flute.bore)
                        station.diameter_m += 1e-5, station.across_m += 1e-5;
                const LayoutResult there = laid_out(other, hair == 3 ? 0.99 * weight : weight);
                if (!there.converged) continue;
                ++compared;
                for (std::size_t i = 0; i < here.flute.holes.size(); ++i) {
                    CAPTURE(n, weight, hair, i, here.octaves_counted, there.octaves_counted);
                    CHECK_THAT(place_mm(there, i), WithinAbs(place_mm(here, i), 2.0));
                    CHECK_THAT(1e3 * there.flute.holes[i].diameter_m,
                               WithinAbs(1e3 * here.flute.holes[i].diameter_m, 2.0));
                }
            }
        }
    }
    CHECK(compared >= 150);
}

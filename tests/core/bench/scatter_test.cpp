// tests/core/bench/scatter_test.cpp: attempts at a note, and what they teach of how far blows lie
// apart.
#include <catch2/catch.hpp>

#include "core/bench/strokes.hpp"
#include "tests/core/bench/workshop.hpp"

namespace canewright {
namespace {

using Catch::WithinAbs;
using Catch::WithinRel;
using testing::Dice;

// As core/bench takes a stranger: 4 cents, worth four blows.
const Scatter kStranger{4.0, 4.0};

// Reference  the middle of sorted numbers; sigma of a median of three normal attempts is 0.6698 of
//            one attempt's (order statistics, any handbook).
TEST_CASE("three attempts make a reading", "[bench][strokes][published]") {
    CHECK(combine({520.0, 518.0, 523.0}, kStranger).frequency_Hz == 520.0);
    CHECK(combine({520.0, 518.0, 1042.0}, kStranger).frequency_Hz == 520.0);
    CHECK_THAT(combine({400.0, 900.0}, kStranger).frequency_Hz, WithinRel(600.0, 1e-12));
    CHECK_THAT(combine({520.0}, kStranger).sigma_cents, WithinRel(4.0, 1e-12));
    Dice dice(22);
    constexpr int kTrials = 2000;
    double squares = 0.0, claimed = 0.0;
    for (int n = 0; n < kTrials; ++n) {
        std::vector<double> heard;
        for (int k = 0; k < 3; ++k) heard.push_back(shifted_Hz(500.0, testing::normal(dice, 4.0)));
        const Attempts a = combine(heard, kStranger);
        squares += std::pow(cents_between(a.frequency_Hz, 500.0), 2);
        claimed += a.sigma_cents * a.sigma_cents;
    }
    CHECK_THAT(std::sqrt(squares / kTrials), WithinAbs(0.6698 * 4.0, 0.15));
    CHECK_THAT(std::sqrt(claimed / kTrials), WithinAbs(0.6698 * 4.0, 0.15));
}

// Reference  scaled inverse chi-square (Bayesian Data Analysis, ch. 2): four blows of 4 cents and
// two
//            more degrees of freedom of s cents make (4 x 16 + 2 s^2) / 6.
TEST_CASE("a maker's scatter is learned from attempts", "[bench][strokes][published]") {
    const double apart = 14.0;
    const auto at = [](double cents) { return shifted_Hz(500.0, cents); };
    const Attempts a = combine({at(0.0), at(apart / 2.0), at(apart)}, kStranger);
    const double seen = apart / 1.693;
    CHECK_THAT(a.scatter.cents, WithinRel(std::sqrt((64.0 + 2.0 * seen * seen) / 6.0), 1e-9));
    CHECK(a.scatter.blows == 6.0);
    // an octave jump is no scatter
    CHECK(combine({at(0.0), at(3.0), at(1200.0)}, kStranger).scatter.cents == 4.0);
    // many readings of somebody whose blows are 8 cents apart
    Dice dice(23);
    Scatter known = kStranger;
    for (int n = 0; n < 12; ++n) {
        std::vector<double> heard;
        for (int k = 0; k < 3; ++k) heard.push_back(at(testing::normal(dice, 8.0)));
        known = combine(heard, known).scatter;
    }
    CHECK_THAT(known.cents, WithinAbs(8.0, 2.0));
    CHECK(known.blows == 28.0);
}

// Reference  of five blows of one note, none of them opened between, four say how far
// they lie
//            apart: (4 x 16 + 4 s^2) / 8, s by the advice's own grid of scatters.
TEST_CASE("blows while opening teach the scatter too", "[bench][strokes][by_hand]") {
    std::vector<Blow> blows;
    for (const double cents : {-40.0, -36.0, -44.0, -38.0, -42.0})
        blows.push_back({0.0, shifted_Hz(500.0, cents)});
    const Scatter after = advise(blows, 500.0, kStranger, {}, Tapping::tapped).scatter;
    CHECK(after.blows == 8.0);
    const double square = (8.0 * after.cents * after.cents - 64.0) / 4.0;
    CHECK(square > 4.0);
    CHECK(square < 25.0);
}

// Reference  the mean of a scaled inverse chi-square variance between the ends of the grid, by
//            quadrature even in its logarithm.
TEST_CASE("one blow tells nothing of the scatter", "[bench][strokes][analytic]") {
    for (const double blows : {2.0, 4.0, 8.0, 16.0}) {
        CAPTURE(blows);
        double sum = 0.0, squares = 0.0;
        constexpr int kParts = 4000;
        for (int n = 0; n < kParts; ++n) {  // half a step of the grid beyond both ends
            const double ratio = std::exp2(-1.75 + 3.5 * (n + 0.5) / kParts);
            const double weight = std::pow(ratio, -blows) * std::exp(-0.5 * blows / ratio / ratio);
            sum += weight;
            squares += weight * ratio * ratio;
        }
        const StrokeAdvice advice = advise({{0.0, 499.0}}, 500.0, {4.0, blows});
        CHECK_THAT(advice.scatter.cents, WithinRel(4.0 * std::sqrt(squares / sum), 0.005));
    }
}

// Blows of 8 cents, no stroke between: what the filter says of its own doubt grows with them.
TEST_CASE("blows that lie far apart make the advice less sure", "[bench][strokes][property]") {
    Dice dice(24);
    double squares = 0.0, claimed = 0.0;
    constexpr int kTrials = 400;
    for (int trial = 0; trial < kTrials; ++trial) {
        std::vector<Blow> blows;
        for (int n = 0; n < 8; ++n)
            blows.push_back({0.0, shifted_Hz(500.0, -40.0 + testing::normal(dice, 8.0))});
        const StrokeAdvice advice = advise(blows, 500.0, kStranger, {}, Tapping::tapped);
        squares += std::pow(cents_between(advice.frequency_Hz, shifted_Hz(500.0, -40.0)), 2);
        claimed += advice.sigma_cents * advice.sigma_cents;
    }
    CHECK_THAT(std::sqrt(claimed / squares), WithinAbs(1.0, 0.2));
}

}  // namespace
}  // namespace canewright

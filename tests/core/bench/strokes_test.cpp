// tests/core/bench/strokes_test.cpp: how many more strokes, and the middle of three attempts.
#include "core/bench/strokes.hpp"

#include <catch2/catch.hpp>

#include "tests/core/bench/workshop.hpp"

namespace canewright {
namespace {

using Catch::WithinAbs;
using Catch::WithinRel;
using testing::Dice;

// Exact: without a stroke the filter is a mean of the blows.
TEST_CASE("blows without strokes are averaged", "[bench][strokes][analytic]") {
    std::vector<Blow> blows;
    for (const double cents : {-50.0, -47.0, -44.0, -59.0})
        blows.push_back({0.0, shifted_Hz(500.0, cents)});
    const StrokeAdvice advice = advise(blows, 500.0, 4.0);
    CHECK_THAT(cents_between(advice.frequency_Hz, 500.0), WithinAbs(-50.0, 1e-9));
    CHECK_THAT(advice.sigma_cents, WithinRel(4.0 / std::sqrt(4.0), 1e-12));
    CHECK_THAT(advice.cents_per_stroke, WithinRel(kUsualStroke_cents, 1e-12));
}

TEST_CASE("it learns what a stroke does", "[bench][strokes][property]") {
    const double stroke_cents = GENERATE(1.5, 4.0, 9.0);
    std::vector<Blow> blows{{0.0, shifted_Hz(500.0, -200.0)}};
    for (int n = 1; n <= 8; ++n)
        blows.push_back({2.0, shifted_Hz(500.0, -200.0 + 2.0 * stroke_cents * n)});
    CHECK_THAT(advise(blows, 500.0, 2.0).cents_per_stroke,
               WithinAbs(stroke_cents, 0.25 * stroke_cents));
}

TEST_CASE("far off it says more, close by light, there stop", "[bench][strokes][property]") {
    const auto at = [](double cents) {  // known well: five blows
        return advise(std::vector<Blow>(5, Blow{0.0, shifted_Hz(500.0, cents)}), 500.0, 3.0);
    };
    CHECK(at(-60.0).what == Stroke::more);
    CHECK(at(-60.0).count > 1);
    CHECK(at(-3.0).what == Stroke::light);
    CHECK(at(0.5).what == Stroke::stop);
    CHECK(at(30.0).what == Stroke::stop);
    CHECK(advise({{0.0, shifted_Hz(500.0, -1.0)}}, 500.0, 5.0).what == Stroke::blow);
    CHECK(advise({}, 500.0, 5.0).what == Stroke::blow);
}

// Strokes of random size, a meter that scatters. Tolerances: what the advice is for.
TEST_CASE("followed to the word it ends at the mark", "[bench][strokes][property]") {
    Dice dice(21);
    constexpr int kTrials = 300;
    double sum = 0.0;
    int far = 0;
    for (int trial = 0; trial < kTrials; ++trial) {
        double now = -dice.between(5.0, 60.0);
        const double stroke = dice.between(1.0, 6.0), meter = dice.between(2.0, 5.0);
        const auto blow = [&] { return shifted_Hz(500.0, now + testing::normal(dice, meter)); };
        std::vector<Blow> blows{{0.0, blow()}};
        StrokeAdvice advice;
        for (int n = 0; n < 300; ++n) {
            advice = advise(blows, 500.0, meter);
            if (advice.what == Stroke::stop) break;
            double strokes = advice.what == Stroke::more ? advice.count : 0.0;
            if (advice.what == Stroke::light) strokes = kLightStroke;
            for (double left = strokes; left > 0.0; left -= 1.0)
                now += std::min(left, 1.0) * stroke * std::exp(testing::normal(dice, 0.4));
            blows.push_back({strokes, blow()});
        }
        REQUIRE(advice.what == Stroke::stop);
        sum += now;
        far += std::abs(now) > 6.0;
    }
    CHECK(std::abs(sum / kTrials) < 1.0);
    CHECK(far < 0.05 * kTrials);
}

// Reference  the middle of sorted numbers; sigma of a median of three normal attempts is 0.6698 of
//            one attempt's (order statistics, any handbook).
TEST_CASE("three attempts make a reading", "[bench][strokes][published]") {
    CHECK(combine({520.0, 518.0, 523.0}, 4.0).frequency_Hz == 520.0);
    CHECK(combine({520.0, 518.0, 1042.0}, 4.0).frequency_Hz == 520.0);
    CHECK_THAT(combine({400.0, 900.0}, 4.0).frequency_Hz, WithinRel(600.0, 1e-12));
    CHECK_THAT(combine({520.0}, 4.0).sigma_cents, WithinRel(4.0, 1e-12));
    Dice dice(22);
    constexpr int kTrials = 2000;
    double squares = 0.0, claimed = 0.0;
    for (int n = 0; n < kTrials; ++n) {
        std::vector<double> heard;
        for (int k = 0; k < 3; ++k) heard.push_back(shifted_Hz(500.0, testing::normal(dice, 4.0)));
        const Attempts a = combine(heard, 4.0);
        squares += std::pow(cents_between(a.frequency_Hz, 500.0), 2);
        claimed += a.sigma_cents * a.sigma_cents;
    }
    CHECK_THAT(std::sqrt(squares / kTrials), WithinAbs(0.6698 * 4.0, 0.15));
    CHECK_THAT(std::sqrt(claimed / kTrials), WithinAbs(0.6698 * 4.0, 0.15));
}

}  // namespace
}  // namespace canewright

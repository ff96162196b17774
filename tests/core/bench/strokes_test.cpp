// tests/core/bench/strokes_test.cpp: how many more strokes.
#include "core/bench/strokes.hpp"

#include <catch2/catch.hpp>

#include "tests/core/bench/workshop.hpp"

namespace canewright {
namespace {

using Catch::WithinAbs;
using Catch::WithinRel;
using testing::Dice;

// Blows whose scatter is known, nothing to be learned.
Scatter exactly(double cents) { return {cents, kKnownExactly}; }
// As core/bench takes a stranger: 4 cents, worth four blows.
const Scatter kStranger{4.0, 4.0};

// Exact: without a stroke the filter is a mean of the blows.
TEST_CASE("blows without strokes are averaged", "[bench][strokes][analytic]") {
    std::vector<Blow> blows;
    for (const double cents : {-50.0, -47.0, -44.0, -59.0})
        blows.push_back({0.0, shifted_Hz(500.0, cents)});
    const StrokeAdvice advice = advise(blows, 500.0, exactly(4.0));
    CHECK_THAT(cents_between(advice.frequency_Hz, 500.0), WithinAbs(-50.0, 1e-9));
    CHECK_THAT(advice.sigma_cents, WithinRel(4.0 / std::sqrt(4.0), 1e-12));
    CHECK_THAT(advice.cents_per_stroke, WithinRel(kUsualStroke_cents, 1e-12));
}

TEST_CASE("it learns what a stroke does", "[bench][strokes][property]") {
    const double stroke_cents = GENERATE(1.5, 4.0, 9.0);
    std::vector<Blow> blows{{0.0, shifted_Hz(500.0, -200.0)}};
    for (int n = 1; n <= 8; ++n)
        blows.push_back({2.0, shifted_Hz(500.0, -200.0 + 2.0 * stroke_cents * n)});
    CHECK_THAT(advise(blows, 500.0, exactly(2.0)).cents_per_stroke,
               WithinAbs(stroke_cents, 0.25 * stroke_cents));
}

TEST_CASE("far off it says more, close by light, there stop", "[bench][strokes][property]") {
    const auto at = [](double cents) {  // known well: five blows
        return advise(std::vector<Blow>(5, Blow{0.0, shifted_Hz(500.0, cents)}), 500.0,
                      exactly(3.0));
    };
    CHECK(at(-60.0).what == Stroke::more);
    CHECK(at(-60.0).count > 1);
    CHECK(at(-3.0).what == Stroke::light);
    CHECK(at(0.5).what == Stroke::stop);
    CHECK(at(30.0).what == Stroke::stop);
    CHECK(advise({{0.0, shifted_Hz(500.0, -1.0)}}, 500.0, exactly(5.0)).what == Stroke::blow);
    CHECK(advise({}, 500.0, exactly(5.0)).what == Stroke::blow);
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
            advice = advise(blows, 500.0, exactly(meter));
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

// Reference  Gaussian conditioning by hand: a blow of 4 cents at -50, two strokes of 4 +- 3 cents
//            each, uneven by half of 4: -42 with variance 16 + 4 x 9 + 2 x 4 = 60, covariance with
//            the stroke 2 x 9 = 18. A blow at -38 is 4 above: gains 60 / 76 and 18 / 76.
TEST_CASE("two blows and two strokes, by hand", "[bench][strokes][analytic]") {
    const StrokeAdvice advice = advise(
        {{0.0, shifted_Hz(500.0, -50.0)}, {2.0, shifted_Hz(500.0, -38.0)}}, 500.0, exactly(4.0));
    CHECK_THAT(cents_between(advice.frequency_Hz, 500.0), WithinAbs(-42.0 + 240.0 / 76.0, 1e-9));
    CHECK_THAT(advice.cents_per_stroke, WithinAbs(4.0 + 72.0 / 76.0, 1e-9));
    CHECK_THAT(advice.sigma_cents, WithinAbs(std::sqrt(60.0 * 16.0 / 76.0), 1e-9));
}

// Reference  the rule in strokes.hpp by hand. Five blows of 3 cents are sure to 1.34; a stroke is
//            4 +- 3, so 7 at most; room is what is to go less hypot(1.34, 2) = 2.41. A light stroke
//            is 1.6: stop within half of it; light within 5.34 (a stroke and the doubt), and where
//            one whole stroke of 7 has no room.
TEST_CASE("as many strokes as there is room for", "[bench][strokes][analytic]") {
    const auto at = [](double cents) {
        return advise(std::vector<Blow>(5, Blow{0.0, shifted_Hz(500.0, cents)}), 500.0,
                      exactly(3.0));
    };
    const double room_cents = std::hypot(3.0 / std::sqrt(5.0), 2.0);
    for (int count = 1; count <= 6; ++count) {
        CAPTURE(count);
        CHECK(at(-room_cents - 7.0 * count - 0.01).what == Stroke::more);
        CHECK(at(-room_cents - 7.0 * count - 0.01).count == count);
        if (count > 1) CHECK(at(-room_cents - 7.0 * count + 0.01).count == count - 1);
    }
    CHECK(at(-200.0).count == 6);
    CHECK(at(-room_cents - 6.99).what == Stroke::light);
    CHECK(at(-room_cents - 6.99).count == 1);
    CHECK(at(-0.81).what == Stroke::light);
    CHECK(at(-0.79).what == Stroke::stop);
    // one blow of 3 cents is too close to tell within a stroke and its own doubt
    CHECK(advise({{0.0, shifted_Hz(500.0, -6.9)}}, 500.0, exactly(3.0)).what == Stroke::blow);
    CHECK(advise({{0.0, shifted_Hz(500.0, -7.1)}}, 500.0, exactly(3.0)).what == Stroke::light);
    CHECK(advise({{0.0, shifted_Hz(500.0, -3.0)}}, 500.0, exactly(1.85)).what == Stroke::light);
    CHECK(advise({{0.0, shifted_Hz(500.0, -3.0)}}, 500.0, exactly(1.95)).what == Stroke::blow);
}

// A blow of 4 cents, 13 above: past the mark by more than its doubt could hide; at 6 above it
// could. And the third look at the same note tells no more: two are asked for at most.
TEST_CASE("clearly past the mark needs no second look", "[bench][strokes][by_hand]") {
    const auto blow = [](double cents) { return Blow{0.0, shifted_Hz(500.0, cents)}; };
    CHECK(advise({blow(13.0)}, 500.0, exactly(4.0)).what == Stroke::stop);
    CHECK(advise({blow(6.0)}, 500.0, exactly(4.0)).what == Stroke::blow);
    CHECK(advise({blow(-1.0)}, 500.0, exactly(8.0)).what == Stroke::blow);
    CHECK(advise({blow(-1.0), blow(-1.0), blow(-1.0)}, 500.0, exactly(8.0)).what != Stroke::blow);
}

TEST_CASE("of a stranger four blows are taken to be known", "[bench][strokes][by_hand]") {
    const std::vector<double> heard{400.0, 401.0, 403.0};
    CHECK(combine(heard, Scatter{}).sigma_cents == combine(heard, kStranger).sigma_cents);
    CHECK(combine(heard, Scatter{}).sigma_cents != combine(heard, {4.0, 6.0}).sigma_cents);
}

// Reference  mean range over standard deviation: d2 = 1.128 of two, 1.693 of three (tables of
// control
//            charts); usual scatter counts like four attempts. Two 10 cents apart: (4 x 16
//            + 8.865^2) / 5 / 2. Three within 6: (4 x 16 + 2 x 3.544^2) / 6 / 3, a median's
//            error 1.16 times. Five: the middle three's range, 1.2533 times. A wild one counts as
//            three usual scatters.
TEST_CASE("attempts far apart make a reading less sure", "[bench][strokes][published]") {
    const auto sigma = [](const std::vector<double>& cents) {
        std::vector<double> heard_Hz;
        for (const double each : cents) heard_Hz.push_back(shifted_Hz(500.0, each));
        return combine(heard_Hz, kStranger).sigma_cents;
    };
    const auto square = [](double x) { return x * x; };
    CHECK_THAT(sigma({0.0, 10.0}),
               WithinRel(std::sqrt((64.0 + square(10.0 / 1.128)) / 10.0), 1e-9));
    CHECK_THAT(sigma({0.0, 5.0, 6.0}),
               WithinRel(1.16 * std::sqrt((64.0 + 2.0 * square(6.0 / 1.693)) / 18.0), 1e-9));
    CHECK_THAT(sigma({-90.0, 0.0, 3.0, 6.0, 90.0}),
               WithinRel(1.2533 * std::sqrt((64.0 + 2.0 * square(6.0 / 1.693)) / 30.0), 1e-9));
    CHECK_THAT(sigma({0.0, 500.0}), WithinRel(std::sqrt((64.0 + square(12.0)) / 10.0), 1e-9));
}

// Who never taps a stroke: the blows rise and cannot be one pitch. Who only blows again is
// believed.
TEST_CASE("opening without tapping a stroke is noticed", "[bench][strokes][property]") {
    Dice dice(25);
    constexpr int kTrials = 200;
    int noticed = 0, wrongly = 0;
    double bias = 0.0;
    for (int trial = 0; trial < kTrials; ++trial) {
        // opened by 4 cents or so a time until the meter first shows the mark, in whole cents
        double now = -dice.between(20.0, 40.0);
        std::vector<Blow> opened, blown;
        for (;;) {
            const double shown = std::round(now + testing::normal(dice, 4.0));
            opened.push_back({0.0, shifted_Hz(500.0, shown)});
            if (shown >= 0.0) break;
            now += 4.0 * std::exp(testing::normal(dice, 0.4));
        }
        for (std::size_t n = 0; n < opened.size(); ++n)
            blown.push_back({0.0, shifted_Hz(500.0, -30.0 + testing::normal(dice, 4.0))});
        const StrokeAdvice advice = advise(opened, 500.0, kStranger);
        noticed += advice.opened_untold;
        wrongly += advise(blown, 500.0, kStranger).opened_untold;
        bias += cents_between(advice.frequency_Hz, shifted_Hz(500.0, now)) / kTrials;
    }
    CHECK(noticed > 0.9 * kTrials);
    CHECK(wrongly < 0.05 * kTrials);
    // the blow that was waited for is about 3 cents above the note; what is logged is not
    CHECK(std::abs(bias) < 1.5);
    const std::vector<Blow> rising{{0.0, 490.0}, {0.0, 495.0}, {0.0, 500.0}};
    CHECK(advise(rising, 500.0, kStranger).opened_untold);
    CHECK_FALSE(advise(rising, 500.0, kStranger, {}, Tapping::tapped).opened_untold);
}

// Reference  Gaussian conditioning by hand: known to 3 cents, moments 6 cents apart, one blow of 4
//            that is 10 above: 10 x 36 / (36 + 9 + 16).
TEST_CASE("the mark moves with the breath of the moment", "[bench][strokes][analytic]") {
    const double now_Hz = shifted_Hz(500.0, -40.0);
    const std::vector<Blow> blows{{0.0, shifted_Hz(now_Hz, 10.0)}};
    const StrokeAdvice advice = advise(blows, 500.0, exactly(4.0), Known{now_Hz, 3.0, 6.0});
    CHECK_THAT(cents_between(advice.mark_Hz, 500.0), WithinAbs(360.0 / 61.0, 1e-9));
    CHECK(advise(blows, 500.0, exactly(4.0)).mark_Hz == 500.0);
    // what is logged is what was heard
    CHECK_THAT(cents_between(advice.frequency_Hz, now_Hz), WithinAbs(10.0, 1e-9));
}

TEST_CASE("after two blows there is an answer", "[bench][strokes]") {
    for (double cents = -30.0; cents < 10.0; cents += 0.5) {
        CAPTURE(cents);
        const Blow blow{0.0, shifted_Hz(500.0, cents)};
        CHECK(advise({blow, blow}, 500.0, kStranger).what != Stroke::blow);
        CHECK(advise({blow, {2.0, blow.frequency_Hz}, blow}, 500.0, kStranger).what !=
              Stroke::blow);
    }
}

}  // namespace
}  // namespace canewright

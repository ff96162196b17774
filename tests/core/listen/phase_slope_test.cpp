// tests/core/listen/phase_slope_test.cpp -- the fine frequency, beside its textbook bound.
#include "core/listen/phase_slope.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/units.hpp"
#include "tests/core/listen/sounds.hpp"

using namespace canewright;

namespace phase_slope_test {  // its own where tests are compiled together
using Catch::WithinAbs;
using sounds::Dice;
using sounds::Tone;

namespace {

constexpr double kRate_Hz = 48e3;
constexpr std::size_t kCount = 8192;

PhaseSlope slope_of(const Tone& tone, double guess_Hz) {
    return phase_slope(tone.samples.data(), kCount, kRate_Hz, guess_Hz);
}

}  // namespace

// Analytic: without noise nothing but rounding to float and the leakage of the window is left.
TEST_CASE("a clean tone is found from a guess 3 % off", "[listen][analytic]") {
    Dice dice(1);
    const double truth_Hz = GENERATE(150.0, 440.0, 3000.0);
    const double off = GENERATE(0.97, 1.0, 1.03);
    const auto steady = [=](double) { return truth_Hz; };
    const Tone tone =
        sounds::flute(dice, {kRate_Hz, 0.172, steady, {1.0, 0.5, 0.3, 0.2}, -160.0, false, 0.1});
    const PhaseSlope found = slope_of(tone, off * truth_Hz);
    REQUIRE(found.found);
    CHECK_THAT(cents_between(found.frequency_Hz, truth_Hz), WithinAbs(0.0, 0.02));
    CHECK_THAT(found.drift_cents_per_s, WithinAbs(0.0, 1.0));
}

// Analytic: a tone that rises evenly has its middle's frequency for its mean. That it also swells
// fourfold must not pull the mean towards the loud end.
TEST_CASE("a tone that rises and swells", "[listen][analytic]") {
    Dice dice(2);
    const double middle_s = 0.5 * static_cast<double>(kCount) / kRate_Hz;
    const auto rising = [=](double t_s) { return 600.0 + 150.0 * (t_s - middle_s); };
    Tone tone = sounds::flute(dice, {kRate_Hz, 0.172, rising, {1.0, 0.3}, -160.0, false, 0.1});
    for (std::size_t i = 0; i < kCount; ++i)
        tone.samples[i] *= static_cast<float>(std::exp2(static_cast<double>(i) / 4096.0));
    const PhaseSlope found = slope_of(tone, 610.0);
    CHECK_THAT(cents_between(found.frequency_Hz, 600.0), WithinAbs(0.0, 0.05));
    CHECK_THAT(found.drift_cents_per_s, WithinAbs(1200.0 / std::log(2.0) * 150.0 / 600.0, 2.0));
}

// Source     Kay, Fundamentals of Statistical Signal Processing I (1993), example 3.14 (from
// memory):
//            no unbiased estimate of the frequency of a real sinusoid of amplitude a in white noise
//            of variance s^2 has a variance below 12 / ((2 pi)^2 e N (N^2 - 1)) [cycles/sample]^2,
//            e = a^2 / (2 s^2). First Rife & Boorstyn, IEEE Trans. Inf. Theory 20 (1974) 591-598.
// Tolerance  blocks and their overlap cost something: up to twice the bound's deviation.
TEST_CASE("in white noise it comes close to the least possible scatter", "[listen][published]") {
    Dice dice(3);
    const double truth_Hz = 700.0;
    const auto steady = [=](double) { return truth_Hz; };
    double squares = 0.0;
    const int trials = 40;
    for (int i = 0; i < trials; ++i) {
        const Tone tone = sounds::flute(dice, {kRate_Hz, 0.172, steady, {1.0}, -10.0, false, 0.1});
        const double error_Hz = slope_of(tone, 705.0).frequency_Hz - truth_Hz;
        squares += error_Hz * error_Hz / trials;
    }
    const double n = static_cast<double>(kCount);
    const double e = 10.0;  // the noise is 10 dB below the tone
    const double bound_Hz = kRate_Hz / sounds::kTurn * std::sqrt(12.0 / (e * n * (n * n - 1.0)));
    CAPTURE(std::sqrt(squares), bound_Hz);
    CHECK(std::sqrt(squares) < 2.0 * bound_Hz);
    CHECK(std::sqrt(squares) > 0.5 * bound_Hz);  // below the bound something is wrong with the test
}

TEST_CASE("a frame too short for the tone says so", "[listen][property]") {
    const sounds::Samples samples(2000, 0.1F);
    CHECK_FALSE(phase_slope(samples.data(), 2000, kRate_Hz, 150.0).found);
}

}  // namespace phase_slope_test

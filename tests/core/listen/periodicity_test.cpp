// tests/core/listen/periodicity_test.cpp -- the period and its share of the power.
#include "core/listen/periodicity.hpp"

#include <catch2/catch.hpp>

#include "tests/core/listen/sounds.hpp"

using namespace canewright;

namespace periodicity_test {  // its own where tests are compiled together
using Catch::WithinAbs;
using Catch::WithinRel;
using sounds::Dice;

namespace {

sounds::Samples mixture(const std::vector<double>& amplitudes, double noise_dB) {
    Dice dice(1);
    const auto steady = [](double) { return 400.0; };
    return sounds::flute(dice, {48e3, 0.171, steady, amplitudes, noise_dB, false, 0.1}).samples;
}

Periodicity of(const sounds::Samples& samples) {
    return periodicity(samples.data(), samples.size(), 48e3);
}

}  // namespace

// Analytic: partials k of one fundamental repeat with the fundamental, also where it is missing.
TEST_CASE("the period is that of the fundamental", "[listen][analytic]") {
    const auto amplitudes = GENERATE(std::vector<double>{1.0}, std::vector<double>{1.0, 0.9},
                                     std::vector<double>{1.0, 0.0, 0.5, 0.0, 0.3},
                                     std::vector<double>{0.0, 1.0, 1.0, 1.0});
    const Period period = of(mixture(amplitudes, -120.0)).period;
    CHECK_THAT(period.lag_s, WithinRel(1.0 / 400.0, 0.005));
    CHECK_THAT(period.strength, WithinAbs(1.0, 0.01));
}

// Analytic, (5) in the header: P/(P + N), noise counted where the band lets it through.
TEST_CASE("strength is the periodic share of the power", "[listen][analytic]") {
    const double noise_dB = GENERATE(-10.0, 0.0, 6.0);
    const double noise = std::pow(10.0, noise_dB / 10.0) * (5000.0 - 120.0) / 24000.0;
    CHECK_THAT(of(mixture({1.0}, noise_dB)).period.strength, WithinAbs(1.0 / (1.0 + noise), 0.04));
}

// Analytic: the mean square of what lies in the band; an offset and a rumble do not.
TEST_CASE("only the band counts", "[listen][analytic]") {
    sounds::Samples samples = mixture({1.0, 0.5}, -120.0);
    const double alone = of(samples).band_mean_square;
    CHECK_THAT(alone, WithinRel(0.01, 0.005));
    for (std::size_t i = 0; i < samples.size(); ++i)
        samples[i] += static_cast<float>(
            0.3 + 0.3 * std::sin(sounds::kTurn * 50.0 * static_cast<double>(i) / 48e3));
    CHECK_THAT(of(samples).band_mean_square, WithinRel(alone, 0.005));
}

TEST_CASE("nothing repeats in nothing", "[listen][property]") {
    const Periodicity found = of(sounds::Samples(8192, 0.0F));
    CHECK(found.period.lag_s == 0.0);
    CHECK(found.period.strength == 0.0);
    CHECK(found.band_mean_square == 0.0);
}

}  // namespace periodicity_test

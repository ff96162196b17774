// tests/core/base/noise_test.cpp: the random numbers of the simulations.
#include "core/base/noise.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

using namespace canewright;
using Catch::WithinAbs;

// Source     SplitMix64's first outputs from state 0, as listed with its public implementations
//            (from memory): e220a8397b1dcdaf, 6e789e6aa1b965f4, 06c45d188009454f.
// Tolerance  the 12 bits that a double leaves out.
TEST_CASE("the generator gives the published series", "[noise][published]") {
    Noise noise(0, 0);
    constexpr double kTwoTo64 = 18446744073709551616.0;
    for (const double word : {16294208416658607535.0, 7960286522194355700.0, 487617019471545679.0})
        CHECK_THAT(noise.uniform(), WithinAbs(word / kTwoTo64, 1.0 / 4503599627370496.0));
}

// Source     the normal distribution function by the error function of the C library.
// Tolerance  Kolmogorov's statistic, 1.95 / sqrt(n): one chance in a thousand, and the seed is
//            fixed.
TEST_CASE("normal numbers follow the normal distribution", "[noise][analytic]") {
    constexpr int kMany = 20000;
    std::vector<double> values;
    for (std::uint64_t stream = 0; stream < 100; ++stream) {  // across streams as along them
        Noise noise(42, stream);
        for (int n = 0; n < kMany / 100; ++n) values.push_back(noise.normal());
    }
    std::sort(values.begin(), values.end());
    double worst = 0.0;
    for (int n = 0; n < kMany; ++n) {
        const double below = 0.5 * std::erfc(-values[static_cast<std::size_t>(n)] / std::sqrt(2.0));
        worst = std::max(worst, std::abs(below - (n + 0.5) / kMany));
    }
    CHECK(worst < 1.95 / std::sqrt(kMany));
}

TEST_CASE("streams repeat, and differ by seed and by index", "[noise][property]") {
    const auto first = [](std::uint64_t seed, std::uint64_t index) {
        return Noise(seed, index).uniform();
    };
    CHECK(first(3, 5) == first(3, 5));
    CHECK(first(3, 5) != first(5, 3));
    CHECK(first(3, 5) != first(3, 6));
    CHECK(first(3, 5) != first(4, 5));
}

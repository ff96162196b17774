// tests/core/listen/robust_test.cpp -- median and spread.
#include "core/listen/robust.hpp"

#include <catch2/catch.hpp>

#include "tests/core/listen/sounds.hpp"

using namespace canewright;

namespace robust_test {  // its own where tests are compiled together
using Catch::WithinAbs;
using sounds::Dice;

TEST_CASE("the median", "[listen][analytic]") {
    CHECK(median({5.0}) == 5.0);
    CHECK(median({9.0, 1.0, 2.0}) == 2.0);
    CHECK(median({9.0, 1.0, 2.0, 4.0}) == 3.0);
}

// Reference  samples of a standard normal distribution, whose deviation is 1.
// Tolerance  the promise of robust.hpp; 40,000 draws leave at most 0.005 of chance (one deviation).
TEST_CASE("the mean spread of normal values is their deviation", "[listen][analytic]") {
    Dice dice(1);
    const std::size_t count = GENERATE(2U, 3U, 4U, 5U, 8U, 10U, 11U, 20U);
    double sum = 0.0;
    const int draws = 40000;
    std::vector<double> values(count);
    for (int i = 0; i < draws; ++i) {
        for (double& value : values) value = dice.normal();
        sum += spread(values);
    }
    CAPTURE(count);
    CHECK_THAT(sum / draws, WithinAbs(1.0, kSpreadBias));
}

TEST_CASE("one wrong value does not widen the spread", "[listen][property]") {
    CHECK_THAT(spread({0.0, 1.0, 2.0, 3.0, 1200.0}), WithinAbs(1.8056, 1e-12));
    CHECK(spread({7.0}) == 0.0);
}

}  // namespace robust_test

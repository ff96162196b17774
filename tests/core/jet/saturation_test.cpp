// tests/core/jet/saturation_test.cpp: describing functions of the jet at the edge.
#include "core/jet/saturation.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/units.hpp"

using namespace canewright;
using Catch::WithinAbs;
using Catch::WithinRel;

// Reference  the two means by Simpson's rule over a whole period in 40000 steps.
TEST_CASE("the series gives the means", "[saturation][derived]") {
    for (const double y : {0.0, 0.25, 0.5, 1.25, 2.0}) {
        const Saturation saturation(y);
        for (const double a : {1e-3, 0.3, 1.0, 2.1, 5.0, 14.0, 39.0, 60.0}) {
            CAPTURE(y, a);
            double itself = 0.0, others = 0.0;
            constexpr int kSteps = 40000;
            for (int n = 0; n < kSteps; ++n) {
                const double weight = (n % 2 == 0 ? 2.0 : 4.0) / 3.0 / kSteps;
                const double sine = std::sin(2.0 * kPi * n / kSteps);
                const double t = std::tanh(a * sine - y);
                itself += weight * 2.0 / a * t * sine;
                others += weight * (1.0 - t * t);
            }
            CHECK_THAT(saturation.to_itself(a), WithinRel(itself, kSaturationError));
            CHECK_THAT(saturation.to_others(a), WithinRel(others, 3.0 * kSaturationError));
        }
    }
}

TEST_CASE("limits of the describing functions", "[saturation][derived]") {
    for (const double y : {0.0, 0.4, 1.0}) {
        const Saturation saturation(-y);  // either way
        const double sech = 1.0 / std::cosh(y);
        CHECK_THAT(saturation.to_itself(0.0), WithinRel(sech * sech, kSaturationError));
        CHECK_THAT(saturation.to_others(0.0), WithinRel(sech * sech, kSaturationError));
        CHECK_THAT(saturation.to_itself(1e4), WithinRel(4.0 / (kPi * 1e4), 1e-6));
        CHECK_THAT(saturation.to_others(1e4), WithinRel(2.0 / (kPi * 1e4), 1e-6));
    }
}

// Reference  to_itself(a) = sech^2 y + a^2/8 tanh'''(y) ..., and tanh''' = sech^2 (6 tanh^2 - 2)
//            changes sign where tanh^2 y = 1/3: y = 0.658.
TEST_CASE("beyond an offset of 0.658 a stronger swing is driven better", "[saturation][derived]") {
    const double change = std::atanh(std::sqrt(1.0 / 3.0));
    CHECK_THAT(change, WithinAbs(0.658, 0.001));
    CHECK(Saturation(change - 0.02).most_at() == 0.0);
    CHECK(Saturation(change + 0.02).most_at() > 0.0);
    const Saturation far(1.5);
    CHECK_THAT(far.most_at(), WithinAbs(2.4, 0.3));
    CHECK(far.to_itself(far.most_at()) > far.to_itself(0.0));
}

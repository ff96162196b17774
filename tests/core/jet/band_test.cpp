// tests/core/jet/band_test.cpp: the judgement bands.
#include "core/jet/band.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "core/base/noise.hpp"
#include "core/jet/jet.hpp"

using namespace canewright;
using Catch::WithinAbs;

// Source  judgement, physics notes of this project, section 6.
TEST_CASE("bands and what decides them", "[band][trade]") {
    CHECK(judge(928.0, 4.0, 14.0).band == Band::good);
    CHECK(judge(928.0, 4.0, 14.0).reason == BandReason::none);

    const Judgement slow = judge(300.0, 4.0, 5.0);
    CHECK(slow.band == Band::rough);
    CHECK(slow.reason == BandReason::reynolds);
    CHECK(slow.value == 300.0);
    CHECK(slow.limit == 500.0);
    CHECK(judge(159.0, 4.0, 5.0).band == Band::out);
    CHECK(judge(159.0, 4.0, 5.0).limit == 160.0);

    CHECK(judge(5000.0, 2.5, 14.0).reason == BandReason::short_window);
    CHECK(judge(5000.0, 1.9, 14.0).band == Band::out);
    CHECK(judge(5000.0, 9.0, 14.0).reason == BandReason::long_window);
    CHECK(judge(5000.0, 9.0, 14.0).limit == 8.0);
    CHECK(judge(5000.0, 12.5, 14.0).band == Band::out);
    CHECK(judge(5000.0, 12.5, 14.0).limit == 12.0);
    CHECK(judge(5000.0, 4.0, 36.0).reason == BandReason::fast_jet);
    CHECK(judge(5000.0, 4.0, 36.0).value == 36.0);
    CHECK(judge(5000.0, 4.0, 71.0).band == Band::out);
    CHECK(judge(5000.0, 2.5, 71.0).reason == BandReason::fast_jet);  // the worst decides
}

TEST_CASE("limits belong to the better band; what is no number is out", "[band][property]") {
    CHECK(judge(500.0, 4.0, 35.0).band == Band::good);
    CHECK(judge(375.0, 3.0, 35.0).band == Band::good);
    CHECK(judge(1000.0, 8.0, 35.0).band == Band::good);
    CHECK(judge(160.0, 4.0, 70.0).band == Band::rough);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    CHECK(judge(nan, 4.0, 10.0).band == Band::out);
    CHECK(judge(900.0, nan, 10.0).band == Band::out);
    CHECK(judge(900.0, 4.0, nan).band == Band::out);
}

TEST_CASE("a better number never makes a worse band", "[band][property]") {
    Noise noise(3, 0);
    for (int n = 0; n < 1000; ++n) {
        const double re = 3000.0 * noise.uniform(), ratio = 14.0 * noise.uniform();
        const double u = 90.0 * noise.uniform(), more = 1.0 + noise.uniform();
        const Band band = judge(re, ratio, u).band;
        CHECK(judge(re * more, ratio, u).band <= band);
        CHECK(judge(re, ratio, u / more).band <= band);
        if (ratio < kGoodLeastRatio)  // Re held to the window's measure, as the limit is
            CHECK(judge(re * more, ratio * more < kGoodMostRatio ? ratio * more : ratio, u).band <=
                  band);
    }
}

// Reference  spread_jet(): W / x0 = 37.5 (W/h) / Re_c, arithmetic.
TEST_CASE("the limits of Reynolds number are widenings of the jet", "[band][derived]") {
    Air air;
    air.density_kg_m3 = 1.2;
    air.viscosity_Pa_s = 1.8e-5;
    const double h = 1e-3, w = 4e-3;
    const auto widened = [&](double per_ratio) {
        const double u = per_ratio * (w / h) * air.viscosity_Pa_s / (air.density_kg_m3 * h);
        return spread_jet(air, h, u, w).half_width_m / (kHalfWidth * h);
    };
    CHECK_THAT(widened(kGoodReynolds), WithinAbs(1.2, 0.02));
    CHECK_THAT(widened(kRoughReynolds), WithinAbs(1.55, 0.02));
}

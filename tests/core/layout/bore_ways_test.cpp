// tests/core/layout/bore_ways_test.cpp: water, shanks, paper and calipers.
#include "core/layout/bore_ways.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <utility>

#include "core/base/units.hpp"

using namespace canewright;
using Catch::WithinAbs;
using Catch::WithinRel;

// Source     M. Tanaka et al., Metrologia 38 (2001) 301-309, recommended table (from memory):
//            density of air-free water at 101325 Pa.
// Tolerance  kWaterDensityError_kg_m3, as promised.
TEST_CASE("water weighs what the tables say", "[bore][published]") {
    const std::pair<double, double> rows[] = {{0.0, 999.8428},  {4.0, 999.9749},  {10.0, 999.7026},
                                              {15.0, 999.1026}, {20.0, 998.2067}, {25.0, 997.0470},
                                              {30.0, 995.6488}, {40.0, 992.2152}};
    for (const auto& [at_C, density] : rows) {
        CAPTURE(at_C);
        CHECK_THAT(water_density_kg_m3(at_C), WithinAbs(density, kWaterDensityError_kg_m3));
    }
}

// Reference  a cylinder of 18 mm by 400 mm: pi/4 1.8^2 40 = 101.788 ml; at 20 C 101.605 g true,
// less
//            0.105 % of buoyancy, 101.498 g on the scale. Worked by hand.
TEST_CASE("water gives the bore back", "[bore][analytic]") {
    CHECK_THAT(bore_from_volume(101.788e-6, 0.4).value_m, WithinAbs(0.018, 1e-7));
    CHECK_THAT(bore_from_mass(101.498e-3, 0.4, 20.0).value_m, WithinAbs(0.018, 1e-6));
    // warmer water is lighter: the same mass means more room
    CHECK(bore_from_mass(0.1, 0.4, 35.0).value_m > bore_from_mass(0.1, 0.4, 5.0).value_m);
}

// Reference  the same conversion at the ends of each error: no formula of propagation.
TEST_CASE("the bore's error is what the errors of filling make of it", "[bore][property]") {
    BoreTools tools;
    tools.left_g = tools.water_C = tools.syringe = tools.syringe_ml = 0.0;
    tools.scale_g = 0.0;
    const double by_length = 0.5 * (bore_from_mass(0.1, 0.4 - tools.length_m, 20.0).value_m -
                                    bore_from_mass(0.1, 0.4 + tools.length_m, 20.0).value_m);
    CHECK_THAT(bore_from_mass(0.1, 0.4, 20.0, tools).sigma_m, WithinRel(by_length, 1e-4));
    tools.length_m = 0.0;
    tools.left_g = 0.3;
    const double by_mass = 0.5 * (bore_from_mass(0.1003, 0.4, 20.0).value_m -
                                  bore_from_mass(0.0997, 0.4, 20.0).value_m);
    CHECK_THAT(bore_from_mass(0.1, 0.4, 20.0, tools).sigma_m, WithinRel(by_mass, 1e-4));
    tools.left_g = 0.0;
    tools.water_C = 1.0;
    const double by_warmth =
        0.5 * (bore_from_mass(0.1, 0.4, 21.0).value_m - bore_from_mass(0.1, 0.4, 19.0).value_m);
    CHECK_THAT(bore_from_mass(0.1, 0.4, 20.0, tools).sigma_m, WithinRel(by_warmth, 0.05));
}

TEST_CASE("a shank that goes and one that does not", "[bore][analytic]") {
    const MeasuredLength bore = bore_from_gauges(0.0175, 0.018);
    CHECK_THAT(bore.value_m, WithinAbs(0.01775, 1e-15));
    CHECK_THAT(bore.sigma_m, WithinRel(0.5e-3 / std::sqrt(12.0), 1e-12));  // uniform distribution
}

// Reference  a tube of 24 mm with paper of 0.1 mm round it: pi (24 + 0.1) = 75.712 mm of strip.
TEST_CASE("a strip of paper gives the outside", "[bore][analytic]") {
    CHECK_THAT(outer_from_girth(75.712e-3).value_m, WithinAbs(0.024, 1e-6));
    CHECK(outer_from_girth(75.712e-3).sigma_m > 0.3e-3 / kPi);
}

TEST_CASE("the most precise way comes first, and costs follow the slope", "[bore][property]") {
    const std::vector<double> slopes = {-30e3, -40e3, -50e3};  // cents per metre
    const double rms = std::sqrt((900.0 + 1600.0 + 2500.0) / 3.0) * 1e3;
    const auto ways = bore_ways(0.018, 0.4, slopes);
    REQUIRE(ways.size() == 5);
    std::map<BoreWay, BoreWayWorth> by_way;
    for (std::size_t n = 0; n < ways.size(); ++n) {
        CHECK_THAT(ways[n].cents, WithinRel(rms * ways[n].sigma_m, 1e-12));
        if (n > 0) CHECK(ways[n].sigma_m >= ways[n - 1].sigma_m);
        by_way.emplace(ways[n].way, ways[n]);
    }
    CHECK(ways.front().way == BoreWay::scale);
    // one step of 0.1 g in 101.6 g is 0.05 % of the bore
    CHECK_THAT(by_way.at(BoreWay::scale).step_cents, WithinRel(rms * 0.018 * 0.5 / 1016.05, 1e-3));
    CHECK_THAT(by_way.at(BoreWay::gauges).step_cents, WithinRel(rms * 0.5e-3, 1e-12));
    CHECK(std::isnan(by_way.at(BoreWay::calipers).step_cents));
    // a short narrow tube holds too little water for a kitchen scale of 1 g
    BoreTools kitchen;
    kitchen.scale_g = 5.0;
    CHECK(bore_ways(0.008, 0.12, slopes, kitchen).front().way != BoreWay::scale);
}

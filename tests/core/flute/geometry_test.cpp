// tests/core/flute/geometry_test.cpp: the bore between its stations.
#include "core/flute/geometry.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace canewright;
using Catch::WithinRel;

// Straight lines between stations, the end stations' diameters beyond. Tolerance  rounding.
TEST_CASE("the bore is straight between stations", "[geometry][analytic]") {
    const std::vector<BoreStation> bore = {
        {0.0, 0.010, 0.010}, {0.1, 0.012, 0.012}, {0.2, 0.011, 0.011}};
    CHECK(bore_diameter_m(bore, -0.01) == 0.010);
    CHECK(bore_diameter_m(bore, 0.0) == 0.010);
    CHECK_THAT(bore_diameter_m(bore, 0.05), WithinRel(0.011, 1e-14));
    CHECK_THAT(bore_diameter_m(bore, 0.1), WithinRel(0.012, 1e-14));
    CHECK_THAT(bore_diameter_m(bore, 0.175), WithinRel(0.01125, 1e-14));
    CHECK(bore_diameter_m(bore, 0.3) == 0.011);
    CHECK(bore_diameter_m(std::vector<BoreStation>{{0.0, 0.01, 0.01}}, 0.25) == 0.01);
}

// An ellipse of axes d1, d2 has the area of a circle of diameter sqrt(d1 d2).
TEST_CASE("an oval bore counts by its area", "[geometry][analytic]") {
    const std::vector<BoreStation> bore = {{0.0, 0.009, 0.016}};
    CHECK_THAT(bore_diameter_m(bore, 0.1), WithinRel(0.012, 1e-14));
}

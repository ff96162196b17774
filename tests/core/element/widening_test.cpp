// tests/core/element/widening_test.cpp: a steep change of the bore's width.
#include "core/element/widening.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/units.hpp"
#include "core/element/line.hpp"
#include "core/element/orifice.hpp"
#include "tests/support/figures.hpp"
#include "tests/support/flutes.hpp"
#include "tests/support/table.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;
using Catch::WithinRel;

// Source     own finite elements of the potential flow, which know nothing of the formula.
// Tolerance  kWideningError, and the figure of the README on cones that nothing was fitted to.
TEST_CASE("a widening's excess follows the potential flow", "[widening][reference]") {
    const std::vector<Row> unseen = table("fem/widenings-unseen.csv");
    REQUIRE(unseen.size() == 30);
    std::vector<Row> rows = table("fem/widenings.csv");
    REQUIRE(rows.size() >= 40);
    for (const Row& row : unseen) {
        const double a = 1.0 / row.number("ratio");
        CAPTURE(a, row.number("steepness"));
        CHECK_THAT(widening_excess_m(1.0, a, row.number("steepness") * (a - 1.0)),
                   WithinAbs(row.number("excess"), figure("widening_unseen").most()));
        rows.push_back(row);
    }
    CHECK(figure("widening_unseen").value <= kWideningError);
    for (const Row& row : rows) {
        const double a = 1.0 / row.number("ratio");
        const double length = row.number("steepness") * (a - 1.0);
        CAPTURE(a, length);
        CHECK_THAT(widening_excess_m(1.0, a, length),
                   WithinAbs(row.number("excess"), kWideningError));
        CHECK_THAT(widening_excess_m(0.004, 0.004 * a, 0.004 * length),
                   WithinRel(0.004 * widening_excess_m(1.0, a, length), 1e-12));
    }
}

// The finite elements themselves, where a cone is so short that it is a step: mode matching
// (thick_side_m(), in an infinite wall FL-0) knows nothing of them.
// 10 %: a slope of ten to one is no step yet.
TEST_CASE("the finite elements come to the step's known inertance", "[widening][reference]") {
    int compared = 0;
    for (const Row& row : table("fem/widenings.csv")) {
        if (row.number("steepness") > 0.1) continue;
        const double step = thick_side_m(1.0, 1.0 / row.number("ratio"));
        CHECK(row.number("excess") < step);
        CHECK(row.number("excess") > 0.90 * step);
        compared += 1;
    }
    CHECK(compared == 6);
}

// Limits, and in between less and less the longer the cone is.
TEST_CASE("a widening lies between a step and a slender cone", "[widening][analytic]") {
    const double b = 0.005, a = 0.007;
    CHECK_THAT(widening_excess_m(b, a, 1e-9), WithinRel(thick_side_m(b, a), 1e-3));
    CHECK_THAT(widening_excess_m(b, a, 1.0), WithinRel((a - b) * (a - b) * b / (2.0 * a), 2e-2));
    CHECK(widening_excess_m(b, b, 0.001) == 0.0);
    double before = thick_side_m(b, a);
    for (double length_m = 1e-4; length_m < 0.1; length_m *= 1.5) {
        const double now = widening_excess_m(b, a, length_m);
        CHECK(now < before);
        before = now;
    }
}

// A series inertance: flow passes, nothing is lost, and it grows with frequency.
TEST_CASE("a widening is a lossless inertance", "[widening][property]") {
    const Air air = played_air();
    const double excess_m = widening_excess_m(0.004, 0.005, 0.001);
    const TwoPort m = widening(air, 0.004, excess_m, 3000.0);
    CHECK(m.a == Complex(1.0));
    CHECK(m.c == Complex(0.0));
    CHECK(m.b.real() == 0.0);
    CHECK(m.b.imag() > 0.0);
    CHECK_THAT(widening(air, 0.004, excess_m, 6000.0).b.imag(), WithinRel(2.0 * m.b.imag(), 1e-12));
}

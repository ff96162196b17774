// tests/core/element/orifice_test.cpp: ridge and foot disc.
#include "core/element/orifice.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/units.hpp"
#include "core/element/line.hpp"
#include "tests/support/flutes.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;
using Catch::WithinRel;

// Source     V.A. Fok 1941, from memory; what can be confirmed without the paper is its limits: a
//            small opening in a wide duct keeps all of its end correction, a full one nothing.
TEST_CASE("the duct factor falls from 1 to 0", "[orifice][analytic]") {
    CHECK(duct_factor(0.0) == 1.0);
    CHECK_THAT(duct_factor(1.0), WithinAbs(0.0, 1e-12));
    double before = 1.0;
    for (double x = 0.01; x <= 1.0; x += 0.01) {
        CAPTURE(x);
        CHECK(duct_factor(x) <= before);
        CHECK(duct_factor(x) >= 0.0);
        before = duct_factor(x);
    }
}

// A thin round hole in a plane wall conducts 2 b (Rayleigh, classical): inertance rho / (2 b).
// Tolerance  the duct factor at a thousandth of the bore.
TEST_CASE("a small ridge has the inertance of a thin round hole", "[orifice][analytic]") {
    const Air air = lossless_air();
    const double b = 1e-5, w = 2.0 * kPi * 500.0;
    const TwoPort m = ridge(air, b, 1e-2, w);
    CHECK_THAT(m.b.imag(), WithinRel(w * air.density_kg_m3 / (2.0 * b), 2e-3));
    CHECK(m.b.real() == 0.0);
    CHECK(m.a == Complex(1.0));
    CHECK(m.c == Complex(0.0));
}

// No ridge when it opens to the whole bore; less opening, more inertance. No source needed.
TEST_CASE("a ridge that is knocked out is no ridge", "[orifice][property]") {
    const Air air = played_air();
    const double w = 2.0 * kPi * 500.0, a = 0.0095;
    CHECK(std::abs(ridge(air, a, a, w).b) == 0.0);
    double before = 0.0;
    for (double share = 0.98; share > 0.2; share -= 0.02) {
        const double now = ridge(air, share * a, a, w).b.imag();
        CHECK(now >= before);  // the factor is cut off at 0 above 0.93
        if (share < 0.92) CHECK(now > before);
        before = now;
    }
}

// A disc whose opening is the bore is a piece of bore; a small one adds 0.8216 of its radius at its
// inner face (row FL-0, an infinite flange). Reciprocal. Tolerance  rounding; the duct factor.
TEST_CASE("a foot disc is a flanged end and a short line", "[orifice][published]") {
    const Air air = lossless_air();
    const double w = 2.0 * kPi * 500.0, a = 0.0095, t = 0.002;
    const TwoPort full = foot_disc(air, a, t, a, w);
    const TwoPort line = cylinder(line_constants(air, a, w), t);
    CHECK(std::abs(full.b - line.b) < 1e-12 * std::abs(line.b));
    CHECK(std::abs(full.d - line.d) < 1e-12);

    const double b = 1e-5;
    const TwoPort small = foot_disc(air, b, 0.0, a, w);
    CHECK_THAT(small.b.imag() * kPi * b * b / (w * air.density_kg_m3 * b),
               WithinRel(check_value("FL-0").number("value"), 2e-3));
    const TwoPort disc = foot_disc(played_air(), 0.004, t, a, w);
    CHECK(std::abs(disc.a * disc.d - disc.b * disc.c - 1.0) < 1e-12);
    CHECK(disc.b.imag() > line.b.imag());
}

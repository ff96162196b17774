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

// V.A. Fok's function, from memory: the factor by which a duct shortens both ends of a thin round
// opening. Good up to b/a = 0.7 (its printed series goes wrong near 1).
double fok_factor(double x) {
    return 1.0 - 1.4092 * x + 0.33818 * std::pow(x, 3) + 0.06793 * std::pow(x, 5) -
           0.02287 * std::pow(x, 6) + 0.03015 * std::pow(x, 7) - 0.01641 * std::pow(x, 8);
}

// Source     Fok 1941 (above). Tolerance  0.3 % up to b/a = 0.6: more than his series misses there,
//            and kThinSideError.
TEST_CASE("a thin ring's side follows Fok's function", "[orifice][published]") {
    for (double x = 0.0; x <= 0.601; x += 0.05) {
        CAPTURE(x);
        CHECK_THAT(thin_side_m(x, 1.0),
                   WithinAbs(0.25 * kPi * x * fok_factor(x), (1e-3 + kThinSideError) * x));
    }
}

// Both vanish when the opening is the bore, and fall on the way. Limits: Rayleigh's pi/4 b, and
// row FL-0 (0.8216 b, infinite flange).
TEST_CASE("a side's length falls from its limit to nothing", "[orifice][analytic]") {
    const double b = 0.004;
    CHECK_THAT(thin_side_m(b, 1e3), WithinRel(0.25 * kPi * b, 1e-4));
    CHECK_THAT(thick_side_m(b, 1e3),
               WithinAbs(check_value("FL-0").number("value") * b, kThickSideError * b));
    CHECK(thin_side_m(b, b) == 0.0);
    CHECK(thick_side_m(b, b) == 0.0);
    double thin = 1.0, thick = 1.0;
    for (double x = 0.02; x < 1.0; x += 0.02) {
        CAPTURE(x);
        CHECK(thin_side_m(x, 1.0) / x < thin);
        CHECK(thick_side_m(x, 1.0) / x < thick);
        thin = thin_side_m(x, 1.0) / x;
        thick = thick_side_m(x, 1.0) / x;
    }
}

// A thin round hole in a plane wall conducts 2 b (Rayleigh, classical): inertance rho / (2 b).
TEST_CASE("a small thin ridge has the inertance of a thin round hole", "[orifice][analytic]") {
    const Air air = lossless_air();
    const double b = 1e-5, w = 2.0 * kPi * 500.0;
    const TwoPort m = ridge(air, b, 0.0, 1e-2, w);
    CHECK_THAT(m.b.imag(), WithinRel(w * air.density_kg_m3 / (2.0 * b), 2e-3));
    CHECK(m.b.real() == 0.0);
    CHECK(m.a == Complex(1.0));
    CHECK(m.c == Complex(0.0));
}

// No ridge when it opens to the whole bore; less opening or a thicker ring, more inertance.
TEST_CASE("a ridge that is knocked out is no ridge", "[orifice][property]") {
    const Air air = played_air();
    const double w = 2.0 * kPi * 500.0, a = 0.0095;
    CHECK(std::abs(ridge(air, a, 0.002, a, w).b) == 0.0);
    double before = 0.0;
    for (double share = 0.98; share > 0.2; share -= 0.02) {
        const double now = ridge(air, share * a, 0.002, a, w).b.imag();
        CHECK(now > before);
        CHECK(ridge(air, share * a, 0.003, a, w).b.imag() > now);
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

// A tube that narrows below the ring: at its end its wall lies within the bore at the ring.
TEST_CASE("a ridge wider than the tube's end is a ridge", "[orifice][property]") {
    const Air air = played_air();
    const double w = 2.0 * kPi * 300.0;
    const Complex far = ridge(air, 0.016, 0.002, 0.0234, w).b;
    const Complex near = ridge_by_end(air, 0.016, 0.002, 0.0234, 0.5, 0.0228, w).b;
    CHECK_THAT(near.imag(), WithinRel(far.imag(), 1e-12));
    CHECK(std::isfinite(ridge_by_end(air, 0.016, 0.002, 0.0234, 0.0, 0.0228, w).b.imag()));
}

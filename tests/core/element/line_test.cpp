// tests/core/element/line_test.cpp: cylinder and cone with losses.
#include "core/element/line.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/units.hpp"
#include "core/element/loss_function.hpp"
#include "tests/support/flutes.hpp"

using namespace canewright;
using namespace canewright::testing;

namespace line_test {  // its own where tests are compiled together
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {

double angular(double f_Hz) { return 2.0 * kPi * f_Hz; }

double largest_difference(const TwoPort& m, const TwoPort& n, double z) {
    // pressure and flow entries in one unit: b over z, c times z
    const double size =
        std::max({std::abs(n.a), std::abs(n.b) / z, std::abs(n.c) * z, std::abs(n.d)});
    return std::max({std::abs(m.a - n.a), std::abs(m.b - n.b) / z, std::abs(m.c - n.c) * z,
                     std::abs(m.d - n.d)}) /
           size;
}

double determinant_error(const TwoPort& m) { return std::abs(m.a * m.d - m.b * m.c - 1.0); }

}  // namespace

// Source     exact Zwikker & Kosten, evaluated outside the core with Keefe's air (rows ZK-*).
// Tolerance  half a unit of the last digit written down, 0.6 for the rounding of the constants.
TEST_CASE("lossy line constants agree with a separate evaluation", "[line][derived]") {
    const struct {
        const char* id;
        double radius_mm, f_Hz;
    } cases[] = {{"ZK-a3-f500", 3, 500},   {"ZK-a6-f250", 6, 250},      {"ZK-a6-f500", 6, 500},
                 {"ZK-a6-f1000", 6, 1000}, {"ZK-a9-f250", 9, 250},      {"ZK-a9-f500", 9, 500},
                 {"ZK-a9-f1000", 9, 1000}, {"ZK-a12.5-f500", 12.5, 500}};
    const Air air = keefe_air();
    for (const auto& k : cases) {
        CAPTURE(k.id);
        const double a_m = m_from_mm(k.radius_mm), w = angular(k.f_Hz);
        const LineConstants line = line_constants(air, a_m, w);
        const Row& row = check_value(k.id);
        CHECK_THAT(a_m * std::sqrt(air.density_kg_m3 * w / air.viscosity_Pa_s),
                   WithinAbs(row.number("value", 0), 6e-4));
        CHECK_THAT(line.propagation_1_m.real(), WithinAbs(row.number("value", 1), 6e-7));
        CHECK_THAT(w / line.propagation_1_m.imag(), WithinAbs(row.number("value", 2), 6e-5));
        const Complex relative =
            line.impedance * (kPi * a_m * a_m / (air.density_kg_m3 * air.sound_speed_m_s));
        CHECK_THAT(relative.real(), WithinAbs(row.number("value", 3), 6e-7));
        CHECK_THAT(relative.imag(), WithinAbs(row.number("value", 4), 6e-7));
    }
}

// Source     D.H. Keefe 1984: the series for wide tubes, coefficients from memory (rows KEEFE-s*),
//            confirmed here: the exact theory above meets them. His stated accuracy is 1 %.
// Tolerance  kWideSeriesError on Gamma and Zc as a whole, and on alpha alone.
TEST_CASE("the wide-tube series agrees with the exact line", "[line][published]") {
    const Air air = keefe_air();
    for (const double a_mm : {3.0, 4.35, 6.0, 9.5, 12.5})
        for (const double f_Hz : {250.0, 500.0, 1000.0, 2000.0}) {
            CAPTURE(a_mm, f_Hz);
            const double a_m = m_from_mm(a_mm);
            const LineConstants exact = line_constants(air, a_m, angular(f_Hz));
            const LineConstants wide = wide_line_constants(air, a_m, angular(f_Hz));
            CHECK_THAT(wide.propagation_1_m.real(),
                       WithinRel(exact.propagation_1_m.real(), kWideSeriesError));
            CHECK(std::abs(wide.propagation_1_m - exact.propagation_1_m) <
                  kWideSeriesError * std::abs(exact.propagation_1_m));
            CHECK(std::abs(wide.impedance - exact.impedance) <
                  kWideSeriesError * std::abs(exact.impedance));
            // the printed coefficients themselves, by Keefe's three decimals (0.0005 of 1.045)
            const double rv =
                a_m * std::sqrt(air.density_kg_m3 * angular(f_Hz) / air.viscosity_Pa_s);
            const double k = angular(f_Hz) / air.sound_speed_m_s;
            const auto c = [](int n) { return check_value("KEEFE-s1").number("value", n); };
            CHECK_THAT(exact.propagation_1_m.real() / k,
                       WithinRel(c(0) / rv + c(1) / (rv * rv) + c(2) / (rv * rv * rv), 5e-4));
            CHECK_THAT(exact.propagation_1_m.imag() / k,
                       WithinAbs(1.0 + check_value("KEEFE-s2").number("value") / rv, 4e-5));
        }
}

// Source     J.A. Kemp, thesis, Edinburgh 2002, 2.4.1 (rows KEMP-*): admittance of the wall's
// layer,
//            (1+j) C sqrt(f), C = 2.03e-5 viscous, 0.95e-5 thermal, "standard conditions".
// Reference  printed. The layer is what F(s) leaves in a wide tube: j k a F / 2.
// Tolerance  1.5 %: three and two digits, the temperature not stated (20 C gives 2.00e-5).
TEST_CASE("the layer along the wall has the published admittance", "[line][published]") {
    const Air air = moist_air(AirState{});
    const double f_Hz = 1000.0, a_m = 1.0,
                 w = angular(f_Hz);  // so wide that only the layer is left
    const double s = a_m * std::sqrt(air.density_kg_m3 * w / air.viscosity_Pa_s);
    const Complex scale = Complex(0.0, 0.5 * w / air.sound_speed_m_s * a_m) / std::sqrt(f_Hz);
    const Complex viscous = scale * loss_function(s);
    const Complex thermal =
        scale * loss_function(s * std::sqrt(air.prandtl())) * (air.heat_capacity_ratio - 1.0);
    for (const double part : {viscous.real(), viscous.imag()})
        CHECK_THAT(part, WithinRel(check_value("KEMP-ev").number("value"), 0.015));
    for (const double part : {thermal.real(), thermal.imag()})
        CHECK_THAT(part, WithinRel(check_value("KEMP-et").number("value"), 0.015));
}

// Source     rule of thumb in N.H. Fletcher & T.D. Rossing, alpha = 1.2e-5 sqrt(w) / a (row
//            FR-alpha, from memory; two digits). Tolerance  half of the second digit, 4 %.
TEST_CASE("attenuation of a wide pipe follows the handbook's rule", "[line][published]") {
    const double a_m = 0.0125, w = angular(500.0);
    CHECK_THAT(line_constants(keefe_air(), a_m, w).propagation_1_m.real() * a_m / std::sqrt(w),
               WithinRel(check_value("FR-alpha").number("value"), 0.04));
}

// Poiseuille: a very narrow tube resists a slow flow with 8 eta / (pi a^4) per length, and its air
// is compressed isothermally (general fluid mechanics). Tolerance  the next order in s^2.
TEST_CASE("a capillary resists as Poiseuille says", "[line][analytic]") {
    const Air air = keefe_air();
    const double a_m = 1e-5, w = angular(50.0);
    const LineConstants line = line_constants(air, a_m, w);
    const Complex series_per_m = line.propagation_1_m * line.impedance;
    const Complex shunt_per_m = line.propagation_1_m / line.impedance;
    CHECK_THAT(series_per_m.real(),
               WithinRel(8.0 * air.viscosity_Pa_s / (kPi * std::pow(a_m, 4)), 1e-4));
    CHECK_THAT(shunt_per_m.imag(),
               WithinRel(w * kPi * a_m * a_m * air.heat_capacity_ratio /
                             (air.density_kg_m3 * std::pow(air.sound_speed_m_s, 2)),
                         1e-4));
}

// Without losses the textbook line. Tolerance  rounding.
TEST_CASE("a lossless line is the textbook's", "[line][analytic]") {
    const Air air = lossless_air();
    const LineConstants line = line_constants(air, 0.01, angular(700.0));
    CHECK(line.propagation_1_m.real() == 0.0);
    CHECK_THAT(line.propagation_1_m.imag(), WithinRel(angular(700.0) / 345.0, 1e-14));
    CHECK_THAT(line.impedance.real(), WithinRel(1.18 * 345.0 / (kPi * 1e-4), 1e-14));
    const TwoPort half = cylinder(line, 345.0 / 700.0 / 2.0);  // half a wave: -1
    CHECK(std::abs(half.a + 1.0) < 1e-14);
    CHECK(std::abs(half.c * line.impedance) < 1e-14);
}

// Reference  200 short cylinders in a row, the definition of a taper without its formula.
// Tolerance  kConeError of the largest entry, at the taper the header names (5 %).
TEST_CASE("a cone is a row of short cylinders", "[line][property]") {
    const Air lossy = keefe_air(), lossless = lossless_air();
    for (const Air& air : {lossy, lossless})
        for (const double ratio : {0.95, 1.05})
            for (const double near_m : {0.003, 0.0125})
                for (const double f_Hz : {300.0, 1000.0, 2500.0}) {
                    CAPTURE(air.lossless, ratio, near_m, f_Hz);
                    const double length_m = 0.2, far_m = near_m * ratio, w = angular(f_Hz);
                    constexpr int kPieces = 200;
                    TwoPort row;
                    for (int i = 0; i < kPieces; ++i) {
                        const double r = near_m + (far_m - near_m) * (i + 0.5) / kPieces;
                        row = row * cylinder(line_constants(air, r, w), length_m / kPieces);
                    }
                    const TwoPort cone = frustum(air, near_m, far_m, length_m, w);
                    const double z = std::abs(line_constants(air, near_m, w).impedance);
                    CHECK(largest_difference(cone, row, z) < kConeError);
                }
}

// A cone closed at its tip resonates at n c / 2 x, x from the tip to the open end, like a tube open
// at both ends: general acoustics. Here the tip is cut at a ten-thousandth of the radius.
// Tolerance  1e-4 either way: the resonance lies between.
TEST_CASE("a complete cone has the harmonics of an open tube", "[line][analytic]") {
    const Air air = lossless_air();
    const double open_m = 0.012, tip_m = open_m * 1e-4, length_m = 0.4;
    const double from_apex_m = length_m / (1.0 - 1e-4);
    for (int n = 1; n <= 3; ++n) {
        CAPTURE(n);
        const double w = angular(n * air.sound_speed_m_s / (2.0 * from_apex_m));
        // closed tip: U1 = 0 with p2 = 0 at the open end needs d = 0
        const TwoPort low = frustum(air, tip_m, open_m, length_m, w * 0.9999);
        const TwoPort high = frustum(air, tip_m, open_m, length_m, w * 1.0001);
        CHECK(low.d.real() * high.d.real() < 0.0);
    }
}

// Two-ports of passive reciprocal lines have determinant 1; a cone without taper is a cylinder;
// two lengths in a row are one. Tolerance  rounding, amplified by the largest entries.
TEST_CASE("lines are reciprocal and add up", "[line][property]") {
    Dice dice(11);
    for (int i = 0; i < 200; ++i) {
        const Air air = i % 2 ? keefe_air() : lossless_air();
        const double near_m = dice.between(0.002, 0.0125), length_m = dice.between(0.001, 0.5);
        const double far_m = near_m * dice.between(0.8, 1.25), w = angular(dice.between(100, 4000));
        CAPTURE(i, near_m, far_m, length_m, w);
        const LineConstants line = line_constants(air, near_m, w);
        const TwoPort whole = cylinder(line, length_m);
        CHECK(line.propagation_1_m.real() >= 0.0);
        CHECK(determinant_error(whole) < 1e-12);
        CHECK(determinant_error(frustum(air, near_m, far_m, length_m, w)) < 1e-11);
        const double z = std::abs(line.impedance);
        CHECK(largest_difference(frustum(air, near_m, near_m, length_m, w), whole, z) == 0.0);
        CHECK(largest_difference(frustum(air, near_m, near_m * (1.0 + 1e-6), length_m, w), whole,
                                 z) < 1e-5);
        const TwoPort both = cylinder(line, 0.3 * length_m) * cylinder(line, 0.7 * length_m);
        CHECK(largest_difference(both, whole, z) < 1e-12);
    }
}

}  // namespace line_test

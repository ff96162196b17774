// tests/core/base/units_test.cpp -- conversion factors against their definitions.
#include "core/base/units.hpp"

#include <catch2/catch.hpp>
#include <cmath>

using namespace canewright;
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {
constexpr double kRounding = 1e-15;  // relative; a few roundings of double
}

// Source     international yard and pound agreement of 1959 (also ISO 31-1): 1 in = 25.4 mm, exact.
// Tolerance  a few roundings of double.
TEST_CASE("an inch is 25.4 mm", "[units][published]") {
    CHECK_THAT(m_from_inch(1.0), WithinRel(0.0254, kRounding));
    CHECK_THAT(mm_from_m(m_from_inch(1.0)), WithinRel(25.4, kRounding));
    CHECK_THAT(m_from_inch(36.0), WithinRel(0.9144, kRounding));  // the yard of the agreement
    CHECK_THAT(inch_from_m(0.9144), WithinRel(36.0, kRounding));
}

// Source     SI prefixes (BIPM, SI brochure, 9th edition, table 7). The doubles must be the very
//            ones of the literals, as units.hpp promises.
TEST_CASE("millimetres and centimetres become the nearest double", "[units][published]") {
    CHECK(m_from_mm(53.3) == 0.0533);
    CHECK(m_from_mm(18.4) == 0.0184);
    CHECK(m_from_mm(0.1) == 0.0001);
    CHECK(m_from_cm(5.0) == 0.05);
    CHECK_THAT(mm_from_m(0.0533), WithinRel(53.3, kRounding));
}

// Source     BIPM, SI brochure, 9th edition, 2.3.4: 0 C = 273.15 K; ISO 2533 (from memory):
//            standard atmosphere 15 C = 288.15 K, 101.325 kPa.
TEST_CASE("temperature, pressure, share", "[units][published]") {
    CHECK(K_from_C(0.0) == 273.15);
    CHECK_THAT(K_from_C(15.0), WithinRel(288.15, kRounding));
    CHECK_THAT(C_from_K(288.15), WithinAbs(15.0, 1e-12));
    CHECK_THAT(Pa_from_kPa(101.325), WithinRel(101325.0, kRounding));
    CHECK_THAT(kPa_from_Pa(101325.0), WithinRel(101.325, kRounding));
    // NIST SP 811, appendix B.8: conventional millimetre of water, 9.80665 Pa
    CHECK_THAT(Pa_from_water_mm(1.0), WithinRel(9.80665, kRounding));
    CHECK_THAT(water_mm_from_Pa(98.0665), WithinRel(10.0, kRounding));
    CHECK(ratio_from_percent(50.0) == 0.5);
    CHECK(percent_from_ratio(0.25) == 25.0);
}

// Source     just intervals in cents, as printed in general references: 6/5 315.64, 4/3 498.04,
//            3/2 701.96, 9/5 1017.60; an octave is 1200 by definition.
// Tolerance  half of the last printed digit.
TEST_CASE("cents of just intervals", "[units][published]") {
    CHECK_THAT(cents_between(6.0, 5.0), WithinAbs(315.64, 0.005));
    CHECK_THAT(cents_between(4.0, 3.0), WithinAbs(498.04, 0.005));
    CHECK_THAT(cents_between(3.0, 2.0), WithinAbs(701.96, 0.005));
    CHECK_THAT(cents_between(9.0, 5.0), WithinAbs(1017.60, 0.005));
    CHECK(cents_between(880.0, 440.0) == 1200.0);
    CHECK(cents_between(220.0, 440.0) == -1200.0);
    CHECK(std::isnan(cents_between(-1.0, 440.0)));
}

// Property: shifted_Hz undoes cents_between. Tolerance: the rounding of exp2 and log2.
TEST_CASE("shifting by cents and measuring them agree", "[units][property]") {
    for (double interval_cents = -2400.0; interval_cents <= 2400.0; interval_cents += 37.0) {
        CAPTURE(interval_cents);
        CHECK_THAT(cents_between(shifted_Hz(391.9954, interval_cents), 391.9954),
                   WithinAbs(interval_cents, 1e-9));
    }
    CHECK(shifted_Hz(440.0, 1200.0) == 880.0);
}

// Source     Machin 1706: pi = 16 atan(1/5) - 4 atan(1/239), an identity that needs no digits of
// it.
TEST_CASE("pi", "[units][analytic]") {
    CHECK_THAT(kPi, WithinRel(16.0 * std::atan(0.2) - 4.0 * std::atan(1.0 / 239.0), kRounding));
}

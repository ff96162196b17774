// tests/core/flute/turn_test.cpp: the angle of a reflection along a line and across lumps.
#include "core/flute/turn.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/units.hpp"
#include "core/element/line.hpp"
#include "tests/support/flutes.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;

// In a lossless line the angle is that of the wave: it grows by k L, many turns included; an ideal
// open end starts at 0, a closed one at pi / 2. Tolerance  rounding.
TEST_CASE("the angle grows with the length of a lossless line", "[turn][analytic]") {
    const Air air = lossless_air();
    const double w = 2.0 * kPi * 1000.0, k = w / air.sound_speed_m_s;
    const LineConstants line = line_constants(air, 0.01, w);
    CHECK_THAT(Turn(0.0, 1.0, line.impedance).angle_rad(), WithinAbs(0.0, 1e-14));
    CHECK_THAT(Turn(1.0, 0.0, line.impedance).angle_rad(), WithinAbs(0.5 * kPi, 1e-14));
    for (const double length_m : {0.01, 0.2, 1.0, 5.0}) {
        Turn turn(0.0, 1e-6, line.impedance);
        turn.travel(cylinder(line, length_m), k * length_m);
        CHECK_THAT(turn.angle_rad(), WithinAbs(k * length_m, 1e-11));
    }
}

// Another reference changes the angle, but not how often p or U has vanished: those places, n pi
// and (n + 1/2) pi, are shared. Tolerance  none: between the same multiples of pi / 2.
TEST_CASE("a new reference keeps the angle in its quarter turn", "[turn][property]") {
    Dice dice(8);
    const Air air = lossless_air();
    for (int i = 0; i < 200; ++i) {
        const double w = 2.0 * kPi * dice.between(100.0, 4000.0), length_m = dice.between(0.0, 2.0);
        const LineConstants line = line_constants(air, dice.between(0.003, 0.012), w);
        Turn turn(0.0, 1e-6, line.impedance);
        turn.travel(cylinder(line, length_m), w / air.sound_speed_m_s * length_m);
        const double before = turn.angle_rad();
        turn.refer_to(line.impedance * dice.between(0.1, 10.0));
        CAPTURE(before, turn.angle_rad());
        CHECK(std::floor(turn.angle_rad() / (0.5 * kPi)) == std::floor(before / (0.5 * kPi)));
    }
}

// A lump moves pressure and flow in a straight line: less than pi; taken back, the angle is back.
TEST_CASE("lumps turn by less than pi and can be undone", "[turn][property]") {
    Dice dice(9);
    for (int i = 0; i < 500; ++i) {
        // passive waves: more comes back from below than goes out on neither side
        const Complex start(dice.between(0.01, 1.0), dice.between(-3.0, 3.0));
        Turn turn(start, 1.0, Complex(1.0));
        const double before = turn.angle_rad();
        const Complex pressure(dice.between(0.0, 1.0), dice.between(-5.0, 5.0));
        turn.add_pressure(pressure);
        CHECK(std::abs(turn.angle_rad() - before) < kPi);
        turn.add_pressure(-pressure);
        CHECK_THAT(turn.angle_rad(), WithinAbs(before, 1e-12));
    }
}

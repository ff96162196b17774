// tests/core/flute/slips_test.cpp: registers of flutes whose open holes absorb what comes to them.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/units.hpp"
#include "tests/support/random_tubes.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;

// 25 Nov 2026: a wide thin-walled flute with six open holes was said to sound at 907 Hz and not at
// 455: between 394 and 442 Hz the count of half turns is one too high, and the passage through zero
// of the reactance in it was missed.
// Reference  a scan of the impedance alone: the first frequency, from below, where the reactance
//            passes zero upwards (downwards is where it does not sound).
// Tolerance  the scan's linear interpolation.
TEST_CASE("the first register is the first zero of the reactance", "[resonance][property]") {
    const Air air = played_air();
    Dice dice(77);
    int compared = 0;
    for (int n = 0; n < 1000; ++n) {
        const LayoutTask task = random_tube(dice, 0.03, air);
        const bool odd = n == 546 || n == 989;  // where the count slips up and back
        if (!odd && n % 100 != 0) continue;
        CAPTURE(n);
        const LayoutResult plan = place_holes(task, air);
        for (const NoteResult& note : plan.notes) {
            const Network network(plan.flute, air, note.open);
            const double from_Hz = 0.12 * air.sound_speed_m_s / network.first_open_m();
            double f_Hz = from_Hz, before = network.at(f_Hz).impedance.imag(), found_Hz = 0.0;
            while (found_Hz == 0.0 && f_Hz < 20.0 * from_Hz) {
                const double next_Hz = 1.002 * f_Hz;
                const Complex z = network.at(next_Hz).impedance;
                if (before < 0.0 && z.imag() >= 0.0)
                    found_Hz = f_Hz + (next_Hz - f_Hz) * before / (before - z.imag());
                before = z.imag();
                f_Hz = next_Hz;
            }
            REQUIRE(found_Hz > 0.0);
            CHECK_THAT(cents_between(resonance(network, 1).frequency_Hz, found_Hz),
                       WithinAbs(0.0, 0.2));
            ++compared;
        }
    }
    CHECK(compared > 60);
}

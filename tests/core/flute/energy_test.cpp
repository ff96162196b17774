// tests/core/flute/energy_test.cpp: where the energy of a flute is and where it goes.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/units.hpp"
#include "core/element/radiation.hpp"
#include "core/flute/network.hpp"
#include "core/flute/resonance.hpp"
#include "tests/support/flutes.hpp"

using namespace canewright;
using namespace canewright::testing;

// Source   R.M. Foster, Bell Syst. Tech. J. 3 (1924) 259-267 (textbook, from memory): the reactance
//          of a network without loss rises with frequency everywhere, since its slope is the stored
//          energy. A flute without friction loses a little by radiation: at an antiresonance that
//          makes its resistance a finite peak, through which the reactance falls. So places where
//          it resists more than a tenth of the bore's own impedance are left out; they are few.
TEST_CASE("stored energy is positive: the reactance rises", "[network][property]") {
    Dice dice(71);
    int looked = 0, left_out = 0;
    for (int i = 0; i < 40; ++i) {
        const Flute flute = random_flute(dice);
        const Air air = lossless_air();
        const Network network(flute, air, {});
        const double radius_m = 0.5 * bore_diameter_m(flute, 0.0);
        const double bore_impedance =
            air.density_kg_m3 * air.sound_speed_m_s / (kPi * radius_m * radius_m);
        for (double f = 80.0; f < 2500.0; f *= 1.021) {
            const Complex low = network.at(f * (1.0 - 1e-5)).impedance;
            const Complex high = network.at(f * (1.0 + 1e-5)).impedance;
            const double slope = (high.imag() - low.imag()) / 2e-5;  // per unit of ln f
            if (std::max(low.real(), high.real()) > 0.1 * bore_impedance) {
                ++left_out;
                continue;
            }
            ++looked;
            CAPTURE(i, f, slope);
            CHECK(slope > 0.0);
        }
    }
    CHECK(looked > 3000);
    CHECK(left_out < looked / 5);
}

// Energy is conserved: without friction, what the jet gives is what goes into the air. At a low
// frequency the two ends of a holeless tube are small against a wave and together a source of their
// summed flow, which at the resonance of a half wave nearly cancels; well below it, the tube is a
// short pipe through which the same flow goes in and comes out.
// Source   a pair of opposite monopoles at distance d radiates rho c k^2 (kd)^2 / (12 pi) of each
//          one's flow squared (textbook: dipole, from memory). Tolerance  a tenth: the ends' own
//          reactances and the flow stored in between.
TEST_CASE("what the jet gives is radiated", "[network][analytic]") {
    const double bore_m = 0.016, foot_m = 0.30;
    const Flute flute = plain_tube(bore_m, 0.002, foot_m);
    const Air air = lossless_air();
    const Network network(flute, air, {});
    const double first_Hz = resonance(network, 1).frequency_Hz;
    for (const double share : {0.02, 0.04}) {
        const double f = share * first_Hz;
        const double k = 2.0 * kPi * f / air.sound_speed_m_s;
        const double d = foot_m - 0.5 * flute.sound_hole.length_m;
        const double dipole =
            air.density_kg_m3 * air.sound_speed_m_s * k * k * (k * d) * (k * d) / (12.0 * kPi);
        CAPTURE(share, first_Hz);
        CHECK(network.at(f).impedance.real() / dipole == Approx(1.0).epsilon(0.1));
    }
}

// tests/core/flute/resonance_test.cpp: registers are found, counted and said to be missing.
#include "core/flute/resonance.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "core/base/units.hpp"
#include "core/element/radiation.hpp"
#include "tests/support/flutes.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;
using Catch::WithinRel;

// A plain lossless tube by hand: cot(k (L + delta)) = 1 / (k l_w) - tan(k cavity) without
// radiation, bisected here; the model adds radiation and what the openings do to each other.
// Reference  the window's length and the end's from their own tests. Tolerance  3 cents for that.
TEST_CASE("a plain tube resonates where its lengths say", "[resonance][analytic]") {
    const Air air = lossless_air();
    const Flute tube = plain_tube(0.0087, 0.0015, 0.172);
    const double a = 0.00435, centre_m = 0.5 * tube.sound_hole.length_m;
    const WindowShape window{a, tube.sound_hole.length_m, tube.sound_hole.width_m, tube.wall_m,
                             0.0};
    for (int n = 1; n <= 2; ++n) {
        double low = 200.0 * n, high = 1100.0 * n;
        for (int trip = 0; trip < 60; ++trip) {
            const double f = 0.5 * (low + high), k = 2.0 * kPi * f / air.sound_speed_m_s;
            const double l_w = window_inertance_length_m(window);
            // tan(k L) + X = 0, X the window beside the cavity, X = k l / (1 - k l tan(k cavity))
            const double x = k * l_w / (1.0 - k * l_w * std::tan(k * plug_cavity_length_m(window)));
            const double phase =
                k * (tube.foot_m - centre_m + open_end_correction_m(a, a + 0.0015, k)) +
                std::atan(x) + (x < 0.0 ? kPi : 0.0);
            (phase < n * kPi ? low : high) = f;
        }
        const Resonance r = resonance(tube, air, {}, n);
        CHECK(r.found);
        CHECK(r.converged);
        CHECK_THAT(cents_between(r.frequency_Hz, low), WithinAbs(0.0, 3.0));
    }
}

// Every resonance has a real impedance and the promised bracket. The answer does not depend on
// a guess within a tenth. Tolerance  kResonanceError.
TEST_CASE("a resonance is a zero of the reactance, from any near guess", "[resonance][property]") {
    Dice dice(31);
    int found = 0;
    for (int i = 0; i < 40; ++i) {
        const Flute flute = random_flute(dice);
        const Network network(flute, i % 2 ? played_air() : lossless_air(),
                              random_fingering(dice, flute));
        for (int n = 1; n <= 2; ++n) {
            const Resonance r = resonance(network, n);
            CAPTURE(i, n, r.frequency_Hz, r.why);
            if (n == 2 && std::string(r.why) == "faint_register") continue;
            REQUIRE(r.found);
            ++found;
            CHECK(r.converged);
            CHECK(r.evaluations < 150);
            const double h = 1e-9;
            const double below = network.at(r.frequency_Hz * (1 - h)).impedance.imag();
            const double above = network.at(r.frequency_Hz * (1 + h)).impedance.imag();
            CHECK(below < 0.0);
            CHECK(above > 0.0);
            for (const double guess : {0.9, 1.001, 1.1}) {
                const Resonance again = resonance(network, n, guess * r.frequency_Hz);
                CHECK_THAT(again.frequency_Hz, WithinRel(r.frequency_Hz, 2 * kResonanceError));
            }
        }
    }
    CHECK(found > 70);
}

// Where a resonance is known its digits are not sought again; a wrong guess changes nothing.
TEST_CASE("what is known is counted from below all the same", "[resonance][property]") {
    Dice dice(77);
    int sooner = 0;
    for (int i = 0; i < 60; ++i) {
        const Flute flute = random_flute(dice);
        const Network network(flute, played_air(), random_fingering(dice, flute));
        CAPTURE(i);
        const Resonance first = resonance(network, 1), second = resonance(network, 2);
        if (!first.found) continue;
        const Resonance again = first_resonance(network, first.frequency_Hz);
        REQUIRE(again.found);
        CHECK(std::abs(cents_between(again.frequency_Hz, first.frequency_Hz)) < kNearError_cents);
        for (const double wrong : {0.0, 1.01, 1.3}) {
            const Resonance other = first_resonance(network, wrong * first.frequency_Hz);
            CHECK(other.frequency_Hz == first.frequency_Hz);
        }
        const Resonance on = second_resonance(network, first.frequency_Hz);
        CHECK(on.found == second.found);
        CHECK(std::string(on.why) == second.why);
        if (second.found)
            CHECK_THAT(on.frequency_Hz, WithinRel(second.frequency_Hz, kResonanceError));
        if (again.evaluations < first.evaluations && on.evaluations < second.evaluations) ++sooner;
    }
    CHECK(sooner > 40);
}

// Said, not hidden: a resonance beyond the range the search covers, or of no numbers.
TEST_CASE("a missing resonance is said", "[resonance][property]") {
    const Air air = lossless_air();
    const Resonance high = resonance(plain_tube(0.006, 0.001, 0.04), air, {}, 6);
    CHECK_FALSE(high.found);
    CHECK_FALSE(high.converged);
    CHECK(std::isnan(high.frequency_Hz));
    CHECK(std::string(high.why) == "no_resonance");
    const Resonance low = resonance(plain_tube(0.025, 0.004, 12.0), air, {}, 1);
    CHECK_FALSE(low.found);
    CHECK(std::isnan(low.frequency_Hz));
    Flute nothing = plain_tube(0.01, 0.001, 0.2);
    nothing.wall_m = std::nan("");
    const Resonance none = resonance(nothing, air, {}, 1);
    CHECK_FALSE(none.found);
    CHECK(none.evaluations < 400);
}

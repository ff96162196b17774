// tests/core/tone/modes_test.cpp: a fingering's answer as a sum of modes.
#include "core/tone/modes.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/flute/resonance.hpp"
#include "core/jet/sounding.hpp"
#include "tests/core/jet/recorder.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;
using Catch::WithinRel;

// Reference  the network, at places that the fit has not seen.
TEST_CASE("the sum of modes is the network", "[tone][derived]") {
    const Air air = blown_air();
    for (int open = 0; open <= 6; ++open) {
        const Network network(recorder_like(), air, lowest_open(open));
        const ModalLoop loop = modes_of(network);
        REQUIRE(loop.found);
        CHECK(loop.error < kModesError);
        for (double f_Hz = 61.3; f_Hz < loop.top_Hz; f_Hz *= 1.021) {
            CAPTURE(open, f_Hz);
            CHECK(std::abs(loop.admittance(f_Hz) * network.at(f_Hz).impedance - 1.0) < kModesError);
        }
    }
}

// Reference  theory of resonance: a mode's frequency and quality are where and how sharply the
//            network resonates (core/flute/resonance, core/jet/sounding).
// Tolerance  neighbours pull a resonance by less than 2 cents at qualities above 30.
TEST_CASE("modes lie where the network resonates, and decay", "[tone][derived]") {
    const Network network(recorder_like(), blown_air(), lowest_open(3));
    const ModalLoop loop = modes_of(network);
    for (const Mode& each : loop.modes) CHECK(each.pole.real() < 0.0);
    for (const int number : {1, 2}) {
        const double f_Hz = resonance(network, number).frequency_Hz;
        const Mode* nearest = nullptr;
        const auto off = [&](const Mode& m) {
            return std::abs(m.pole.imag() / (2.0 * kPi) - f_Hz);
        };
        for (const Mode& each : loop.modes)
            if (nearest == nullptr || off(each) < off(*nearest)) nearest = &each;
        CHECK_THAT(cents_between(nearest->pole.imag() / (2.0 * kPi), f_Hz), WithinAbs(0.0, 2.0));
        CHECK_THAT(-0.5 * nearest->pole.imag() / nearest->pole.real(),
                   WithinRel(loop_quality(network, f_Hz), 0.05));
    }
}

// Reference  the flows themselves, as they come together (here each opening's by hand).
TEST_CASE("what is radiated is what leaves the openings", "[tone][derived]") {
    const Air air = blown_air();
    const Network network(recorder_like(), air, lowest_open(2));
    const ModalLoop loop = modes_of(network);
    for (const double f_Hz : {300.0, 561.0, 900.0, 1147.0, 2000.0}) {
        CAPTURE(f_Hz);
        const Network::State state = network.state(f_Hz);
        const double from_m = 0.002;  // the sound hole's middle
        const double places_m[] = {0.28, 0.25, 0.23, from_m};
        Complex sum = 0.0;
        for (std::size_t n = 0; n < 4; ++n) {
            const double away_m = std::sqrt(1.0 + std::pow(places_m[n] - from_m, 2.0));
            sum += state.openings[n].u / away_m *
                   std::exp(Complex(0.0, -2.0 * kPi * f_Hz / air.sound_speed_m_s * (away_m - 1.0)));
        }
        const Complex expected = -sum / state.openings[3].u / state.loop.impedance;
        CHECK(std::abs(loop.radiated(f_Hz) - expected) < 0.03 * std::abs(expected));
    }
}

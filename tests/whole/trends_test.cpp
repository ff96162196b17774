// tests/whole/trends_test.cpp: what every maker knows about which way the pitch goes.
//
// Source     common practice, no source; and plain physics. Over random flutes.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/units.hpp"
#include "tests/support/flutes.hpp"

using namespace canewright;
using namespace canewright::testing;

namespace {

constexpr int kFlutes = 40;

// Fingerings opened in order from the foot; all holes are at least a bore from the foot.
std::vector<Fingering> in_order(const Flute& flute) {
    const int holes = static_cast<int>(flute.holes.size());
    std::vector<Fingering> all(1);
    for (int opened = 1; opened <= holes; ++opened) {
        Fingering open;
        for (int h = holes - opened + 1; h <= holes; ++h) open.push_back(h);
        all.push_back(open);
    }
    return all;
}

// Five usual holes, so that every note has a clear resonance.
Flute usual_flute(Dice& dice) {
    const double bore_m = dice.between(0.006, 0.025);
    Flute flute =
        plain_tube(bore_m, bore_m * dice.between(0.12, 0.3), bore_m * dice.between(17, 24));
    for (int i = 0; i < 5; ++i)
        flute.holes.push_back(round_hole(flute.foot_m * (0.42 + 0.1 * i) * dice.between(0.99, 1.01),
                                         bore_m * dice.between(0.3, 0.5), flute.wall_m));
    return flute;
}

}  // namespace

TEST_CASE("a longer tube sounds lower", "[trends][trade]") {
    Dice dice(51);
    const Air air = played_air();
    for (int i = 0; i < kFlutes; ++i) {
        Flute flute = usual_flute(dice);
        flute.holes.clear();
        const double before = pitch_Hz(flute, air, {});
        flute.foot_m *= 1.01;
        CHECK(pitch_Hz(flute, air, {}) < before);
    }
}

TEST_CASE("a larger hole, or one nearer the sound hole, sounds higher", "[trends][trade]") {
    Dice dice(52);
    const Air air = played_air();
    for (int i = 0; i < kFlutes; ++i) {
        const Flute flute = usual_flute(dice);
        for (const Fingering& open : in_order(flute)) {
            if (open.empty()) continue;
            CAPTURE(i, open.size());
            const double before = pitch_Hz(flute, air, open);
            const std::size_t own = static_cast<std::size_t>(open.front() - 1);
            Flute larger = flute, nearer = flute, undercut = flute, thinner = flute;
            larger.holes[own].diameter_m *= 1.02;
            larger.holes[own].inner_diameter_m *= 1.02;
            nearer.holes[own].at_m -= 0.01 * flute.foot_m;
            undercut.holes[own].inner_diameter_m *= 1.05;
            thinner.holes[own].wall_m *= 0.95;
            for (const Flute& changed : {larger, nearer, undercut, thinner})
                CHECK(pitch_Hz(changed, air, open) > before);
        }
    }
}

TEST_CASE("opening the next hole sounds higher", "[trends][trade]") {
    Dice dice(53);
    const Air air = played_air();
    for (int i = 0; i < kFlutes; ++i) {
        const Flute flute = usual_flute(dice);
        double before = 0.0;
        for (const Fingering& open : in_order(flute)) {
            const double now = pitch_Hz(flute, air, open);
            CHECK(now > before);
            before = now;
        }
    }
}

TEST_CASE("sanding the foot raises the lowest note most, and the others too", "[trends][trade]") {
    Dice dice(54);
    const Air air = played_air();
    for (int i = 0; i < kFlutes; ++i) {
        const Flute flute = usual_flute(dice);
        Flute sanded = flute;
        sanded.foot_m *= 0.99;
        const double lowest = cents_between(pitch_Hz(sanded, air, {}), pitch_Hz(flute, air, {}));
        CHECK(lowest > 5.0);
        for (const Fingering& open : in_order(flute)) {
            if (open.empty()) continue;
            CAPTURE(i, open.size());
            const double rise =
                cents_between(pitch_Hz(sanded, air, open), pitch_Hz(flute, air, open));
            CHECK(rise < lowest);
            CHECK(rise > 0.0);
        }
    }
}

TEST_CASE("a covered hole flattens a little", "[trends][trade]") {
    Dice dice(55);
    const Air air = played_air();
    for (int i = 0; i < kFlutes; ++i) {
        Flute flute = usual_flute(dice);
        flute.fingers = Fingers::flat;
        Flute bare = flute;
        bare.holes.clear();
        const double flat = cents_between(pitch_Hz(flute, air, {}), pitch_Hz(bare, air, {}));
        CHECK(flat < 0.0);
        CHECK(flat > -60.0);  // five cavities of at most a twentieth of the tube's volume
    }
}

TEST_CASE("more CO2 sounds lower, a warmer room higher", "[trends][trade]") {
    const Flute flute = plain_tube(0.0125, 0.002, 0.25);
    const auto pitch = [&flute](double temperature_C, double co2) {
        return pitch_Hz(flute, moist_air({temperature_C, 0.8, co2, 101325.0}), {});
    };
    CHECK(pitch(25.0, 0.03) < pitch(25.0, 0.01));
    CHECK(pitch(30.0, 0.02) > pitch(20.0, 0.02));
    AirState room, hot;
    hot.temperature_C = 30.0;
    CHECK(pitch_Hz(flute, moist_air(sounding_air(hot)), {}) >
          pitch_Hz(flute, moist_air(sounding_air(room)), {}));
    // friction and heat conduction slow the sound: a lossy tube is lower than a lossless one
    Air air = played_air(), lossless = air;
    lossless.lossless = true;
    CHECK(pitch_Hz(flute, air, {}) < pitch_Hz(flute, lossless, {}));
}

TEST_CASE("the second register lies near an octave", "[trends][trade]") {
    Dice dice(56);
    const Air air = played_air();
    for (int i = 0; i < kFlutes; ++i) {
        const Flute flute = usual_flute(dice);
        const double interval =
            cents_between(pitch_Hz(flute, air, {}, 2), pitch_Hz(flute, air, {}, 1));
        CHECK(interval > 1130.0);
        CHECK(interval < 1270.0);
    }
}

// tests/core/flute/network_test.cpp: the network as a whole: passive, scaling, counted.
#include "core/flute/network.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <vector>

#include "core/base/units.hpp"
#include "core/element/orifice.hpp"
#include "core/flute/resonance.hpp"
#include "tests/support/flutes.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {

// Resonances as a fine scan sees them: the reactance rises through zero, and the loop resists less
// than the bore's own impedance (else it is an antiresonance).
std::vector<double> scanned_Hz(const Network& network, double bore_impedance, double from_Hz,
                               double to_Hz) {
    constexpr double kFine = 1.002;
    std::vector<double> found;
    Complex before = network.at(from_Hz).impedance;
    for (double f = from_Hz * kFine; f <= to_Hz; f *= kFine) {
        const Complex now = network.at(f).impedance;
        if (before.imag() < 0.0 && now.imag() >= 0.0 && now.real() < 0.9 * bore_impedance)
            found.push_back(f);
        before = now;
    }
    return found;
}

Flute scaled(Flute flute, double by) {
    for (BoreStation& s : flute.bore) s.at_m *= by, s.diameter_m *= by, s.across_m *= by;
    for (FingerHole& h : flute.holes)
        h.at_m *= by, h.diameter_m *= by, h.inner_diameter_m *= by, h.wall_m *= by;
    flute.wall_m *= by, flute.plug_offset_m *= by, flute.foot_m *= by;
    flute.sound_hole = {flute.sound_hole.length_m * by, flute.sound_hole.width_m * by,
                        flute.sound_hole.wall_m * by};
    if (flute.ridge)
        flute.ridge->at_m *= by, flute.ridge->opening_m *= by, flute.ridge->thickness_m *= by;
    if (flute.foot_plug) flute.foot_plug->opening_m *= by, flute.foot_plug->thickness_m *= by;
    return flute;
}

}  // namespace

// Elimination rounds in the last figures; what is compared is the loop's own size.
TEST_CASE("without a count the loop is the same, and the turn but for half turns",
          "[network][property]") {
    Dice dice(43);
    for (int i = 0; i < 40; ++i) {
        const Flute flute = random_flute(dice);
        Fingering open;
        for (int hole = 1; hole <= static_cast<int>(flute.holes.size()); ++hole)
            if (dice.whole(0, 1) == 1) open.push_back(hole);
        const Network network(flute, played_air(), open);
        Network other(flute, played_air(), {1});
        other.finger(open);
        CHECK(other.first_open_m() == network.first_open_m());
        CHECK(other.openings_m() == network.openings_m());
        for (int k = 0; k < 5; ++k) {
            const double f_Hz = dice.between(200.0, 2000.0);
            CAPTURE(i, f_Hz);
            const Loop counted = network.at(f_Hz), passing = network.passing(f_Hz);
            CHECK(other.at(f_Hz).impedance == counted.impedance);
            CHECK(std::abs(passing.impedance - counted.impedance) <=
                  1e-11 * (std::abs(counted.impedance) + counted.bore_impedance));
            CHECK(passing.bore_impedance == counted.bore_impedance);
            CHECK_THAT(std::remainder(passing.turn - counted.turn, kPi), WithinAbs(0.0, 1e-10));
        }
    }
}

// A flute without a player gives no power: the resistance of the loop is positive at every
// frequency, with losses and without.
TEST_CASE("the network is passive", "[network][property]") {
    Dice dice(41);
    for (int i = 0; i < 60; ++i) {
        const Flute flute = random_flute(dice);
        const bool lossless = i % 2 == 0;
        const Network network(flute, lossless ? lossless_air() : played_air(),
                              random_fingering(dice, flute));
        for (double f = 60.0; f < 4000.0; f *= 1.03) {
            CAPTURE(i, lossless, f);
            CHECK(network.at(f).impedance.real() > 0.0);
        }
    }
}

// Twice as large is an octave lower, exactly, where nothing is lost. Tolerance  1e-12.
TEST_CASE("a flute twice as large sounds an octave lower", "[network][property]") {
    Dice dice(42);
    const Air air = lossless_air();
    for (int i = 0; i < 40; ++i) {
        Flute flute = random_flute(dice);
        if (i % 4 == 1) flute.ridge = Ridge{0.25 * flute.foot_m, 0.8 * flute.bore[0].diameter_m};
        if (i % 4 == 2) flute.foot_plug = FootPlug{0.6 * flute.bore[0].diameter_m, 0.002};
        const Fingering open = random_fingering(dice, flute);
        for (int n = 1; n <= 2; ++n) {
            CAPTURE(i, n);
            CHECK_THAT(2.0 * pitch_Hz(scaled(flute, 2.0), air, open, n),
                       WithinRel(pitch_Hz(flute, air, open, n), 3e-12));
        }
    }
}

// No register is skipped, none invented: those that a fine scan of the reactance finds, in order.
// Tolerance  the scan's step.
TEST_CASE("registers are those that a fine scan finds", "[network][property][sweep]") {
    Dice dice(43);
    int compared = 0;
    for (int i = 0; i < 60; ++i) {
        const Flute flute = random_flute(dice);
        const bool lossless = i % 2 == 0;
        const Network network(flute, lossless ? lossless_air() : played_air(),
                              random_fingering(dice, flute));
        const double bore_m = bore_diameter_m(flute, 0.5 * flute.sound_hole.length_m);
        const Air& air = network.air();
        const double impedance =
            air.density_kg_m3 * air.sound_speed_m_s / (0.25 * kPi * bore_m * bore_m);
        const double high_Hz = 1.8 * air.sound_speed_m_s / network.first_open_m();
        const std::vector<double> scan = scanned_Hz(network, impedance, 60.0, high_Hz);
        const std::vector<double> clear =
            scanned_Hz(network, kFaint / 0.9 * impedance, 60.0, high_Hz);
        CAPTURE(i, lossless, flute.holes.size(), scan.size());
        REQUIRE(scan.size() >= 1);
        for (std::size_t n = 0; n < std::min<std::size_t>(scan.size(), 3); ++n) {
            const Resonance r = resonance(network, static_cast<int>(n) + 1);
            CAPTURE(n, r.frequency_Hz, scan[n]);
            if (n == 1 && std::string(r.why) == "faint_register") continue;
            CHECK(r.converged);
            // what is too faint for a second register is none
            const double should_Hz = n == 1 && clear.size() > 1 ? clear[1] : scan[n];
            CHECK_THAT(cents_between(r.frequency_Hz, should_Hz), WithinAbs(0.0, 4.0));
            ++compared;
        }
    }
    CHECK(compared > 100);
}

// Without open finger holes the turn rises steadily from 0 and passes n pi at the n-th register.
TEST_CASE("the turn of a closed tube counts its registers", "[network][property]") {
    Dice dice(44);
    for (int i = 0; i < 30; ++i) {
        const Flute flute = random_flute(dice);
        const Network network(flute, i % 2 ? played_air() : lossless_air(), {});
        // up to k a = 0.5, where open_end_impedance() ends; above, a narrow tube's foot may match
        // the bore and a register there is none
        const double c = network.air().sound_speed_m_s;
        const double high_Hz = std::min(2.5 * c / flute.foot_m,
                                        0.5 * c / (kPi * bore_diameter_m(flute, flute.foot_m)));
        double before = 0.0;
        for (double f = 40.0; f < high_Hz; f *= 1.01) {
            const double now = network.at(f).turn;
            CAPTURE(i, f);
            CHECK(now > before);
            before = now;
        }
        const int registers = static_cast<int>(before / kPi);
        CHECK(registers >= 3);
        for (int n = 1; n <= registers; ++n) {
            const double f = pitch_Hz(flute, network.air(), {}, n);
            CHECK(network.at(f * (1.0 - 1e-9)).turn < n * kPi);
            CHECK(network.at(f * (1.0 + 1e-9)).turn > n * kPi);
        }
    }
}

// The bore may be described in many ways. Tolerance  rounding; for a taper, the pieces' own model
// (kConeError turns into a fraction of a cent).
TEST_CASE("needless stations change nothing", "[network][property]") {
    const Air air = played_air();
    Flute flute = plain_tube(0.012, 0.002, 0.25);
    flute.holes = {round_hole(0.14, 0.005, 0.002), round_hole(0.17, 0.006, 0.002)};
    const double plain = pitch_Hz(flute, air, {2});
    flute.bore = {
        {0.0, 0.012, 0.012}, {0.1, 0.012, 0.012}, {0.155, 0.012, 0.012}, {0.25, 0.012, 0.012}};
    CHECK_THAT(pitch_Hz(flute, air, {2}), WithinRel(plain, 1e-11));
    flute.bore = {{0.0, 0.009, 0.016}};  // an oval of the same area
    CHECK_THAT(pitch_Hz(flute, air, {2}), WithinRel(plain, 1e-11));
    flute.bore = {{0.0, 0.012, 0.012}, {0.25, 0.0114, 0.0114}};
    const double tapered = pitch_Hz(flute, air, {2});
    flute.bore = {{0.0, 0.012, 0.012}, {0.1, 0.01176, 0.01176}, {0.25, 0.0114, 0.0114}};
    CHECK_THAT(cents_between(pitch_Hz(flute, air, {2}), tapered), WithinAbs(0.0, 0.05));
}

// A ring in the bore near the middle, where the first register flows least, does little; near an
// end it flattens. A disc in the foot flattens. A ridge outside the tube is no ridge.
TEST_CASE("ridge and foot disc act where air flows", "[network][property]") {
    const Air air = played_air();
    Flute flute = plain_tube(0.012, 0.002, 0.25);
    const double plain = pitch_Hz(flute, air, {});
    const auto ridged = [&](double at_m) {
        Flute f = flute;
        f.ridge = Ridge{at_m, 0.008};
        return cents_between(pitch_Hz(f, air, {}), plain);
    };
    CHECK(ridged(0.24) < -5.0);
    CHECK(std::abs(ridged(0.115)) < 0.1 * std::abs(ridged(0.24)));
    CHECK(ridged(0.3) == 0.0);
    CHECK(ridged(-0.001) == 0.0);
    flute.foot_plug = FootPlug{0.006, 0.002};
    CHECK(pitch_Hz(flute, air, {}) < plain);
}

// The same thing said twice: a disc in the foot, or a bore that steps down over a hundredth of a
// millimetre; the outside of either is as wide. Tolerance  0.1 cent: half a per cent of the step's
// inertance, and the hundredth itself.
TEST_CASE("a step of the bore before the foot is a disc in the foot", "[network][analytic]") {
    const Air air = played_air();
    Flute disc = plain_tube(0.012, 0.002, 0.25);
    Flute step = disc;
    disc.foot_plug = FootPlug{0.008, 0.003};
    step.bore = {{0.0, 0.012, 0.012}, {0.247, 0.012, 0.012}, {0.24701, 0.008, 0.008}};
    step.wall_m += 0.002;
    const double disc_Hz = pitch_Hz(disc, air, {});
    CHECK_THAT(cents_between(pitch_Hz(step, air, {}), disc_Hz), WithinAbs(0.0, 0.1));
    // Without the air's way round the corner it would not be: this can fail.
    disc.foot_m -= thick_side_m(0.004, 0.006);
    CHECK(std::abs(cents_between(pitch_Hz(step, air, {}), pitch_Hz(disc, air, {}))) > 2.0);
}

// The same taper in less length: the air has to go further sideways.
TEST_CASE("a steeper change of bore is flatter where air flows", "[network][property]") {
    const Air air = played_air();
    const auto changed_over_Hz = [&](double length_m) {
        Flute f = plain_tube(0.012, 0.002, 0.25);
        f.bore = {{0.0, 0.012, 0.012},
                  {0.22 - 0.5 * length_m, 0.012, 0.012},
                  {0.22 + 0.5 * length_m, 0.0095, 0.0095}};
        return pitch_Hz(f, air, {});
    };
    CHECK(cents_between(changed_over_Hz(0.0001), changed_over_Hz(0.004)) < -0.5);
    CHECK_THAT(cents_between(changed_over_Hz(0.0001), changed_over_Hz(0.0002)),
               WithinAbs(0.0, 0.2));
}

// tests/core/jet/sounding_test.cpp: quality of the loop and the pitch's shift with breath.
#include "core/jet/sounding.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/units.hpp"
#include "core/element/line.hpp"
#include "core/flute/slope.hpp"
#include "tests/support/random_tubes.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {

constexpr double kQuality = 25.0;

Network plain_network(const Air& air) { return Network(plain_tube(0.018, 0.003, 0.4), air, {}); }

}  // namespace

// Source     a line's quality w / (2 alpha v) (physics of resonators); end corrections store energy
//            that the wall does not damp, radiation takes some away: both a few per cent here.
// Tolerance  15 %: the tube is 0.4 m of line in 0.45 m of half wave.
TEST_CASE("the loop's quality is near that of its line", "[sounding][analytic]") {
    const Air air = played_air();
    const Network network = plain_network(air);
    const double f_Hz = resonance(network, 1).frequency_Hz;
    const LineConstants line = line_constants(air, 0.009, 2.0 * kPi * f_Hz);
    const double of_line = line.propagation_1_m.imag() / (2.0 * line.propagation_1_m.real());
    CHECK_THAT(loop_quality(network, f_Hz), WithinRel(of_line, 0.15));
}

// Reference  the frequency where the impedance's argument is 45 degrees: half the bandwidth, by the
//            definition of the quality and not by a slope.
// Tolerance  1 / Q of second order on either side, averaged.
TEST_CASE("the quality is the frequency over the bandwidth", "[sounding][analytic]") {
    const Network network = plain_network(played_air());
    const double f_Hz = resonance(network, 1).frequency_Hz;
    const auto edge_Hz = [&](double side) {
        double near = 0.0, far = 0.1;
        for (int trip = 0; trip < 60; ++trip) {
            const double middle = 0.5 * (near + far);
            const Complex z = network.at(f_Hz * (1.0 + side * middle)).impedance;
            (side * z.imag() < z.real() ? near : far) = middle;
        }
        return f_Hz * (1.0 + side * near);
    };
    const double bandwidth_Hz = edge_Hz(1.0) - edge_Hz(-1.0);
    CHECK_THAT(loop_quality(network, f_Hz), WithinRel(f_Hz / bandwidth_Hz, 0.01));
}

TEST_CASE("a lossless tube loses to radiation alone", "[sounding][property]") {
    const Network lossy = plain_network(played_air());
    const Network lossless = plain_network(lossless_air());
    CHECK(loop_quality(lossless, resonance(lossless, 1).frequency_Hz) >
          loop_quality(lossy, resonance(lossy, 1).frequency_Hz));
}

TEST_CASE("no shift at the design breath, rising with breath, bounded", "[sounding][property]") {
    CHECK_THAT(breath_shift_cents(kQuality, 1.0), WithinAbs(0.0, 1e-12));
    double last = breath_shift_cents(kQuality, kLeastBreath);
    for (double breath = kLeastBreath + 0.02; breath < kMostBreath; breath += 0.02) {
        const double here = breath_shift_cents(kQuality, breath);
        CHECK(here > last);
        last = here;
    }
    // the phase stays within pi / 4, so the tangent within 1
    const double bound = kCentsPerOctave * std::log2(1.0 + 0.5 / kQuality);
    for (const double breath : {0.0, 0.1, kLeastBreath, kMostBreath, 3.0, 100.0})
        CHECK(std::abs(breath_shift_cents(kQuality, breath)) < 1.03 * bound);
    CHECK(breath_shift_cents(kQuality, 0.1) == breath_shift_cents(kQuality, kLeastBreath));
    CHECK(breath_shift_cents(kQuality, 9.0) == breath_shift_cents(kQuality, kMostBreath));
}

// Source     df / f = tan(pi - 2 pi f W / (0.4 U)) / (2 Q) with f W / U = 0.2 / sqrt(breath): the
//            delay picture, worked here for breath 1.2 and Q 25 by hand: 2 pi 0.2 / 0.4 = pi,
//            pi (1 - 0.912871) = 0.273724, tan 0.280774, / 50 = 0.00561549, 9.694 cents.
TEST_CASE("the shift is the delay picture's", "[sounding][analytic]") {
    CHECK_THAT(breath_shift_cents(kQuality, 1.2), WithinAbs(9.694, 2e-3));
    const double step = 1e-6;
    CHECK_THAT(breath_slope_cents(kQuality), WithinRel((breath_shift_cents(kQuality, 1.0 + step) -
                                                        breath_shift_cents(kQuality, 1.0 - step)) /
                                                           (2.0 * step),
                                                       1e-6));
}

// Source     N. Bak, Acustica 22 (1969/70) 295: recorders rise by 30 to 60 cents from soft to loud
//            (from memory).
TEST_CASE("soft to loud is what recorders are known for", "[sounding][trade]") {
    const double range =
        breath_shift_cents(kQuality, kMostBreath) - breath_shift_cents(kQuality, kLeastBreath);
    CHECK(range > 30.0 * (1.0 - kBreathShiftError));
    CHECK(range < 60.0 * (1.0 + kBreathShiftError));
}

// Reference  the bracketed solution of the same network, its own guess.
// Tolerance  kNearError_cents, as promised in core/flute/resonance.hpp.
TEST_CASE("a good guess finds the same resonance in few evaluations", "[resonance][property]") {
    Dice dice(11);
    const Air air = played_air();
    for (int n = 0; n < 40; ++n) {
        CAPTURE(n);
        const LayoutResult plan = place_holes(random_tube(dice, 0.03, air), air);
        for (const NoteResult& note : plan.notes) {
            const Network network(plan.flute, air, note.open);
            const double f_Hz = resonance(network, 1).frequency_Hz;
            // the slope of a flute that is not quite this one
            const double given = Slope(network, f_Hz).cents_per_rad() * dice.between(0.9, 1.1);
            const double away_cents = dice.between(-20.0, 20.0);
            const Resonance near = resonance_near(network, 1, shifted_Hz(f_Hz, away_cents), given);
            REQUIRE(near.converged);
            CHECK_THAT(cents_between(near.frequency_Hz, f_Hz), WithinAbs(0.0, kNearError_cents));
            CHECK(near.evaluations <= 4);
            // a slope that is no good falls back on the search
            const Resonance wrong = resonance_near(network, 1, f_Hz, std::nan(""));
            CHECK_THAT(cents_between(wrong.frequency_Hz, f_Hz), WithinAbs(0.0, kNearError_cents));
        }
    }
}

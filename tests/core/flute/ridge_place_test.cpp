// tests/core/flute/ridge_place_test.cpp: a ring in the bore near whatever ends or opens it.
#include "core/flute/ridge_place.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/units.hpp"
#include "core/element/orifice.hpp"
#include "tests/support/flutes.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;

namespace {

constexpr double kBore_m = 0.018, kRidge_m = 0.36;

Flute ridged(double opening_share, double thickness_m, double at_m = kRidge_m) {
    Flute flute = plain_tube(kBore_m, 0.003, 0.39);
    flute.ridge = Ridge{at_m, opening_share * kBore_m, thickness_m};
    return flute;
}

// The steepest slope of the pitch along a sweep, up and down [cents per metre].
struct Slopes {
    double up = -1e9, down = 1e9;
};
template <class Make>
Slopes slopes(double from_m, double to_m, const Fingering& open, Make make) {
    constexpr double kStep_m = 2e-5;
    const Air air = played_air();
    Slopes s;
    double before_Hz = pitch_Hz(make(from_m), air, open);
    for (double x = from_m + kStep_m; x <= to_m; x += kStep_m) {
        const double now_Hz = pitch_Hz(make(x), air, open);
        const double slope = cents_between(now_Hz, before_Hz) / kStep_m;
        s.up = std::max(s.up, slope), s.down = std::min(s.down, slope);
        before_Hz = now_Hz;
    }
    return s;
}

}  // namespace

// A saw takes a ring away bit by bit. The pitch falls with a longer tube all the way, by at most
// three times the ring's own fall over its root (1.5 for a smooth way, 2 for the opening's area,
// which goes with the square), and nowhere at once.
TEST_CASE("a foot sawn through a ridge changes the pitch bit by bit", "[network][property]") {
    const Air air = played_air();
    for (const double thickness_m : {1e-4, 2e-3, 1e-2})
        for (const double share : {0.95, 0.8, 0.66})
            for (const bool disc : {false, true}) {
                CAPTURE(thickness_m, share, disc);
                const auto make = [&](double foot_m) {
                    Flute flute = ridged(share, thickness_m);
                    if (disc) flute.foot_plug = FootPlug{0.012, 0.003};
                    flute.foot_m = foot_m + (disc ? 0.003 : 0.0);
                    return flute;
                };
                const double half_m = 0.5 * std::max(thickness_m, kLeastRoot_m);
                const double fall = cents_between(pitch_Hz(make(kRidge_m - half_m), air, {}),
                                                  pitch_Hz(make(kRidge_m + half_m), air, {}));
                REQUIRE(fall > 0.0);
                const Slopes s = slopes(kRidge_m - 0.012, kRidge_m + 0.02, {}, make);
                CHECK(s.up < 0.0);
                CHECK(-s.down < 3.0 * fall / (2.0 * half_m));
            }
}

// Exact on both sides: beyond the foot a ridge is none; flush with the foot, a ring as thick as a
// disc is that disc (both are an inner side, a thickness and an open end of the opening).
// Tolerance  half a cent: the ring's root is still half there when its middle is in the plane, and
//            a line is not a lump.
TEST_CASE("a ridge at the foot is a disc, and beyond it nothing", "[network][analytic]") {
    const Air air = played_air();
    const Flute plain = plain_tube(kBore_m, 0.003, kRidge_m - 0.0021);
    Flute beyond = ridged(0.66, 0.004);
    beyond.foot_m = plain.foot_m;
    CHECK(pitch_Hz(beyond, air, {}) == pitch_Hz(plain, air, {}));

    Flute ring = ridged(0.66, 0.004);
    ring.foot_m = kRidge_m + 0.002;
    Flute disc = plain_tube(kBore_m, 0.003, ring.foot_m);
    disc.foot_plug = FootPlug{0.66 * kBore_m, 0.004};
    CHECK_THAT(cents_between(pitch_Hz(ring, air, {}), pitch_Hz(disc, air, {})),
               WithinAbs(0.0, 0.5));
    ring.foot_plug = FootPlug{0.9 * kBore_m, 0.001};  // the near field of an open end is worth more
    CHECK(std::abs(cents_between(pitch_Hz(ring, air, {}), pitch_Hz(disc, air, {}))) > 2.0);
}

// Far inside the bore the foot is not felt: the ring of core/element/orifice.
TEST_CASE("far from the foot a ridge is a ridge", "[orifice][property]") {
    const Air air = played_air();
    const double w = 2.0 * kPi * 400.0;
    const Complex inside = ridge(air, 0.006, 0.002, 0.009, w).b;
    CHECK(std::abs(ridge_by_end(air, 0.006, 0.002, 0.009, 0.09, 0.012, w).b - inside) <
          1e-12 * std::abs(inside));
    CHECK(std::abs(ridge_by_end(air, 0.009, 0.002, 0.009, 0.0, 0.012, w).b) < 1e-9);
}

// Flow comes in along the sound hole and goes out along a finger hole, so a ridge that passes them
// counts bit by bit. Near the sound hole it flattens as much as anywhere air flows: more than 20
// cents for this one. Bounds  its whole effect over half the way on which it changes.
TEST_CASE("a ridge near the sound hole and at a finger hole acts without a jump",
          "[network][property]") {
    const Air air = played_air();
    Flute plain = ridged(0.66, 0.002);
    plain.ridge.reset();
    const double length_m = plain.sound_hole.length_m;
    const auto at_sound_hole = [](double at_m) { return ridged(0.66, 0.002, at_m); };
    CHECK(pitch_Hz(at_sound_hole(-1e-6), air, {}) == pitch_Hz(plain, air, {}));
    const double whole =
        cents_between(pitch_Hz(at_sound_hole(length_m), air, {}), pitch_Hz(plain, air, {}));
    CHECK(whole < -20.0);
    const Slopes s = slopes(-0.005, 0.02, {}, at_sound_hole);
    CHECK(std::max(s.up, -s.down) < -whole / (0.5 * length_m));

    const auto at_hole = [&](double at_m) {
        Flute flute = ridged(0.66, 0.002, at_m);
        flute.holes.push_back(round_hole(0.25, 0.007, 0.003));
        return flute;
    };
    const double passing =
        cents_between(pitch_Hz(at_hole(0.26), air, {1}), pitch_Hz(at_hole(0.24), air, {1}));
    CHECK(passing > 10.0);
    const Slopes h = slopes(0.235, 0.265, {1}, at_hole);
    CHECK(std::max(h.up, -h.down) < passing / (0.5 * 0.009));
}

// tests/core/flute/ridge_test.cpp: a ridge lowers a note by where it stands in the wave.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/units.hpp"
#include "tests/support/flutes.hpp"

namespace canewright {
namespace {

using Catch::WithinAbs;

constexpr double kBore_m = 19e-3, kRidgeWall_m = 3e-3, kFoot_m = 0.4;

// Length of bore with the inertance that a thin round opening of 0.7 of the bore adds: two sides of
// pi/4 b times V.A. Fok's function at 0.7 (1941, from memory: 0.1398), on the opening's area.
double thin_ridge_length_m() {
    const double b = 0.35 * kBore_m;
    return 2.0 * 0.25 * kPi * b * 0.1398 / (0.7 * 0.7);
}

double ridge_cents(double at_m, const std::vector<FingerHole>& holes) {
    Flute flute = testing::plain_tube(kBore_m, kRidgeWall_m, kFoot_m);
    flute.holes = holes;
    const Air air = testing::lossless_air();
    const double without_Hz = testing::pitch_Hz(flute, air, {});
    flute.ridge = Ridge{at_m, 0.7 * kBore_m, 1e-7};
    return cents_between(testing::pitch_Hz(flute, air, {}), without_Hz);
}

}  // namespace

// Reference  first-order perturbation (Rayleigh): an inertance of length d where the flow is
//            U = cos(pi s / L), s from the foot's outer end, lowers f by d U^2 / L of itself; L is
//            half a wave. Tiny covered holes between change nothing.
// Tolerance  a tenth: second order, Fok's series at 0.7, the window not quite a piece of bore.
TEST_CASE("a ridge counts wherever it stands in the sounding bore", "[network][ridge][analytic]") {
    const double at_m = GENERATE(0.0052, 0.012, 0.030, 0.100, 0.200, 0.300, 0.385);
    const bool holes = GENERATE(false, true);
    CAPTURE(at_m, holes);
    std::vector<FingerHole> tiny;
    if (holes)
        tiny = {testing::round_hole(0.15, 0.3e-3, kRidgeWall_m),
                testing::round_hole(0.25, 0.3e-3, kRidgeWall_m)};
    const Air air = testing::lossless_air();
    const double f_Hz =
        testing::pitch_Hz(testing::plain_tube(kBore_m, kRidgeWall_m, kFoot_m), air, {});
    const double half_wave_m = 0.5 * air.sound_speed_m_s / f_Hz;
    const double flow = std::cos(kPi * (kFoot_m + 0.33 * kBore_m - at_m) / half_wave_m);
    const double share = thin_ridge_length_m() * flow * flow / half_wave_m;
    const double expected_cents = kCentsPerOctave * std::log2(1.0 - share);
    CHECK_THAT(ridge_cents(at_m, tiny), WithinAbs(expected_cents, 0.3 - 0.1 * expected_cents));
}

TEST_CASE("a ridge beyond the sounding bore changes nothing", "[network][ridge][analytic]") {
    for (const double at_m : {-0.02, 0.0, 0.003, kFoot_m, 0.45}) {
        CAPTURE(at_m);
        CHECK_THAT(ridge_cents(at_m, {}), WithinAbs(0.0, 1e-9));
    }
}

}  // namespace canewright

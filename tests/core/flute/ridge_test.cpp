// tests/core/flute/ridge_test.cpp: what a ridge, a covered hole and a disc do to the whole wave.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/units.hpp"
#include "core/element/finger_hole.hpp"
#include "tests/support/flutes.hpp"

namespace canewright::ridge_test {  // its own where tests are compiled together
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
    const double at_m = GENERATE(0.0085, 0.012, 0.030, 0.100, 0.200, 0.300, 0.385);
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
    for (const double at_m : {-0.02, 0.0, kFoot_m + 0.0011, 0.45}) {
        CAPTURE(at_m);
        CHECK_THAT(ridge_cents(at_m, {}), WithinAbs(0.0, 1e-9));
    }
}

// Reference  first-order perturbation (Rayleigh): a covered hole is a negative length t_a where air
//            flows and a volume where it is pressed; both by their own formulas at low frequency,
//            the lid's round side from geometry. s and L as above.
// Tolerance  a tenth and 0.05 cents: second order.
TEST_CASE("a covered hole counts by where it stands", "[network][covered][analytic]") {
    const double at_m = GENERATE(0.030, 0.100, 0.190, 0.300, 0.380);
    CAPTURE(at_m);
    const Air air = testing::lossless_air();
    Flute flute = testing::plain_tube(kBore_m, kRidgeWall_m, kFoot_m);
    flute.fingers = Fingers::flat;
    const double f_Hz = testing::pitch_Hz(flute, air, {});
    const double b = 3e-3, a = 0.5 * kBore_m, t = kRidgeWall_m;
    flute.holes = {testing::round_hole(at_m, 2.0 * b, t)};
    const double half_wave_m = 0.5 * air.sound_speed_m_s / f_Hz;
    const double s = kPi * (kFoot_m + 0.66 * a - at_m) / half_wave_m;
    const double along_m = closed_series_length_m(b, b / a, t);
    const double volume_m =
        b * b / (a * a) * (t + matching_length_m(b, b / a) - b * b / (8.0 * (a + t)));
    const double share =
        (along_m * std::pow(std::cos(s), 2) + volume_m * std::pow(std::sin(s), 2)) / half_wave_m;
    const double expected_cents = kCentsPerOctave * std::log2(1.0 - share);
    CHECK_THAT(cents_between(testing::pitch_Hz(flute, air, {}), f_Hz),
               WithinAbs(expected_cents, 0.05 + 0.1 * std::abs(expected_cents)));
}

// Reference  at low frequency a disc in the foot is so much more tube: a flute with a disc and one
//            without, longer so that it sounds the same, agree on other notes too, where the foot
//            is half a tone hole away. Tolerance  2 cents: the disc's length grows with frequency.
TEST_CASE("a disc is so much more tube, for other notes too", "[network][disc][analytic]") {
    const Air air = testing::lossless_air();
    Flute disc = testing::plain_tube(kBore_m, kRidgeWall_m, kFoot_m);
    disc.holes = {testing::round_hole(0.33, 4e-3, kRidgeWall_m)};
    Flute longer = disc;
    const double shorter_Hz = testing::pitch_Hz(disc, air, {1});
    disc.foot_plug = FootPlug{0.6 * kBore_m, 5e-3};
    double low_m = kFoot_m, high_m = 1.3 * kFoot_m;
    for (int n = 0; n < 50; ++n) {
        longer.foot_m = 0.5 * (low_m + high_m);
        (testing::pitch_Hz(longer, air, {}) > testing::pitch_Hz(disc, air, {}) ? low_m : high_m) =
            longer.foot_m;
    }
    const double open_Hz = testing::pitch_Hz(disc, air, {1});
    CHECK(cents_between(shorter_Hz, open_Hz) > 6.0);  // the disc is felt through the hole
    CHECK_THAT(cents_between(open_Hz, testing::pitch_Hz(longer, air, {1})), WithinAbs(0.0, 2.0));
}

}  // namespace canewright::ridge_test

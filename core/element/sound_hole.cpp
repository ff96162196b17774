// core/element/sound_hole.cpp: inertance of a rectangular opening near a plug.
#include "core/element/sound_hole.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/element/radiation.hpp"
#include "core/element/sound_hole_terms.hpp"
#include "core/element/strip.hpp"
#include "core/element/voice.hpp"

namespace canewright {
namespace {

// Half the bore's width where the opening is: of the round bore, or of the least oval one of the
// same area that the opening fits into.
double half_across_m(const WindowShape& s) { return std::max(s.bore_radius_m, 0.5 * s.width_m); }

// Mean thickness of the tube's wall along an opening with parallel sides: between two ellipses.
double mean_wall_m(const WindowShape& s) {
    const double half = 0.5 * s.width_m;
    // under a chord of an ellipse, `across` being its half axis along the chord
    const auto area = [half](double across_m, double up_m) {
        const double share = half / across_m;
        return up_m * (half * std::sqrt(1.0 - share * share) + across_m * std::asin(share));
    };
    const double across_m = half_across_m(s);
    const double up_m = s.bore_radius_m * (s.bore_radius_m / across_m);
    return (area(across_m + s.wall_m, up_m + s.wall_m) - area(across_m, up_m)) / s.width_m;
}

// End length of both sides together [m].
double end_length_m(const WindowShape& s) {
    const double W = s.length_m, H = s.width_m, off = s.plug_offset_m, a = s.bore_radius_m;
    // a flat wall on both sides, and the image of the opening in the plug
    const double flat =
        (2.0 * strip_potential_m3(W, H) +
         0.5 * std::exp(-3.0 * off / a) *
             (strip_potential_m3(2.0 * off + 2.0 * W, H) -
              2.0 * strip_potential_m3(2.0 * off + W, H) + strip_potential_m3(2.0 * off, H))) /
        (2.0 * kPi * W * H);
    const double W_to_a = std::clamp(W / a, kWindowHeld.length_min, kWindowHeld.length_max);
    const double H_to_2a =
        std::clamp(0.5 * H / half_across_m(s), kWindowHeld.width_min, kWindowHeld.width_max);
    const double t_to_a = std::clamp(s.wall_m / a, kWindowHeld.wall_min, kWindowHeld.wall_max);
    const double x[4] = {std::log(W_to_a), std::asin(H_to_2a), std::exp(-4.0 * off / a),
                         t_to_a / (t_to_a + 0.4)};
    double power[4][kHighestWindowPower + 1];
    for (int i = 0; i < 4; ++i) {
        power[i][0] = 1.0;
        for (int n = 1; n <= kHighestWindowPower; ++n) power[i][n] = power[i][n - 1] * x[i];
    }
    double factor = 0.0;
    for (const WindowTerm& t : kWindowTerms)
        factor += t.c * power[0][t.p1] * power[1][t.p2] * power[2][t.p3] * power[3][t.p4];
    return flat * factor;
}

// Of the bare opening's length; no shape that was solved comes near.
constexpr double kMostVoiceLess = 0.5, kMostVoiceMore = 1.0;

double bore_area_m2(const WindowShape& s) { return kPi * s.bore_radius_m * s.bore_radius_m; }

bool alike(const WindowShape& a, const WindowShape& b) {
    return a.bore_radius_m == b.bore_radius_m && a.length_m == b.length_m &&
           a.width_m == b.width_m && a.wall_m == b.wall_m && a.plug_offset_m == b.plug_offset_m &&
           a.inertance_factor == b.inertance_factor && a.voice == b.voice;
}

double inertance_length_m(const WindowShape& s) {
    const double bare_m = mean_wall_m(s) + end_length_m(s);
    // far outside its range a voice's share is no more than a share
    const double change_m =
        std::clamp(voice_end_change_m(s), -kMostVoiceLess * bare_m, kMostVoiceMore * bare_m);
    const double length_m =
        bore_area_m2(s) / (s.length_m * s.width_m) * (bare_m + change_m) - s.length_m / 6.0;
    return s.inertance_factor * std::max(length_m, 0.0);
}

}  // namespace

// A layout asks for the same opening a thousand times: the last answer is kept, of each thread (our
// WebAssembly has one, and its linker knows no other).
#ifdef __wasm__
#define CANEWRIGHT_EACH_THREAD
#else
#define CANEWRIGHT_EACH_THREAD thread_local
#endif
double window_inertance_length_m(const WindowShape& s) {
    static CANEWRIGHT_EACH_THREAD WindowShape last{};
    static CANEWRIGHT_EACH_THREAD double last_m = 0.0;
    if (!alike(s, last)) {
        last_m = inertance_length_m(s);
        last = s;
    }
    return last_m;
}

double plug_cavity_length_m(const WindowShape& s) {
    return s.plug_offset_m + 0.5 * s.length_m +
           kSlotShare * s.length_m * s.width_m * s.wall_m / bore_area_m2(s);
}

bool in_window_range(const WindowShape& s) {
    const double a = s.bore_radius_m;
    const auto within = [](double x, double low, double high) { return x >= low && x <= high; };
    return within(s.wall_m / a, kWindowRange.wall_min, kWindowRange.wall_max) &&
           within(s.length_m / a, kWindowRange.length_min, kWindowRange.length_max) &&
           within(s.width_m / (2.0 * a), kWindowRange.width_min, kWindowRange.width_max) &&
           s.plug_offset_m <= kWindowRange.offset_max * a;
}

Complex window_impedance(const Air& air, const WindowShape& s, double inertance_length_m,
                         double angular_Hz) {
    const double kW = angular_Hz / air.sound_speed_m_s * s.length_m;
    const double length_m = inertance_length_m * (1.0 + kWindowGrowth * kW * kW);
    return Complex(radiation_resistance(air, angular_Hz),
                   angular_Hz * air.density_kg_m3 * length_m / bore_area_m2(s));
}

Complex window_impedance(const Air& air, const WindowShape& s, double angular_Hz) {
    return window_impedance(air, s, window_inertance_length_m(s), angular_Hz);
}

}  // namespace canewright

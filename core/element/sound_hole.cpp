// core/element/sound_hole.cpp: inertance of a rectangular opening near a plug.
#include "core/element/sound_hole.hpp"

#include <cmath>

#include "core/base/units.hpp"
#include "core/element/radiation.hpp"
#include "core/element/sound_hole_terms.hpp"

namespace canewright {
namespace {

// Self and mutual potential of a strip s long and H wide in a flat wall:
// the integral of 1/distance over pairs of points, by its closed form [m^3].
double strip_potential_m3(double s, double H) {
    if (s <= 0.0) return 0.0;
    return 2.0 * (s * s * H * std::asinh(H / s) + s * H * H * std::asinh(s / H)) +
           2.0 / 3.0 * (s * s * s + H * H * H - std::pow(s * s + H * H, 1.5));
}

// Mean thickness of the tube's wall along an opening with parallel sides.
double mean_wall_m(const WindowShape& s) {
    const double half = 0.5 * s.width_m;
    const auto area = [half](double radius_m) {
        return half * std::sqrt(radius_m * radius_m - half * half) +
               radius_m * radius_m * std::asin(half / radius_m);
    };
    return (area(s.bore_radius_m + s.wall_m) - area(s.bore_radius_m)) / s.width_m;
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
    const double x[4] = {std::log(W / a), std::asin(0.5 * H / a), std::exp(-4.0 * off / a),
                         s.wall_m / (s.wall_m + 0.4 * a)};
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

double bore_area_m2(const WindowShape& s) { return kPi * s.bore_radius_m * s.bore_radius_m; }

}  // namespace

double window_inertance_length_m(const WindowShape& s) {
    const double length_m =
        bore_area_m2(s) / (s.length_m * s.width_m) * (mean_wall_m(s) + end_length_m(s)) -
        s.length_m / 6.0;
    return s.inertance_factor * length_m;
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

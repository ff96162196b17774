// core/element/sound_hole.cpp: inertance of a rectangular opening near a plug.
#include "core/element/sound_hole.hpp"

#include <cmath>

#include "core/base/units.hpp"
#include "core/element/radiation.hpp"

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

// End corrections of a uniform flow through the opening, both sides and the plug's image [m].
double uniform_end_m(const WindowShape& s) {
    const double W = s.length_m, H = s.width_m, off = s.plug_offset_m;
    const double a = s.bore_radius_m, Ro = a + s.wall_m;
    const double flat = strip_potential_m3(W, H) / (2.0 * kPi * W * H);
    const double image =
        (strip_potential_m3(2.0 * off + 2.0 * W, H) - 2.0 * strip_potential_m3(2.0 * off + W, H) +
         strip_potential_m3(2.0 * off, H)) /
        (4.0 * kPi * W * H);
    const double w = W / a, h = H / (2.0 * a), o = off / a;
    const double v = W / Ro, g = H / (2.0 * Ro);
    const double inside = 1.0 - 0.1431 * w - 0.1553 * h + 0.0513 * w * w - 0.1811 * w * h -
                          0.1026 * h * h - 0.0111 * w * w * w + 0.0254 * w * w * h +
                          0.1076 * w * h * h - 0.0823 * h * h * h;
    const double outside = 1.0 - 0.1515 * v - 0.3635 * g + 0.1093 * v * v - 0.0210 * v * g +
                           0.3488 * g * g - 0.0308 * v * v * v - 0.0057 * v * v * g +
                           0.0288 * v * g * g - 0.2597 * g * g * g;
    const double plug = 1.0 - 0.6688 * w - 0.2077 * h + 0.5660 * o + 0.1478 * w * w +
                        0.1552 * w * h - 0.3564 * w * o - 0.1714 * h * h - 0.0649 * h * o -
                        0.0743 * o * o;
    return flat * (inside + outside) + image * std::exp(-3.0 * o) * plug;
}

// How much shorter the ends are since the flow crowds at the edges. First line: rectangular hole
// in a flat wall, mode matching. Second: five constants from finite elements.
double uneven_flow_factor(const WindowShape& s) {
    const double W = s.length_m;
    const double tau = s.wall_m / std::sqrt(W * s.width_m / kPi);
    const double aspect = std::log(s.width_m / W);
    const double lam = aspect * aspect;
    const double chord = std::asin(s.width_m / (2.0 * s.bore_radius_m));
    const double P = chord * chord, X = std::exp(-2.0 * tau), w = W / s.bore_radius_m;
    return 0.9660 + 0.0030 * lam -
           (0.0500 - 0.0036 * lam) * std::exp(-4.19 * std::pow(tau, 0.761)) - 0.0508 * P -
           0.0098 * w - 0.0530 * w * P * X - 0.0242 * P * X -
           0.0029 * W / (W + 4.0 * s.plug_offset_m);
}

}  // namespace

double window_inertance_length_m(const WindowShape& s) {
    const double per_area = kPi * s.bore_radius_m * s.bore_radius_m / (s.length_m * s.width_m);
    const double length_m =
        per_area * (mean_wall_m(s) + uneven_flow_factor(s) * uniform_end_m(s)) - s.length_m / 6.0;
    return s.inertance_factor * length_m;
}

double plug_cavity_length_m(const WindowShape& s) {
    const double chord = std::asin(s.width_m / (2.0 * s.bore_radius_m));
    const double P = chord * chord;  // three constants from finite elements
    return s.plug_offset_m + 0.5 * s.length_m + 0.0623 * s.length_m + 0.3382 * s.length_m * P -
           0.1703 * s.bore_radius_m * P;
}

bool in_window_range(const WindowShape& s) {
    const double a = s.bore_radius_m;
    const auto within = [](double x, double low, double high) { return x >= low && x <= high; };
    return within(s.wall_m / a, kWindowRange.wall_min, kWindowRange.wall_max) &&
           within(s.length_m / a, kWindowRange.length_min, kWindowRange.length_max) &&
           within(s.width_m / (2.0 * a), kWindowRange.width_min, kWindowRange.width_max) &&
           s.plug_offset_m <= kWindowRange.offset_max * a;
}

Complex window_impedance(const Air& air, const WindowShape& s, double angular_Hz) {
    const double area_m2 = kPi * s.bore_radius_m * s.bore_radius_m;
    return Complex(radiation_resistance(air, angular_Hz),
                   angular_Hz * air.density_kg_m3 * window_inertance_length_m(s) / area_m2);
}

}  // namespace canewright

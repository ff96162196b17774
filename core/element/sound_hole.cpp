// core/element/sound_hole.cpp: inertance of a rectangular opening near a plug.
#include "core/element/sound_hole.hpp"

#include <cmath>

#include "core/base/units.hpp"
#include "core/element/radiation.hpp"

namespace canewright {

double window_inertance_length_m(const WindowShape& w) {
    const double a = w.bore_radius_m;
    const double area_m2 = w.length_m * w.width_m;
    const double equal_radius_m = std::sqrt(area_m2 / kPi);
    const double r = equal_radius_m / a;
    const double chord = w.width_m / (2.0 * a);
    const double shape = std::log(w.width_m / w.length_m);
    const double g = w.plug_offset_m / (w.plug_offset_m + 0.15 * a);
    const double end = 1.957 - 1.263 * r - 0.167 * chord * chord + 0.064 * shape -
                       0.120 * shape * shape + 0.247 * w.wall_m / a * chord +
                       g * (0.163 * r - 0.449 / (1.0 + w.length_m / a));
    const double passage_m =
        w.wall_m * (1.0 + w.width_m * w.width_m / (24.0 * a * (a + w.wall_m)));
    return kPi * a * a / area_m2 * (passage_m + end * equal_radius_m);
}

bool in_window_range(const WindowShape& w) {
    const double a = w.bore_radius_m;
    const auto within = [](double x, double low, double high) { return x >= low && x <= high; };
    return within(w.wall_m / a, kWindowRange.wall_min, kWindowRange.wall_max) &&
           within(w.length_m / a, kWindowRange.length_min, kWindowRange.length_max) &&
           within(w.width_m / (2.0 * a), kWindowRange.width_min, kWindowRange.width_max) &&
           w.plug_offset_m <= kWindowRange.offset_max * a;
}

double plug_cavity_length_m(const WindowShape& w) { return w.plug_offset_m + 0.6 * w.length_m; }

Complex window_impedance(const Air& air, const WindowShape& w, double angular_Hz) {
    const double area_m2 = kPi * w.bore_radius_m * w.bore_radius_m;
    return Complex(radiation_resistance(air, angular_Hz),
                   angular_Hz * air.density_kg_m3 * window_inertance_length_m(w) / area_m2);
}

}  // namespace canewright

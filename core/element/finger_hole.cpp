// core/element/finger_hole.cpp: the T network of a finger hole.
#include "core/element/finger_hole.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/element/line.hpp"
#include "core/element/radiation.hpp"

namespace canewright {
namespace {

double area_m2(double radius_m) { return kPi * radius_m * radius_m; }

// Half of the series inertance of length t_a referred to the bore.
Complex half_series(const Air& air, double length_m, double bore_radius_m, double angular_Hz) {
    return Complex(0.0, 0.5 * angular_Hz * air.density_kg_m3 * length_m / area_m2(bore_radius_m));
}

// The hole from the bore outwards.
TwoPort passage(const Air& air, const HoleShape& s, const HoleLengths& lengths, double angular_Hz) {
    const LineConstants outside = line_constants(air, s.radius_m, angular_Hz);
    if (s.inner_radius_m == s.radius_m)
        return cylinder(outside, lengths.inner_m + lengths.wall_m + lengths.outer_m);
    return cylinder(line_constants(air, s.inner_radius_m, angular_Hz), lengths.inner_m) *
           frustum(air, s.inner_radius_m, s.radius_m, lengths.wall_m, angular_Hz) *
           cylinder(outside, lengths.outer_m);
}

// Of a hole whose cavity is so deep.
HoleLengths covered_lengths(const HoleShape& s, double series_m, double cavity_m) {
    const double b = s.inner_radius_m;
    const double g = b / s.bore_radius_m;
    return {series_m, matching_length_m(b, g), cavity_m, 0.0, hole_inner_length_m(b, g)};
}

}  // namespace

double hole_inner_length_m(double b, double g) {
    return b * (0.82 + g * (-0.193 + g * (-1.09 + g * (1.27 - 0.71 * g))));
}

double matching_length_m(double b, double g) { return 0.125 * b * g * (1.0 + 0.207 * g * g * g); }

double open_hole_length_m(double b, double g, double wall_m) {
    const double f = -0.044 + g * (0.269 + g * (-1.519 + g * (2.332 + g * (-1.897 + 0.560 * g))));
    const double h = 1.643 + g * (-0.684 + g * (0.182 + g * (-0.394 + g * (0.295 - 0.063 * g))));
    return wall_m + b * (1.0 + f * (1.0 - std::tanh(0.788 * wall_m / b))) * h;
}

double open_series_length_m(double b, double g, double wall_m) {
    return -b * g * g * (0.301 + 0.1234 * std::exp(-4.7 * wall_m / b));
}

double closed_series_length_m(double b, double g, double wall_m) {
    return -b * g * g * 0.301 * (1.0 - std::exp(-3.35 * wall_m / b));
}

double finger_intrusion_m(double b, double a, double wall_m) {
    const auto sech = [](double x) { return 1.0 / std::cosh(x); };
    return b *
           (0.55 - 0.15 * sech(9.0 * wall_m / a) + 0.4 * sech(6.5 * wall_m / a) * (b / a - 1.0));
}

double fingered_series_length_m(double b, double a, double wall_m) {
    const double g = b / a;
    const double x = 1.84 * (wall_m - finger_intrusion_m(b, a, wall_m)) / b;
    const double rest = 0.940 + 0.540 * g + 0.285 * g * g;
    // coth x, or 1/x where the finger fills the hole (x < 0); multiplied through by tanh x or x
    const double t = x > 0.0 ? std::tanh(x) : x;
    return -b * g * g * t / (1.78 + rest * t);
}

double oval_ends_factor(double aspect) {
    const double stretch = std::log(aspect);
    return 1.0 - 0.09 * stretch * stretch;
}

double oval_series_factor(double aspect) { return std::pow(aspect, 0.75); }

double flare_length_m(double radius_m, double inner_radius_m, double wall_m) {
    if (inner_radius_m <= radius_m) return 0.0;
    const double slope = (inner_radius_m - radius_m) / wall_m;
    return 0.35 * slope * (1.0 - radius_m / inner_radius_m) * radius_m;
}

HoleLengths open_lengths(const HoleShape& s) {
    const double b = s.inner_radius_m;
    const double g = b / s.bore_radius_m, outer_g = s.radius_m / s.bore_radius_m;
    const double oval = s.aspect == 1.0 ? 1.0 : oval_ends_factor(s.aspect);
    const double series_oval = s.aspect == 1.0 ? 1.0 : oval_series_factor(s.aspect);
    // the inner piece belongs to the hole's mouth in the bore, the outer to the one outside
    return {series_oval * open_series_length_m(b, g, s.wall_m), oval * hole_inner_length_m(b, g),
            s.wall_m,
            oval * (open_hole_length_m(s.radius_m, outer_g, s.wall_m) - s.wall_m -
                    hole_inner_length_m(s.radius_m, outer_g)) +
                flare_length_m(s.radius_m, b, s.wall_m),
            0.0};
}

HoleLengths lidded_lengths(const HoleShape& s) {
    const double b = s.inner_radius_m;
    // the lid follows the tube's round outside: so much less than a flat one would enclose
    const double round_m = s.radius_m * s.radius_m / (8.0 * s.tube_radius_m);
    return covered_lengths(s, closed_series_length_m(b, b / s.bore_radius_m, s.wall_m),
                           std::max(s.wall_m - round_m, 0.1 * s.wall_m));
}

HoleLengths fingered_lengths(const HoleShape& s) {
    const double b = s.inner_radius_m;
    // of the cavity; what the fingertip does to the series length is finger_intrusion_m()
    const double taken_m = std::min(0.9 * s.wall_m, b * (0.1 + 0.7 * b / s.bore_radius_m));
    return covered_lengths(s, fingered_series_length_m(b, s.bore_radius_m, s.wall_m),
                           s.wall_m - taken_m);
}

OpenHole open_hole(const Air& air, const HoleShape& s, const HoleLengths& lengths,
                   double angular_Hz) {
    return {half_series(air, lengths.series_m, s.bore_radius_m, angular_Hz),
            passage(air, s, lengths, angular_Hz), Complex(radiation_resistance(air, angular_Hz))};
}

CoveredHole covered_hole(const Air& air, const HoleShape& s, const HoleLengths& lengths,
                         double angular_Hz) {
    const Complex inertance(
        0.0, angular_Hz * air.density_kg_m3 * lengths.mouth_m / area_m2(s.inner_radius_m));
    const TwoPort m = series(inertance) * passage(air, s, lengths, angular_Hz);
    return {half_series(air, lengths.series_m, s.bore_radius_m, angular_Hz),
            quotient(m.c, m.a)};  // no flow out
}

}  // namespace canewright

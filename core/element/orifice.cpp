// core/element/orifice.cpp: ridge in the bore, disc in the foot.
#include "core/element/orifice.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/element/line.hpp"
#include "core/element/radiation.hpp"

namespace canewright {
namespace {

Complex inertance(const Air& air, double length_m, double radius_m, double angular_Hz) {
    return Complex(0.0, angular_Hz * air.density_kg_m3 * length_m / (kPi * radius_m * radius_m));
}

// Of the opening, less that of the bore it takes the place of; on the opening's area.
double middle_m(double b, double thickness_m, double a) {
    return thickness_m - thickness_m * (b * b) / (a * a);
}

// Of one side, between thin and thick.
double ring_side_m(double b, double thickness_m, double a) {
    const double thin_m = thin_side_m(b, a);
    return thin_m +
           (thick_side_m(b, a) - thin_m) * (1.0 - std::exp(-4.5 * std::pow(thickness_m / b, 0.77)));
}

}  // namespace

double thin_side_m(double b, double a) {
    const double x = b / a;
    return 0.25 * kPi * b * (1.0 - x) * (1.0 - x) *
           (1.0 + x * (0.5709 + x * (0.3447 + x * (-0.2924 + 0.3743 * x))));
}

double thick_side_m(double b, double a) {
    const double x = b / a;
    return 0.8216 * b * (1.0 - x) * (1.0 + x * (-0.4314 + x * (0.0767 - 0.5805 * x)));
}

TwoPort ridge(const Air& air, double b, double thickness_m, double a, double angular_Hz) {
    const double length_m = middle_m(b, thickness_m, a) + 2.0 * ring_side_m(b, thickness_m, a);
    return series(inertance(air, length_m, b, angular_Hz));
}

TwoPort ridge_by_end(const Air& air, double b, double thickness_m, double a, double to_end_m,
                     double outer_radius_m, double angular_Hz) {
    constexpr double kFirstRoundMode = 3.8317;
    constexpr double kLeastWall = 1.003;  // of open_end_correction_m()
    const double k = angular_Hz / air.sound_speed_m_s;
    const double side_m = ring_side_m(b, thickness_m, a);
    // What makes of the bore's open end that of the ring's opening, on the opening's area. A tube
    // that narrows below the ring may be thinner at its end than the ring's place is wide.
    const double wall_m = std::max(outer_radius_m, kLeastWall * a);
    const double at_end_m = open_end_correction_m(b, wall_m, k) -
                            open_end_correction_m(a, wall_m, k) * (b * b) / (a * a);
    const double nearness = std::exp(-kFirstRoundMode * to_end_m / a);
    const double outer_m = side_m + (at_end_m - side_m) * nearness;
    return series(inertance(air, middle_m(b, thickness_m, a) + side_m + outer_m, b, angular_Hz));
}

TwoPort foot_disc(const Air& air, double b, double thickness_m, double a, double angular_Hz) {
    return series(inertance(air, thick_side_m(b, a), b, angular_Hz)) *
           cylinder(line_constants(air, b, angular_Hz), thickness_m);
}

}  // namespace canewright

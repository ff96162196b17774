// core/element/orifice.cpp: ridge in the bore, disc in the foot.
#include "core/element/orifice.hpp"

#include <cmath>

#include "core/base/units.hpp"
#include "core/element/line.hpp"

namespace canewright {
namespace {

Complex inertance(const Air& air, double length_m, double radius_m, double angular_Hz) {
    return Complex(0.0, angular_Hz * air.density_kg_m3 * length_m / (kPi * radius_m * radius_m));
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
    const double thin_m = thin_side_m(b, a);
    const double side_m = thin_m + (thick_side_m(b, a) - thin_m) *
                                       (1.0 - std::exp(-4.5 * std::pow(thickness_m / b, 0.77)));
    const double replaced_m = thickness_m * (b * b) / (a * a);  // on the opening's area
    return series(inertance(air, thickness_m + 2.0 * side_m - replaced_m, b, angular_Hz));
}

TwoPort foot_disc(const Air& air, double b, double thickness_m, double a, double angular_Hz) {
    return series(inertance(air, thick_side_m(b, a), b, angular_Hz)) *
           cylinder(line_constants(air, b, angular_Hz), thickness_m);
}

}  // namespace canewright

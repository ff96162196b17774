// core/element/orifice.cpp: ridge in the bore, disc in the foot.
#include "core/element/orifice.hpp"

#include "core/base/units.hpp"
#include "core/element/line.hpp"

namespace canewright {
namespace {

Complex inertance(const Air& air, double length_m, double radius_m, double angular_Hz) {
    return Complex(0.0, angular_Hz * air.density_kg_m3 * length_m / (kPi * radius_m * radius_m));
}

}  // namespace

double duct_factor(double x) {
    const double x3 = x * x * x;
    const double x5 = x3 * x * x;
    const double factor = 1.0 - 1.4092 * x + 0.33818 * x3 + 0.06793 * x5 - 0.02287 * x5 * x +
                          0.03015 * x5 * x * x - 0.01641 * x5 * x3;
    return factor > 0.0 ? factor : 0.0;  // the series ends at -0.012 where it should reach 0
}

TwoPort ridge(const Air& air, double opening_radius_m, double bore_radius_m, double angular_Hz) {
    const double length_m =
        0.5 * kPi * opening_radius_m * duct_factor(opening_radius_m / bore_radius_m);
    return series(inertance(air, length_m, opening_radius_m, angular_Hz));
}

TwoPort foot_disc(const Air& air, double opening_radius_m, double thickness_m, double bore_radius_m,
                  double angular_Hz) {
    const double inner_m =
        0.8216 * opening_radius_m * duct_factor(opening_radius_m / bore_radius_m);
    return series(inertance(air, inner_m, opening_radius_m, angular_Hz)) *
           cylinder(line_constants(air, opening_radius_m, angular_Hz), thickness_m);
}

}  // namespace canewright

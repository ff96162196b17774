// core/element/widening.cpp: a steep change of the bore's width.
#include "core/element/widening.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/element/orifice.hpp"

namespace canewright {

double widening_excess_m(double b, double a, double length_m) {
    const double wider_m = a - b;
    if (!(wider_m > 0.0)) return 0.0;
    const double x = std::max(b / a, 0.45);  // what the interpolation's power was fitted for
    const double step_m = thick_side_m(b, a);
    const double slender_m = wider_m * wider_m * b / (2.0 * length_m * a);
    const double power = 1.16 + x * (0.70 - 0.93 * x);
    // the power mean of the two, over the first
    return step_m * std::pow(1.0 + std::pow(step_m / slender_m, power), -1.0 / power);
}

TwoPort widening(const Air& air, double b, double excess_m, double angular_Hz) {
    return series(Complex(0.0, angular_Hz * air.density_kg_m3 * excess_m / (kPi * b * b)));
}

}  // namespace canewright

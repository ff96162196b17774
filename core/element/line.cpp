// core/element/line.cpp: viscothermal cylinder and cone.
#include "core/element/line.hpp"

#include <cmath>

#include "core/base/units.hpp"
#include "core/element/loss_function.hpp"

namespace canewright {
namespace {

// The root in the right half plane of a number in the second quadrant: it loses no figure near the
// negative axis, where a line's constants are.
Complex root_upper(Complex z) {
    const double imaginary = std::sqrt(0.5 * (std::sqrt(std::norm(z)) - z.real()));
    return {z.imag() / (2.0 * imaginary), imaginary};
}

}  // namespace

LineConstants line_constants(const Air& air, double radius_m, double angular_Hz) {
    const double area = kPi * radius_m * radius_m;
    const double rho = air.density_kg_m3;
    const double c = air.sound_speed_m_s;
    if (air.lossless) return {Complex(0.0, angular_Hz / c), rho * c / area};

    const double shear = radius_m * std::sqrt(rho * angular_Hz / air.viscosity_Pa_s);
    const auto [friction, heat] = loss_functions(shear, shear * std::sqrt(air.prandtl()));
    const Complex jw(0.0, angular_Hz);
    const Complex series_per_m = jw * (rho / area) * inverse(1.0 - friction);
    const Complex shunt_per_m =
        jw * area / (rho * c * c) * (1.0 + (air.heat_capacity_ratio - 1.0) * heat);
    const Complex propagation = root_upper(series_per_m * shunt_per_m);
    return {propagation, quotient(series_per_m, propagation)};
}

LineConstants wide_line_constants(const Air& air, double radius_m, double angular_Hz) {
    const double area = kPi * radius_m * radius_m;
    const double c = air.sound_speed_m_s;
    const double rv = radius_m * std::sqrt(air.density_kg_m3 * angular_Hz / air.viscosity_Pa_s);
    const double nu = std::sqrt(air.prandtl());
    const double g = (air.heat_capacity_ratio - 1.0) / nu;
    const double first = (1.0 + g) / std::sqrt(2.0);
    const double impedance_first = (1.0 - g) / std::sqrt(2.0);
    const double second = 1.0 + g - air.heat_capacity_ratio * g / (2.0 * nu);
    const double k = angular_Hz / c;
    // third-order 0.750 and the 1.149, 0.303 of Im Zc: Keefe's printed values for air
    const double alpha = k * (first / rv + second / (rv * rv) + 0.750 / (rv * rv * rv));
    const Complex propagation(alpha, k * (1.0 + first / rv));
    const Complex relative(1.0 + impedance_first / rv,
                           -(impedance_first / rv + 1.149 / (rv * rv) + 0.303 / (rv * rv * rv)));
    return {propagation, relative * (air.density_kg_m3 * c / area)};
}

TwoPort cylinder(const LineConstants& line, double length_m) {
    const Complex grow = std::exp(line.propagation_1_m * length_m);
    const Complex fall = inverse(grow);
    const Complex cosh = 0.5 * (grow + fall);
    const Complex sinh = 0.5 * (grow - fall);
    return {cosh, line.impedance * sinh, quotient(sinh, line.impedance), cosh};
}

double equivalent_radius_m(double near_m, double far_m) {
    const double step = far_m - near_m;
    return std::abs(step) < 1e-9 * near_m ? near_m : step / std::log(far_m / near_m);
}

TwoPort frustum(const Air& air, double near_m, double far_m, double length_m, double angular_Hz) {
    return frustum(line_constants(air, equivalent_radius_m(near_m, far_m), angular_Hz), near_m,
                   far_m, length_m);
}

TwoPort frustum(const LineConstants& line, double near_m, double far_m, double length_m,
                double equivalent_m) {
    if (equivalent_m == near_m || length_m <= 0.0) return cylinder(line, length_m);

    const double step = far_m - near_m;
    const Complex gamma = line.propagation_1_m;
    const Complex grow = std::exp(gamma * length_m);
    const Complex fall = inverse(grow);
    const Complex cosh = 0.5 * (grow + fall);
    const Complex sinh = 0.5 * (grow - fall);

    const double near_apex_1_m = step / (near_m * length_m);  // 1 / distance from the apex
    const double far_apex_1_m = step / (far_m * length_m);
    const double apex_1_m2 = near_apex_1_m * far_apex_1_m;
    // rho c of the lossy medium, and the geometric mean of the two end areas
    const Complex medium = line.impedance * (kPi * equivalent_m * equivalent_m);
    const double area = kPi * near_m * far_m;
    const Complex per_gamma = inverse(gamma);
    const Complex sinh_m = sinh * per_gamma;
    return {far_m / near_m * cosh - sinh_m * near_apex_1_m, medium / area * sinh,
            area * inverse(medium) * (sinh - per_gamma * apex_1_m2 * (sinh_m - length_m * cosh)),
            near_m / far_m * cosh + sinh_m * far_apex_1_m};
}

}  // namespace canewright

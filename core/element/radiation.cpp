// core/element/radiation.cpp: end correction, reflection, coupling between openings.
#include "core/element/radiation.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"

namespace canewright {

double open_end_correction_m(double radius_m, double outer_radius_m, double wavenumber_1_m) {
    const double s = radius_m / outer_radius_m;  // 1: no wall, 0: infinite flange
    const double v = 1.0 - s;
    const double v23 = std::pow(v, 2.0 / 3.0);  // the edge's singularity: flow round a sharp rim
    const double low =
        0.8216 - 0.2089 * s + s * (0.0836 * v23 + 0.2676 * v - 0.4331 * v23 * v23 + 0.1537 * v * v);
    const double ka = wavenumber_1_m * radius_m;
    const double w = std::min(v, 2.0 / 3.0);
    return radius_m * (low + ka * ka * (-0.1455 - 0.0933 * w + 0.9662 * w * w));
}

double unflanged_reflection(double ka) {
    const double x2 = ka * ka;
    return (1.0 + 0.800 * x2) / (1.0 + (0.5 + 0.800) * x2 + x2 * x2 * (0.266 + 0.0263 * x2));
}

Complex open_end_impedance(const Air& air, double radius_m, double outer_radius_m,
                           double angular_Hz) {
    const double k = angular_Hz / air.sound_speed_m_s;
    const double delta_m = open_end_correction_m(radius_m, outer_radius_m, k);
    // not std::polar: NaN in gives NaN out, where its standard library may stop the program
    const double turned = -2.0 * k * delta_m;
    const Complex reflection =
        -unflanged_reflection(k * radius_m) * Complex(std::cos(turned), std::sin(turned));
    const double characteristic =
        air.density_kg_m3 * air.sound_speed_m_s / (kPi * radius_m * radius_m);
    return characteristic * quotient(1.0 + reflection, 1.0 - reflection);
}

double radiation_resistance(const Air& air, double angular_Hz) {
    const double k = angular_Hz / air.sound_speed_m_s;
    return air.density_kg_m3 * air.sound_speed_m_s * k * k / (4.0 * kPi);
}

double foot_distance_m(double along_m, double foot_radius_m, double tube_radius_m) {
    return std::hypot(along_m + 0.6 * foot_radius_m, tube_radius_m);
}

double wall_factor(double distance_m, double tube_radius_m) {
    return 1.0 + std::exp(-0.944 * std::pow(distance_m / tube_radius_m, 0.717));
}

Complex outer_coupling(const Air& air, double distance_m, double wall_factor, double angular_Hz) {
    const double kd = angular_Hz / air.sound_speed_m_s * distance_m;
    const double scale = air.density_kg_m3 * angular_Hz / (4.0 * kPi * distance_m);
    return scale * Complex(std::sin(kd), wall_factor * std::cos(kd));
}

Complex outer_coupling(const Air& air, double distance_m, double tube_radius_m, Sight sight,
                       double angular_Hz) {
    const bool along_wall = sight == Sight::along_wall;
    return outer_coupling(air, distance_m,
                          along_wall ? wall_factor(distance_m, tube_radius_m) : 1.0, angular_Hz);
}

}  // namespace canewright

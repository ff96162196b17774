// core/air/air.cpp: moist air by the formulas of IEC 61094-2:2009 Annex F.
#include "core/air/air.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/units.hpp"

namespace canewright {
namespace {

// Table F.2 of the standard (after Cramer 1993, Table III): coefficients of
// a0 + a1 t + a2 t^2 + (a3 + a4 t + a5 t^2) xw + (a6 + a7 t + a8 t^2) p + (a9 + a10 t + a11 t^2) xc
// + a12 xw^2 + a13 p^2 + a14 xc^2 + a15 xw p xc. Other transcriptions carry typing errors in a4 of
// the speed and a14 of gamma; these reproduce every digit of Table F.1 (a14 of gamma cannot be
// told from it: its effect there is 1e-8).
using Coefficients = std::array<double, 16>;
constexpr Coefficients kSpeed = {331.5024,  0.603055,  -0.000528, 51.471935, 0.1495874, -0.000782,
                                 -1.82e-7,  3.73e-8,   -2.93e-10, -85.20931, -0.228525, 5.91e-5,
                                 -2.835149, -2.15e-13, 29.179762, 0.000486};
constexpr Coefficients kGamma = {1.400822, -1.75e-5,   -1.73e-7,  -0.0873629, -1.665e-4, -3.26e-6,
                                 2.047e-8, -1.26e-10,  5.939e-14, -0.1199717, -8.693e-4, 1.979e-6,
                                 -0.01104, -3.478e-16, 0.0450616, 1.82e-6};

double polynomial(const Coefficients& a, double t, double p, double xw, double xc) {
    return a[0] + a[1] * t + a[2] * t * t + (a[3] + a[4] * t + a[5] * t * t) * xw +
           (a[6] + a[7] * t + a[8] * t * t) * p + (a[9] + a[10] * t + a[11] * t * t) * xc +
           a[12] * xw * xw + a[13] * p * p + a[14] * xc * xc + a[15] * xw * p * xc;
}

constexpr double kCalorie = 4186.8;  // the standard's thermal fits are in kcal(IT) [J/kcal]

// Mole fraction of water vapour: enhancement factor times saturation (standard, Annex F).
double vapour_fraction(const AirState& s) {
    const double t = s.temperature_C;
    const double enhancement = 1.00062 + 3.14e-8 * s.pressure_Pa + 5.6e-7 * t * t;
    return s.humidity_fraction * enhancement * saturation_pressure_Pa(t) / s.pressure_Pa;
}

}  // namespace

double saturation_pressure_Pa(double temperature_C) {
    const double T = K_from_C(temperature_C);
    return std::exp(1.2378847e-5 * T * T - 1.9121316e-2 * T + 33.93711047 - 6343.1645 / T);
}

Air moist_air(const AirState& s) {
    const double t = s.temperature_C;
    const double T = K_from_C(t);
    const double p = s.pressure_Pa;
    const double xw = vapour_fraction(s);
    const double xc = s.co2_fraction;

    // CIPM-2007 density; compressibility factor Z.
    const double Z =
        1.0 -
        (p / T) * (1.58123e-6 - 2.9331e-8 * t + 1.1043e-10 * t * t +
                   (5.707e-6 - 2.051e-8 * t) * xw + (1.9898e-4 - 2.376e-6 * t) * xw * xw) +
        (p / T) * (p / T) * (1.83e-11 - 0.765e-8 * xw * xw);

    Air air;
    air.density_kg_m3 =
        (3.483740 + 1.4446 * (xc - 0.0004)) * 1e-3 * p / (Z * T) * (1.0 - 0.3780 * xw);
    air.sound_speed_m_s = polynomial(kSpeed, t, p, xw, xc);
    air.heat_capacity_ratio = polynomial(kGamma, t, p, xw, xc);
    air.viscosity_Pa_s =
        (84.986 + 7.0 * T + (113.157 - T) * xw - 3.7501e-3 * T * T - 100.015 * xw * xw) * 1e-8;
    air.thermal_conductivity_W_mK =
        kCalorie * 1e-8 * (60.054 + 1.846 * T + 2.06e-6 * T * T + (40.0 - 1.775e-4 * T) * xw);
    air.specific_heat_J_kgK =
        kCalorie * (0.251625 - 9.2525e-5 * T + 2.1334e-7 * T * T - 1.0043e-10 * T * T * T +
                    (0.12477 - 2.283e-5 * T + 1.267e-7 * T * T) * xw +
                    (0.01116 + 4.61e-6 * T + 1.74e-8 * T * T) * xw * xw);
    return air;
}

AirState sounding_air(const AirState& room, double breath_share) {
    AirState breath = kBreath;
    breath.pressure_Pa = room.pressure_Pa;  // a flute's blowing pressure (100 Pa) changes nothing
    const auto mix = [breath_share](double of_room, double of_breath) {
        return of_room + breath_share * (of_breath - of_room);
    };
    AirState bore;
    bore.pressure_Pa = room.pressure_Pa;
    bore.temperature_C = mix(room.temperature_C, breath.temperature_C);
    bore.co2_fraction = mix(room.co2_fraction, breath.co2_fraction);
    bore.humidity_fraction = 1.0;
    const double saturated = vapour_fraction(bore);
    bore.humidity_fraction =
        std::min(1.0, mix(vapour_fraction(room), vapour_fraction(breath)) / saturated);
    return bore;
}

}  // namespace canewright

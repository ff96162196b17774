// core/element/line.hpp: sound travelling along a round tube, with friction and heat conduction.
// Layer: element.
#pragma once

#include "core/air/air.hpp"
#include "core/element/two_port.hpp"

namespace canewright {

// Propagation constant Gamma = alpha + j w / v [1/m] and characteristic impedance Zc [Pa s/m^3].
struct LineConstants {
    Complex propagation_1_m;
    Complex impedance;
};

// Constants of a round tube.
//   radius_m   a > 0 [m];   angular_Hz   w = 2 pi f > 0 [rad/s]
// Model    Kirchhoff's theory in the low reduced frequency form (Zwikker & Kosten): smooth, rigid,
//          isothermal wall, plane wave. A lossless air gives j w / c and rho c / S.
// Valid    below the first cross mode, k a < 1.84; every radius.
// Error    kLineError, relative, of the formula's arithmetic; a rough or porous wall damps more
//          (factor 1 to 2 on alpha, pitch hardly moves).
// Source   Zwikker & Kosten 1949; H. Tijdeman, J. Sound Vib. 39 (1975) 1-33.
LineConstants line_constants(const Air& air, double radius_m, double angular_Hz);

inline constexpr double kLineError = 1e-11;

// The same from the series for wide tubes; a cross-check, not used for answers.
// Model    first orders of line_constants() in 1 / shear number.
// Valid    shear number above 10.
// Error    kWideSeriesError, relative, for radius 3 to 12.5 mm and 250 to 2000 Hz.
// Source   first-order coefficients by D.H. Keefe, J. Acoust. Soc. Am. 75 (1984) 58-62, in their
//          general form (gamma and Prandtl number left open).
LineConstants wide_line_constants(const Air& air, double radius_m, double angular_Hz);

inline constexpr double kWideSeriesError = 2e-4;

// A cylinder of length `length_m` >= 0 with these constants.
// Model    plane wave both ways.                  Valid    as the constants; any length.
// Error    of the constants alone (algebra).      Source   textbook transmission line.
TwoPort cylinder(const LineConstants& line, double length_m);

// A cone frustum, radius `near_m` at the end towards the sound hole, `far_m` towards the foot.
// Model    the spherical-wave matrix of a lossless cone with k replaced by -j Gamma of a cylinder
//          whose 1/radius is the mean of 1/radius along the cone (wall losses go with 1/radius).
// Valid    slender cones, |far - near| / length below 0.1, radius from 3 mm, pieces up to 0.2 m.
// Error    kConeError on each matrix entry against 200 short cylinders at 5 % taper, relative to
//          the largest.
// Source   textbook cone matrix (from memory; determinant and the cylinders check it); equivalent
//          radius after A. Ernoult & J. Kergomard, Acta Acustica 4 (2020) 7.
TwoPort frustum(const Air& air, double near_m, double far_m, double length_m, double angular_Hz);
// The same from the constants at its equivalent radius [m].
TwoPort frustum(const LineConstants& line, double near_m, double far_m, double length_m,
                double equivalent_m);
double equivalent_radius_m(double near_m, double far_m);
inline TwoPort frustum(const LineConstants& line, double near_m, double far_m, double length_m) {
    return frustum(line, near_m, far_m, length_m, equivalent_radius_m(near_m, far_m));
}

inline constexpr double kConeError = 3e-4;

}  // namespace canewright

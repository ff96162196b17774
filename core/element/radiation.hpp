// core/element/radiation.hpp: what the air outside does to an opening. Layer: element.
#pragma once

#include "core/air/air.hpp"
#include "core/element/two_port.hpp"

namespace canewright {

// Length by which an open end with a real wall sounds longer [m].
//   radius_m         a > 0, of the opening [m]
//   outer_radius_m   Ro > a, of the wall's end face [m]
//   wavenumber_1_m   k = w / c [1/m]
//   returns          delta, 0.613 a (no wall) to 0.8216 a (infinite flange) where k a -> 0
//
// Model    between the two exact limits, a fit to axisymmetric finite elements.
// Valid    Ro/a 1.003 to 3, k a 0 to 0.2; beyond Ro/a = 3 the k a term is held.
// Error    kEndCorrectionError, of a, on walls and k a that were left out of the fit; on those in
//          it kEndCorrectionResidual.
// Source   limits: H. Levine & J. Schwinger, Phys. Rev. 73 (1948) 383-406 (0.6127 by quadrature of
//          their integral; 0.6133 is printed) and J.-P. Dalmont, C.J. Nederveen, N. Joly, J. Sound
//          Vib. 244 (2001) 505-534 (0.8216); the fit: tools/reference/foot_and_coupling_fit.py.
//          Their finite-wall formula was tried first: up to 0.008 a off, since it has no k a term.
//          Rejected: a rigid piston's 0.8488 a.
double open_end_correction_m(double radius_m, double outer_radius_m, double wavenumber_1_m);

inline constexpr double kEndCorrectionError = 8e-4;
inline constexpr double kEndCorrectionResidual = 5e-4;

// |R| of an unflanged open end, from k a.
// Model    rational fit.   Valid    k a 0 to 2.
// Source   F. Silva et al., J. Sound Vib. 322 (2009) 255-263, eq. for the non-causal form.
// Error    kReflectionError, relative, for k a up to 2 against Levine & Schwinger's integral.
double unflanged_reflection(double ka);

inline constexpr double kReflectionError = 4e-3;

// Radiation impedance p/U of an open end [Pa s/m^3]: R = -|R| exp(-2 j k delta).
// Model    length of open_end_correction_m(), loss of unflanged_reflection().
// Valid    k a < 0.5. Walls leave |R| alone as long as k Ro is small.
// Error    of these two.
// Source   as these two; the form is the textbook's.
Complex open_end_impedance(const Air& air, double radius_m, double outer_radius_m,
                           double angular_Hz);

// Resistance of a small opening's radiation [Pa s/m^3].
// Model    a point source in free air, rho c k^2 / (4 pi).   Valid    k times its radius below 0.3.
// Error    of the order (k Ro)^2, relative: the tube's shadow.   Source   textbook.
double radiation_resistance(const Air& air, double angular_Hz);

// How two openings of the same tube see each other.
enum class Sight {
    along_wall,  // both are finger holes in the same line on a tube
    free_air     // one of them is the sound hole or the foot
};

// Pressure at one opening per volume flow out of another [Pa s/m^3].
//   distance_m       d > 0 [m]: along the tube; to the foot foot_distance_m()
//   tube_radius_m    Ro, outer radius [m]
//
// Model    a monopole; for two holes in one line, a point source on a rigid cylinder at low
//          frequency, twice the free field close by and equal to it far away. The resistive part
//          is that of free air, which keeps any set of openings passive.
// Valid    distances above both openings' radii.
// Error    the cylinder's factor within kWallFactorError of its Green's function.
// Source   principle: A. Lefebvre, G.P. Scavone, J. Kergomard 2013, arXiv 1207.5490; the factor:
//          Green's function of the cylinder, evaluated (tools/reference); no constant was fitted
//          to the whole-flute finite elements that check it.
Complex outer_coupling(const Air& air, double distance_m, double tube_radius_m, Sight sight,
                       double angular_Hz);
// The same where the cylinder's factor is known (1 in free air): it has no frequency in it.
Complex outer_coupling(const Air& air, double distance_m, double wall_factor, double angular_Hz);
double wall_factor(double distance_m, double tube_radius_m);

inline constexpr double kWallFactorError = 0.01;

// From an opening in the wall to where the foot acts [m].
// Model    geometry: 0.6 of its radius outside the end, on the axis, Ro from the openings' line.
// Valid    any.   Error    of the place a tenth of the radius: 0.1 cent for a hole near the foot.
// Source   the end correction above; the whole-flute finite elements check the sum.
double foot_distance_m(double along_m, double foot_radius_m, double tube_radius_m);

}  // namespace canewright

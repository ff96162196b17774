// core/jet/jet.hpp: the free jet between the track's end and the edge. Layer: jet.
#pragma once

#include "core/air/air.hpp"

namespace canewright {

// How a wave on the jet travels: two constants for all of the band.
//
// Model    what the jet's middle strays at the edge is the flow in the window a while before,
//          (h / U) exp(growth W / h) v(t - W / (convection U)).
// Valid    thin jets of moderate Reynolds number: core/jet/band says where. Real jets disperse
//          (jet_wave()); with full dispersion a prototype of this model fell into edge tones.
// Error    convection 0.3 to 0.5 and growth 0.3 to 0.4 are quoted: pressures go with the inverse
//          square of the first, so a factor 1.8 either way until one pressure is measured.
// Source   S. Terrien, C. Vergez, B. Fabre, arXiv 1403.7487 (both); P. de la Cuadra's thesis
//          (2005, the growth, from memory).
struct JetWave {
    double convection = 0.4;  // c_v: phase speed over U [-]
    double growth = 0.4;      // alpha h: e-folds on the way of one track height [-]
};
inline constexpr double kLeastConvection = 0.3, kMostConvection = 0.5;
inline constexpr double kLeastGrowth = 0.3, kMostGrowth = 0.4;

// Half width b of the sech^2 jet over the height of the track it comes from [-].
// Model    the developed (parabolic) profile's momentum and centre speed: 8/15 U^2 h = 4/3 U^2 b.
// Valid    a track longer than its entrance; a short one's flat profile would give 0.75.
// Source   arithmetic; W.G. Bickley, Phil. Mag. 23 (1937) 727 for the profile.
inline constexpr double kHalfWidth = 0.4;

// Growth and speed of the sinuous wave on a sech^2 jet.
struct WaveGrowth {
    double growth = 0.0;       // -Im k b: e-folds on the way of a half width [-]
    double phase_speed = 0.0;  // over U [-]
};

// For a strength of vibration angular_Hz b / U [-].
//
// Model    parallel jet without viscosity, spatial growth; a table, straight between its places.
// Valid    0.02 to 4/3, beyond which nothing grows (neutral: k b = 2, phase speed 2/3); held below.
// Error    kGrowthError, absolute, of the interpolation.
// Source   Rayleigh's equation, tools/reference/jet_growth.py. Not used for pitches or pressures
//          (JetWave): it says what the two constants stand for.
WaveGrowth wave_growth(double strouhal);

inline constexpr double kNeutralStrouhal = 4.0 / 3.0;
inline constexpr double kGrowthError = 0.003;

// A jet's centre speed and half width, a way from the track's end.
struct SpreadJet {
    double centre_m_s = 0.0;
    double half_width_m = 0.0;
};

// Model    laminar plane jet of constant momentum, which is b = 0.4 h wide at the track's end:
//          b grows with (1 + x / x0)^(2/3), U falls with the inverse root of that; x0 = 2/75 h
//          Re_c.
// Valid    laminar; a jet that vibrates mixes sooner.
// Source   W.G. Bickley, Phil. Mag. 23 (1937) 727, H. Schlichting (1933): similarity solution,
//          b = (48 x^2 nu^2 / (4/3 U^2 b))^(1/3), exact; the virtual origin is arithmetic.
SpreadJet spread_jet(const Air& air, double height_m, double centre_m_s, double way_m);

// Ising's number sqrt(2 p h / rho) / (f W^1.5): how hard a window is blown [-].
//
// Model    Bernoulli's speed over f W, times the root of h / W.
// Source   H. Ising (1971), organ pipes, from memory: 2 is best, 3 overblows. A jet a quarter as
//          high as the window is long would then have U = 4 f W, where JetWave has 10 f W: the
//          literature differs by a factor six in pressure. Both are shown, neither is promised.
double ising_number(const Air& air, double pressure_Pa, double height_m, double window_m,
                    double frequency_Hz);
// Its inverse [Pa].
double ising_pressure_Pa(const Air& air, double ising, double height_m, double window_m,
                         double frequency_Hz);

inline constexpr double kIsingBest = 2.0;
inline constexpr double kIsingOverblown = 3.0;

}  // namespace canewright

// core/element/sound_hole.hpp: the opening across which the jet blows. Layer: element.
#pragma once

#include "core/air/air.hpp"
#include "core/element/two_port.hpp"

namespace canewright {

// What the sound hole looks like to the acoustics [m].
struct WindowShape {
    double bore_radius_m;   // a, at the sound hole
    double length_m;        // W, along the tube
    double width_m;         // H, across it (a chord), up to the bore
    double wall_m;          // t, of the wall there
    double plug_offset_m;   // plug face behind the upstream edge, >= 0
};

// Length of bore with the same inertance as the opening: l_w = inertance * S / rho [m].
// Model    wall passage (with the curvature of the tube), plus an end length E sqrt(W H / pi)
//          fitted to three-dimensional finite elements.
// Valid    kWindowRange below; a fit, poor outside it.
// Error    kWindowError: tube resonances within so many cents of the finite elements, in range.
// Source   106 finite-element geometries (tests/data/fem); no published formula was found good to
//          better than 4 % for the standard mouth of an organ pipe and 13 % for a narrow one.
double window_inertance_length_m(const WindowShape& shape);

inline constexpr double kWindowError_cents = 3.0;

// Range of the fit, as ratios of the bore's radius or diameter.
struct WindowRange {
    double wall_min = 0.14, wall_max = 0.62;      // t/a
    double length_min = 0.36, length_max = 1.5;   // W/a
    double width_min = 0.35, width_max = 0.77;    // H/2a
    double offset_max = 0.77;                     // plug offset / a
};
inline constexpr WindowRange kWindowRange{};
bool in_window_range(const WindowShape& shape);

// Length of the closed piece of bore between the opening's centre and the plug [m].
double plug_cavity_length_m(const WindowShape& shape);

// Impedance of the opening, without what other openings add outside [Pa s/m^3].
Complex window_impedance(const Air& air, const WindowShape& shape, double angular_Hz);

}  // namespace canewright

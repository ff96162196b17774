// core/element/sound_hole.hpp: the opening across which the jet blows. Layer: element.
#pragma once

#include "core/air/air.hpp"
#include "core/element/two_port.hpp"

namespace canewright {

// What the sound hole looks like to the acoustics [m].
struct WindowShape {
    double bore_radius_m;           // a, at the sound hole
    double length_m;                // W, along the tube
    double width_m;                 // H, across it (a chord), less than the bore
    double wall_m;                  // t, of the wall there
    double plug_offset_m;           // plug face behind the upstream edge, >= 0
    double inertance_factor = 1.0;  // learnt from readings of a real voice; 1 unless known
};

// Length of bore with the same inertance as the opening: l_w = inertance * S / rho [m].
//
// Model    the wall, as thick as seen along the opening's axis, and the end corrections of a
//          uniform flow: flat wall, curvature inside and outside, image in the plug (potential
//          theory; polynomials within 0.6 % of its integrals); times a factor for the flow's being
//          uneven (a rectangular hole in a flat wall by mode matching, curvature from finite
//          elements).
// Valid    bore 6 to 25 mm, wall 0.5 to 6 mm, width 0.25 to 0.95 of the bore, length 0.2 to 1.6
//          bore radii, plug up to 0.8 radii behind: in_window_range().
// Error    kWindowError_cents on a tube's resonance, in the range.
// Source   integrals: own derivation of the boundary-value problem (tools/reference); five
//          constants fitted to 3-D finite elements (tests/data/fem, tools/reference). An organ
//          pipe's rule (Ingerslev & Frobenius 1947) is 4 % off for its own mouth, 13 to 16 % for
//          narrow ones. A purely empirical fit was within 3.8 cents on tubes it had not seen.
double window_inertance_length_m(const WindowShape& shape);

inline constexpr double kWindowError_cents = 2.0;

// Closed piece of bore behind the opening's centre, up to the plug, as the plane wave sees it [m].
double plug_cavity_length_m(const WindowShape& shape);

// Whether the shape is like those that the model was checked against.
bool in_window_range(const WindowShape& shape);

// Range of the check, as ratios of the bore's radius or diameter.
struct WindowRange {
    double wall_min = 0.07, wall_max = 0.70;     // t/a
    double length_min = 0.20, length_max = 1.6;  // W/a
    double width_min = 0.25, width_max = 0.95;   // H/2a
    double offset_max = 0.80;                    // plug offset / a
};
inline constexpr WindowRange kWindowRange{};

// Impedance of the opening, without what other openings add outside [Pa s/m^3].
Complex window_impedance(const Air& air, const WindowShape& shape, double angular_Hz);

}  // namespace canewright

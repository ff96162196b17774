// core/element/sound_hole.hpp: the opening across which the jet blows. Layer: element.
#pragma once

#include "core/air/air.hpp"
#include "core/element/two_port.hpp"
#include "core/element/voice_shape.hpp"

namespace canewright {

// What the sound hole looks like to the acoustics [m].
struct WindowShape {
    double bore_radius_m;           // a, at the sound hole
    double length_m;                // W, along the tube
    double width_m;                 // H, across it (a chord): more than 2 a in an oval bore only
    double wall_m;                  // t, of the wall there
    double plug_offset_m;           // plug face behind the upstream edge, >= 0
    double inertance_factor = 1.0;  // learnt from readings of a real voice; 1 unless known
    VoiceShape voice{};             // as it is cut; bare unless told
};

// Length of bore with the same inertance as the opening, low-frequency limit:
// l_w = inertance * S / rho [m].
//
// Model    potential flow from a bore with a plug through an arched slot to the outside (Galerkin),
//          for which a closed form stands: the wall as thick as seen along the opening's axis, and
//          an end length that is a flat wall's times a polynomial (sound_hole_terms.hpp).
//          An opening wider than 2 a lies on the flat side of an oval bore: the wall is then that
//          of the least oval bore of the same area that it fits into (H/2a at its full width).
// Valid    kWindowHeld, the shapes solved; the polynomial is held beyond, and the inertance is
// never
//          less than none. Checked against finite elements within kWindowRange: in_window_range().
// Error    kWindowError_cents on a tube's resonance, in the range.
// Source   own solution of the boundary-value problem, tools/reference/window_theory.py; nothing
//          in it is fitted to the finite elements, which it meets within 0.4 cent. Tried and
//          worse: an organ pipe's rule (Ingerslev & Frobenius 1947; 4 % off for its own mouth, 13
//          to 16 % for narrow ones), a fit to finite elements alone (up to 3.8 cents on tubes it
//          had not seen), integrals of a uniform flow (6 cents).
double window_inertance_length_m(const WindowShape& shape);

inline constexpr double kWindowError_cents = 0.7;

// Closed piece of bore behind the opening's centre, up to the plug, as the plane wave sees it [m].
// Model    plug offset, half the opening, and the slot's volume at its falling pressure (a straight
//          fall would give 1/3 of it).
// Valid    kWindowRange.   Error    in kWindowError_cents.
// Source   geometry; kSlotShare from finite elements.
double plug_cavity_length_m(const WindowShape& shape);

// Whether the shape is like those that the model was checked against: kWindowRange.
bool in_window_range(const WindowShape& shape);

inline constexpr double kSlotShare = 0.292;
// Growth of the inertance with frequency, 1 + kWindowGrowth (k W)^2; from finite elements.
inline constexpr double kWindowGrowth = 0.229;

// Range of the check, as ratios of the bore's radius or diameter.
struct WindowRange {
    double wall_min = 0.07, wall_max = 0.70;     // t/a
    double length_min = 0.20, length_max = 1.6;  // W/a
    double width_min = 0.25, width_max = 0.95;   // H/2a
    double offset_max = 0.80;                    // plug offset / a
};
inline constexpr WindowRange kWindowRange{};
// Of the shapes that tools/reference/window_theory.py solved.
inline constexpr WindowRange kWindowHeld{0.02, 2.2, 0.13, 1.9, 0.15, 0.97, 1.40};

// Impedance of the opening, without what other openings add outside [Pa s/m^3].
// Model    the inertance above, growing with frequency by kWindowGrowth, and a monopole's
// radiation. Valid    kWindowRange, k W < 0.5. Error    kWindowError_cents on a tube's resonance.
// Source   as window_inertance_length_m(); the growth from finite elements.
Complex window_impedance(const Air& air, const WindowShape& shape, double angular_Hz);
// The same with window_inertance_length_m() given, for whoever asks at many frequencies.
Complex window_impedance(const Air& air, const WindowShape& shape, double inertance_length_m,
                         double angular_Hz);

}  // namespace canewright

// core/element/orifice.hpp: a narrower opening inside or at the end of the bore. Layer: element.
#pragma once

#include "core/air/air.hpp"
#include "core/element/two_port.hpp"

namespace canewright {

// Length of inertance on one side of a round opening in a plane across the bore [m], on the
// opening's own area.
//   radius_m   b > 0, of the opening;   bore_radius_m   a >= b
// Model    potential flow through it, for a wall without thickness and one that fills the bore.
// Valid    b/a 0 to 1; 0 at b = a.
// Error    kThinSideError, of b, resp. kThickSideError, of b, against the solutions named.
// Source   thin: own Ritz solution of the potential flow; pi/4 b for a wide bore is exact
//          (Rayleigh), and V.A. Fok's 1941 function, from memory, agrees to 0.01 % up to b/a 0.5.
//          thick: the same with a square edge; both by
//          tools/reference/orifice_theory.py; 0.8216 b for a wide bore is exact (infinite
//          flange, in J.-P. Dalmont et al., J. Sound Vib. 244 (2001) 505-534).
double thin_side_m(double radius_m, double bore_radius_m);
double thick_side_m(double radius_m, double bore_radius_m);

inline constexpr double kThinSideError = 2e-3;
inline constexpr double kThickSideError = 5e-3;

// A ring left in the bore, with a round opening [m].
// Model    series inertance of the opening less that of the bore it takes the place of; sides
//          between thin and thick by the ring's thickness.
// Valid    ring much shorter than a wave.
// Error    between kThinSideError and kThickSideError of the opening's radius at the two ends of
//          the range; in between interpolated, not checked: at most the two sides' difference, 0.04
//          b.
// Source   the two sides' solutions above; the interpolation is ours.
TwoPort ridge(const Air& air, double opening_radius_m, double thickness_m, double bore_radius_m,
              double angular_Hz);

// The same ring near an open end [m].
//   to_end_m         from its outer face to the end
//   outer_radius_m   of the tube's wall at the end
//
// Model    far inside it is ridge(). At the end its outer side is an open end of its own, in a wall
//          as wide as the tube, and takes the place of the bore's end; on the way there its near
//          field shrinks with the bore's first round mode, exp(-3.83 d / a).
// Valid    as ridge() and open_end_correction_m().
// Error    none of its own at both ends of the way; in between not checked.
// Source   limits: ridge(), open_end_correction_m(); 3.8317 is the first zero of J1 (textbook).
TwoPort ridge_by_end(const Air& air, double opening_radius_m, double thickness_m,
                     double bore_radius_m, double to_end_m, double outer_radius_m,
                     double angular_Hz);

// A disc in the foot: from the bore's end, at the disc's inner face, to the plane of its outer
// face. What radiates is then an end of radius `opening_radius_m` in a wall as wide as the tube.
// Model    the thick side's inertance, then a line of the disc's thickness.
// Valid    b/a 0 to 1, disc much shorter than a wave.
// Error    kThickSideError, of the opening's radius, before the outer end's own.
// Source   as thick_side_m().
TwoPort foot_disc(const Air& air, double opening_radius_m, double thickness_m, double bore_radius_m,
                  double angular_Hz);

}  // namespace canewright

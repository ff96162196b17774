// core/element/widening.hpp: a steep change of the bore's width. Layer: element.
#pragma once

#include "core/air/air.hpp"
#include "core/element/two_port.hpp"

namespace canewright {

// What a cone's inertance has beyond that of plane waves, as a length on the area of its narrow
// end [m]: the air has to move sideways too.
//   narrow_m   b > 0, wide_m   a >= b, radii of the ends;   length_m   L > 0 between them
// Model    potential flow; between a step's (thick_side_m()) and a slender cone's, in which the
//          sideways flow is linear in the radius: half the slope squared, (a - b)^2 b / (2 L a).
// Valid    b/a 0.5 to 1, any L; 0 at b = a. Below, to b/a 0.2, the two limits alone hold.
// Error    kWideningError, of b, against own axisymmetric finite elements of cones that the
//          interpolation was not fitted to (tools/reference/widening_theory.py).
// Source   the two limits; their interpolation is ours (tools/reference/widening_fit.py).
double widening_excess_m(double narrow_m, double wide_m, double length_m);

inline constexpr double kWideningError = 5e-3;

// The excess of widening_excess_m() as a series element: to stand beside frustum(), which has the
// plane waves' part.
// Model    lumped, lossless.                    Valid    widening much shorter than a wave.
// Error    as widening_excess_m().              Source   as widening_excess_m().
TwoPort widening(const Air& air, double narrow_m, double excess_m, double angular_Hz);

}  // namespace canewright

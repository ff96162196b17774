// core/element/orifice.hpp: a narrower opening inside or at the end of the bore. Layer: element.
#pragma once

#include "core/air/air.hpp"
#include "core/element/two_port.hpp"

namespace canewright {

// How much of its end correction an orifice keeps when the duct around it has a finite radius:
// 1 in a wide duct, 0 when it fills the duct.
//   ratio   opening radius / duct radius, 0 to 1
// Source   V.A. Fok 1941, power series (from memory; both limits are tested).
double duct_factor(double ratio);

// A ring left in the bore: thin, with a round opening [m].
// Model    series inertance of a thin orifice, rho / (2 b) times the duct factor.
// Valid    ridges thinner than their opening's radius; a thicker one flattens a little more.
TwoPort ridge(const Air& air, double opening_radius_m, double bore_radius_m, double angular_Hz);

// A disc in the foot: from the bore to the plane of its outer face. What radiates is then an end
// of radius `opening_radius_m` in a wall as wide as the tube.
// Model    inner end correction 0.8216 b times the duct factor, then a line of the disc's
//          thickness.
TwoPort foot_disc(const Air& air, double opening_radius_m, double thickness_m, double bore_radius_m,
                  double angular_Hz);

}  // namespace canewright

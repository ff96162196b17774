// core/flute/ridge_place.hpp: what saw, sound hole and finger holes leave of a ridge. Layer: flute.
#pragma once

#include <limits>
#include <vector>

#include "core/flute/geometry.hpp"

namespace canewright {

// A ridge as the waves meet it. Nothing here jumps while the ridge, the foot or a hole moves.
struct PlacedRidge {
    double opening_radius_m = 0.0;
    double bore_radius_m = 0.0;
    double thickness_m = 0.0;
    // From its outer face to an open end; infinite where a disc closes the foot.
    double to_end_m = std::numeric_limits<double>::infinity();
    // How much of it stands above the first hole, between the first and the second, ... and below
    // the last: together 1, or less where it reaches above the sound hole.
    std::vector<double> shares;
};

// Model    foot: a node's ring is rooted in the wall over its thickness, kLeastRoot_m at least, its
//          middle at `at_m`. What the saw leaves of it is that much thinner and that much wider,
//          up to nothing; a ridge below the foot is none.
//          sound hole: flow enters along its length, so the air in the bore moves in proportion to
//          the way from the upstream edge, and the ring's inertance counts by the square of that.
//          finger holes: the same way flow leaves along a hole's width (and the ring's root), and a
//          ring there stands partly above, partly below it.
// Valid    bore_end_m and centre_m as core/flute/network has them.
// Error    none where foot, sound hole and holes are a root's length away; between, not checked: a
//          smooth way from what is known on one side to what is known on the other.
// Source   own reasoning.
PlacedRidge placed_ridge(const Flute& flute, double bore_end_m);

// Of a node's root along the tube; a ring filed thinner than this has its root still.
inline constexpr double kLeastRoot_m = 2.0e-3;

}  // namespace canewright

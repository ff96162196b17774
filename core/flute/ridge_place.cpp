// core/flute/ridge_place.cpp: a ridge's size and its share between the holes.
#include "core/flute/ridge_place.hpp"

#include <algorithm>

namespace canewright {
namespace {

// From 0 to 1 without a corner.
double smooth(double x) {
    const double s = std::clamp(x, 0.0, 1.0);
    return s * s * (3.0 - 2.0 * s);
}

}  // namespace

PlacedRidge placed_ridge(const Flute& flute, double bore_end_m) {
    PlacedRidge placed;
    placed.shares.assign(flute.holes.size() + 1, 0.0);
    if (!flute.ridge) return placed;
    const Ridge& ridge = *flute.ridge;
    const double root_m = std::max(ridge.thickness_m, kLeastRoot_m);
    const double left = smooth((bore_end_m - ridge.at_m) / root_m + 0.5);
    placed.bore_radius_m = 0.5 * bore_diameter_m(flute, std::min(ridge.at_m, bore_end_m));
    // one knocked out to more than a bore that narrows is no ring
    const double opening_m = std::min(0.5 * ridge.opening_m, placed.bore_radius_m);
    placed.opening_radius_m = placed.bore_radius_m - left * (placed.bore_radius_m - opening_m);
    placed.thickness_m = left * ridge.thickness_m;
    if (!flute.foot_plug) placed.to_end_m = std::max(bore_end_m - ridge.at_m - 0.5 * root_m, 0.0);

    const double moved = std::clamp(ridge.at_m / flute.sound_hole.length_m, 0.0, 1.0);
    const double whole = left > 0.0 ? moved * moved : 0.0;
    double above = 0.0;
    for (std::size_t i = 0; i < flute.holes.size(); ++i) {
        const FingerHole& hole = flute.holes[i];
        const double reach_m = 0.5 * (hole.inner_diameter_m + root_m);
        const double now = smooth(0.5 + 0.5 * (hole.at_m - ridge.at_m) / reach_m);
        placed.shares[i] = whole * std::max(now - above, 0.0);
        above = std::max(above, now);
    }
    placed.shares.back() = whole * (1.0 - above);
    return placed;
}

}  // namespace canewright

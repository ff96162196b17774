// core/layout/beside.cpp: whether a hair of an input would lead elsewhere.
#include <algorithm>

#include "core/layout/place_holes.hpp"
#include "core/layout/placement.hpp"

namespace canewright {
namespace {

// Of the sound hole's length, and as much of it as a rule errs: it moves every note, so most edges
// that any input has a tenth of a millimetre away are crossed on one side or the other.
constexpr double kBeside = 0.005, kMostBeside = 0.04, kBeside_m = 0.1e-3;
// Evaluations of networks in one layout, times their pieces, beyond which nobody waits for both
// sides, or for one.
constexpr long kMostForBoth = 280000, kMostForOne = 360000;

}  // namespace

void look_beside(LayoutTask task, const Air& air, LayoutResult& result) {
    if (!result.converged) return;
    task.look_beside = nullptr;
    task.count_anew = nullptr;
    task.stands_on_edge = nullptr;
    const double length_m = task.flute.sound_hole.length_m;
    const double beside = std::clamp(kBeside_m / length_m, kBeside, kMostBeside);
    const long once = result.evaluations * pieces(task);
    for (const double share : {1.0 - beside, 1.0 + beside}) {
        if (once > (share < 1.0 ? kMostForOne : kMostForBoth)) return;
        task.flute.sound_hole.length_m = share * length_m;
        const LayoutResult there = place_holes(task, air, Explain::no);
        result.evaluations += there.evaluations;
        result.steps += there.steps;
        const double moved_m = apart_m(result.flute, there.flute);
        if (there.converged && moved_m > kContinuous_m)
            result.loose_m = std::max(result.loose_m, moved_m);
    }
}

}  // namespace canewright

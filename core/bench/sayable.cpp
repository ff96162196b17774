// core/bench/sayable.cpp: holes that fit where they are said to be.
#include "core/bench/sayable.hpp"

#include <algorithm>
#include <cmath>

#include "core/bench/belief/unknowns.hpp"
#include "core/layout/problem.hpp"

namespace canewright {
namespace {

constexpr double kShareOfRoom = 0.8;  // of its room, a hole that is spread takes at most so much

// Holes [first, end) lie in order between two edges, apart from one another.
bool fit(const std::vector<FingerHole>& holes, std::size_t first, std::size_t end, double from_m,
         double to_m) {
    for (std::size_t i = first; i < end; ++i) {
        const double radius_m = 0.5 * holes[i].diameter_m;
        if (holes[i].at_m - radius_m < from_m || holes[i].at_m + radius_m > to_m) return false;
        from_m = holes[i].at_m + radius_m;
    }
    return true;
}

}  // namespace

Flute put_in_order(Flute planned, const Stage& now) {
    std::vector<FingerHole>& holes = planned.holes;
    const double disc_m = planned.foot_plug ? planned.foot_plug->thickness_m : 0.0;
    double from_m = planned.sound_hole.length_m;
    for (std::size_t first = 0; first < holes.size();) {
        std::size_t end = first;
        while (end < holes.size() && !now.holes[end].cut) ++end;
        const bool cut_next = end < holes.size();
        const double to_m = cut_next ? holes[end].at_m - 0.5 * holes[end].diameter_m
                                     : std::min(planned.foot_m, now.foot_m) - disc_m;
        if (to_m > from_m && !fit(holes, first, end, from_m, to_m)) {
            const double room_m = (to_m - from_m) / static_cast<double>(end - first + 1);
            for (std::size_t i = first; i < end; ++i) {
                const double flare = holes[i].inner_diameter_m / holes[i].diameter_m;
                holes[i].at_m = from_m + room_m * static_cast<double>(i - first + 1);
                holes[i].diameter_m = std::min(holes[i].diameter_m, kShareOfRoom * room_m);
                holes[i].inner_diameter_m = holes[i].diameter_m * flare;
            }
        }
        if (cut_next) from_m = holes[end].at_m + 0.5 * holes[end].diameter_m;
        first = end + 1;
    }
    return planned;
}

bool make_sayable(Stage& goal, const Stage& now, const Flute& blank) {
    constexpr double kSame_m = 1e-9;
    bool changed = false;
    const auto set = [&changed](HoleNow& hole, double diameter_m) {
        changed = changed || std::abs(diameter_m - hole.diameter_m) > kSame_m;
        hole.diameter_m = diameter_m;
    };
    double from_m = goal.sound_hole.length_m;
    for (std::size_t i = 0; i < goal.holes.size(); ++i) {
        HoleNow& hole = goal.holes[i];
        const double cut_m = now.holes[i].cut ? now.holes[i].diameter_m : 0.0;
        const double least_m = cut_m > 0.0 ? cut_m : kLeastHole_m / std::min(1.0, hole.flare);
        const double widest_m = kMostHole * bore_diameter_m(blank, hole.at_m);
        set(hole, std::max(least_m, std::min(hole.diameter_m, widest_m)));
        // and apart from the one above, which gives way first where it can
        const double over_m = from_m + 0.5 * hole.diameter_m - hole.at_m;
        if (over_m > 0.0 && i > 0) {
            HoleNow& above = goal.holes[i - 1];
            const double above_least_m =
                now.holes[i - 1].cut ? now.holes[i - 1].diameter_m : kLeastHole_m;
            const double given_m = std::min(2.0 * over_m, above.diameter_m - above_least_m);
            if (given_m > 0.0) set(above, above.diameter_m - given_m);
            from_m = above.at_m + 0.5 * above.diameter_m;
        }
        set(hole, std::max(least_m, std::min(hole.diameter_m, 2.0 * (hole.at_m - from_m))));
        const double flare = std::min(hole.flare, widest_flare(blank, hole));
        changed = changed || hole.flare - flare > kSame_m;
        hole.flare = flare;
        from_m = hole.at_m + 0.5 * hole.diameter_m;
    }
    return changed;
}

}  // namespace canewright

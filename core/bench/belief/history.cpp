// core/bench/belief/history.cpp: a stage of a build as a flute.
#include "core/bench/belief/history.hpp"

#include <algorithm>

namespace canewright {

FingerHole made_of(const HoleNow& hole, double tube_wall_m) {
    FingerHole made;
    made.at_m = hole.at_m;
    made.diameter_m = hole.diameter_m;
    made.inner_diameter_m = hole.diameter_m * hole.flare;
    made.wall_m = hole.wall_m > 0.0 ? hole.wall_m : tube_wall_m;
    made.aspect = hole.aspect;
    made.at_fixed = hole.at_fixed;
    made.diameter_fixed = hole.diameter_fixed;
    return made;
}

Flute flute_at(const History& history, const Stage& stage) {
    Flute flute = history.blank;
    flute.foot_m = stage.foot_m;
    flute.sound_hole = stage.sound_hole;
    flute.foot_plug = stage.foot_plug;
    flute.holes.clear();
    for (const HoleNow& hole : stage.holes) {
        if (!hole.cut) continue;
        flute.holes.push_back(made_of(hole, flute.wall_m));
    }
    return flute;
}

Fingering over_cut_holes(const Stage& stage, const Fingering& open) {
    Fingering counted;
    int number = 0;
    for (std::size_t i = 0; i < stage.holes.size(); ++i) {
        if (!stage.holes[i].cut) continue;
        ++number;
        if (std::find(open.begin(), open.end(), static_cast<int>(i) + 1) != open.end())
            counted.push_back(number);
    }
    return counted;
}

}  // namespace canewright

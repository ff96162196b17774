// core/bench/ways.hpp: what would bring each note of a flute to its place. Layer: bench.
#pragma once

#include "core/bench/rescue.hpp"

namespace canewright {

struct NoteWays {
    std::size_t note = 0;  // of aim.notes
    double off_cents = 0.0, sigma_cents = 0.0;
    std::vector<RescueOption> options;  // none: it is near enough
};

// Of every note that can be played as the flute is: how far off it is and, where that is more than
// aim.good_enough_cents, what would mend it.
//
// Model    sharp: rescue_hole() and rescue_foot(), as the next step has them. Flat: its own hole
//          (or the foot) opened until it is as far below its place as an opening by ear stops
//          (Cuts::stop_margin_cents), at most as wide as goal and shop let it be. Each by solving
//          the flute with it under the present belief; a note that no hole of its own tunes has
//          none.
// Requires goal is find_goal()'s for the same build.
std::vector<NoteWays> ways_of(const History& history, const Estimate& estimate, const Aim& aim,
                              const Goal& goal);

// What of the tube stays below the last hole, whatever is taken off the foot.
inline constexpr double kLeastBelowHole_m = 5e-3;

}  // namespace canewright

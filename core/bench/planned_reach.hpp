// core/bench/planned_reach.hpp: how far a planned hole may go from its plan. Layer: bench.
#pragma once

#include "core/bench/aim.hpp"

namespace canewright {

// Of each hole of the plan; without limit where it is cut, tunes no note, or is not planned for
// this song.
//   above_cents   of each note of the aim above the lowest
//
// Model    a note that was uncertain by so many cents when it was planned, over the slope of its
//          pitch along the tube.
std::vector<PlannedPlace> planned_places(const History& history, const Estimate& estimate,
                                         const Aim& aim, const std::vector<double>& above_cents);

}  // namespace canewright

// core/layout/octaves.hpp: of the flutes that meet the notes, the one whose octaves are truest.
// Layer: layout.
#pragma once

#include "core/layout/gauss_newton.hpp"

namespace canewright {

// As a walk on from `from` with Problem::draw_to(home), but what the notes leave open (places and
// sizes come in pairs) goes to where the overblown octaves are truest as well: the least of
//   counted(errors)^2 + |draw_to(home)|^2 + (weight kOctave)^2 sum of octaves^2,
// each octave the second register over twice the first [cents], resonances both. A note without a
// second register has no part in it; none that has one loses it on the way.
//   weight   task.octaves_weight, 0 to 1. 0 is that walk itself.
//
// Model    Gauss-Newton with the octaves' own slopes, damped until it helps (Levenberg 1944).
// Error    converged: the last turn moved no scaled number by kOctavesStill.
// Errors   as walk(); converged is false too where kMostTurns ran out.
Walk walk_by_octaves(Problem& problem, const Walk& from, const Flute& home, double weight);

// What LayoutTask::octaves has to be for its weight to count, and a task with it.
OctavesWalk octaves_for(const LayoutTask& task);
LayoutTask with_octaves(LayoutTask task);

// What a cent of an octave counts beside a cent of a note, at weight 1. So little that a note gives
// way by hundredths of a cent only, which the pulls after it take back.
inline constexpr double kOctave = 0.1;
inline constexpr double kOctavesStill = 1e-5;
inline constexpr int kMostTurns = 40;

}  // namespace canewright

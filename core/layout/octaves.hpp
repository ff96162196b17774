// core/layout/octaves.hpp: of the flutes that meet the notes, the one whose octaves are truest.
// Layer: layout.
#pragma once

#include "core/layout/gauss_newton.hpp"

namespace canewright {

// As a walk on from `from` with Problem::draw_to(home), but what the notes leave open (places and
// sizes come in pairs) goes to where the overblown octaves are truest as well: the least of
//   counted(errors)^2 + |draw_to(home)|^2 + (weight kOctave)^2 sum of octaves^2,
// each octave the second register over twice the first [cents], resonances both. A note without a
// second register has no part in it. Where by the whole weight one that has it would lose it, the
// largest part of the weight counts that takes none: Walk::octaves_counted.
//   weight   task.octaves_weight, 0 to 1. 0 is that walk itself.
//
// Model    Weights are doubled from 1/64 on, each from the flute of the one before: kTurns steps of
//          Gauss and Newton with the octaves' own slopes, damped, each register followed from flute
//          to flute and counted from below at the end. A fixed number of steps: the least is not
//          sought to its last digit, but a hair moves no mark far. Where a doubling does not go,
//          kMostHalves bisections.
// Errors   as walk(). octaves_counted is 0 where no part of the weight came to an end.
Walk walk_by_octaves(Problem& problem, const Walk& from, const Eigen::VectorXd& home,
                     double weight);

// What LayoutTask::octaves has to be for its weight to count.
const OctavesGoal* octaves_for(const LayoutTask& task);

// What a cent of an octave counts beside a cent of a note, at weight 1. So little that a note gives
// way by hundredths of a cent only, which the pulls after it take back.
inline constexpr double kOctave = 0.1;
inline constexpr int kTurns = 4;
inline constexpr int kExactPulls = 2;
inline constexpr int kMostHalves = 12;

}  // namespace canewright

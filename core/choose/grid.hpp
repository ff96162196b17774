// core/choose/grid.hpp -- the lowest notes, scales and numbers of holes that are tried on a tube.
// Layer: choose.
#pragma once

#include <vector>

#include "core/music/scale.hpp"

namespace canewright {

// One wish that a tube might carry.
struct Wish {
    int note = 0;  // lowest note, semitones (core/music/pitch_name)
    const Scale* scale = nullptr;
    int holes = 0;
};

// The wishes of the grid: every equal-tempered note from the lowest one that the whole tube
// reaches up to kGridSpan above it, times every named scale, times its numbers of holes: as many
// as the scale has steps up to its octave, and for a scale of five steps one less.
//   whole_Hz  what the tube sounds at its full length without finger holes, > 0
//   a4_Hz     pitch standard, > 0
std::vector<Wish> wishes(double whole_Hz, double a4_Hz);

// Two octaves: a tube that is sawn off to a quarter of its length is another tube.
inline constexpr int kGridSpan = 24;
// Six holes are what six fingers cover; seven-step scales play their upper octave overblown.
// Common practice, no source.
inline constexpr int kUsualHoles = 6;

}  // namespace canewright

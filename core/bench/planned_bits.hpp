// core/bench/planned_bits.hpp: the bits with which a build was planned. Layer: bench.
#pragma once

#include "core/layout/placement.hpp"

namespace canewright {

// Puts the flute of the bits that were planned in the place of `found` where others save no more
// than kKeepsBits_cents of the errors (LayoutTask::keep_bits): which bit is the nearest may be
// another at every cut, and what nobody hears is worth neither another bit nor other places.
void keep_planned_bits(const LayoutTask& task, const Air& air, const Placement& unlimited,
                       Placement& found);

inline constexpr double kKeepsBits_cents = 0.5;

}  // namespace canewright

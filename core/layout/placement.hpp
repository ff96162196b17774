// core/layout/placement.hpp: one layout of a task, free in size or with the maker's bits.
// Layer: layout.
#pragma once

#include <optional>
#include <vector>

#include "core/air/air.hpp"
#include "core/layout/gauss_newton.hpp"

namespace canewright {

struct Placement {
    Walk walk;
    Flute flute;
    double size_over_bore = 0.0;  // the hole size that was wished for
    std::vector<Wall> active;     // limits that press
    long evaluations = 0;
    int steps = 0;
};

// Sizes anywhere between the limits, with one limit left out on request; from a similar answer,
// or from several first guesses until one meets the notes.
Placement free_placement(const LayoutTask& task, const Air& air,
                         std::optional<Wall> left_out = std::nullopt,
                         const Placement* near = nullptr);

// Sizes from task.shop.bits_m: each hole's nearest to the free answer, places solved again, then
// single changes of bit as long as they help (at most kMostRounds).
Placement placement_with_bits(const LayoutTask& task, const Air& air, const Placement& free);

inline constexpr int kMostRounds = 4;
inline constexpr double kMet_cents = 0.1;  // a note this near is met

}  // namespace canewright

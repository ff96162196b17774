// core/bench/aim.hpp: what the build is to become, and the flute that would be it. Layer: bench.
#pragma once

#include <algorithm>
#include <vector>

#include "core/bench/belief/evidence.hpp"
#include "core/layout/place_holes.hpp"

namespace canewright {

// How much wider than its drill or rod a hole comes out in this maker's hand.
struct Burn {
    double wider_m = 0.0;
    double sigma_m = 0.0;  // of one hole of the next flute

    // The hole that a drill or rod makes; whatever was learned, no less than half as wide.
    double hole_m(double drill_m) const { return std::max(drill_m + wider_m, 0.5 * drill_m); }
};

struct Aim {
    std::vector<NoteTarget> notes;  // as for a layout; target_Hz as sounded where it is played
    bool lowest_free = false;
    double octaves_weight = 0.0;  // as of a layout
    Shop shop;
    double tolerance_cents = 10.0;
    double good_enough_cents = 5.0;  // within which every note shall probably be: the finish line
    double play_C = 20.0;            // where it will be played
    double room_C = 20.0;            // where the next reading is taken
    double risk = 0.05;         // accepted chance that any note of the finished flute is too sharp,
                                // and, of one called done, off either way
    bool needs_drying = false;  // cane, bamboo, wood: the last cents wait for the next day
    Burn burn;
};

// The flute to be reached from here: what is cut stays where it is and can only grow.
struct Goal {
    Stage stage;  // every hole cut, sizes such that the believed unknowns give the targets
    std::vector<double> target_Hz;        // of each note, as sounded at play_C
    std::vector<double> above_cents;      // of each note above the lowest
    std::vector<double> left_over_cents;  // error that remains in the plan
    std::vector<bool> held;               // of each hole: kept from going further from its plan
    bool converged = false;

    // The layout it is made of: the flute as believed to act, so that the verb `layout` and the
    // next step say the same.
    LayoutTask task;
    LayoutResult layout;
    Air air;
};

// The largest a finger hole may become: by the shop, a little beyond its largest bit, by the model.
double largest_hole_m(const Aim& aim, double bore_m);

inline constexpr double kSameFoot_m = 1e-9;  // one that is said no farther off is not cut

// The foot of a goal as the maker's rule has it: the present end where it stays, else the place to
// cut.
double foot_to_say_m(const Goal& goal, const Stage& now);

// Lays the rest of the flute out anew for this tube, as the readings have shown it to be.
//
// Model    place_holes() for the believed flute. An uncut hole that was planned stays within
//          kPlanReach_m, or kPlanReach standard deviations of what was not known when it was
//          planned, of its plan: beyond that something is wrong with what was entered, not with the
//          plan. A plan that is not for this song (its note further off than that) holds nothing.
// Errors   no room between what is cut and the limits: the flute as planned, converged is false.
Goal find_goal(const History& history, const Estimate& estimate, const Aim& aim,
               Explain explain = Explain::no);

inline constexpr double kPlanReach_m = 3e-3;
inline constexpr double kPlanReach = 3.0;

}  // namespace canewright

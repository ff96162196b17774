// core/choose/reach.hpp -- what a hand allows: from two sizes that a ruler gives, and of a flute
// that has been laid out. Layer: choose.
#pragma once

#include <vector>

#include "core/layout/plan.hpp"

namespace canewright {

// Of one hand. `span_m`: three fingers spread as far as is easy, from the middle of the index
// finger's tip to the middle of the ring finger's. `pad_m`: how wide the ring finger's print is,
// pressed on as a hole is covered.
struct HandSize {
    const char* name = "";
    double span_m = 0.0;
    double pad_m = 0.0;
};

// What follows for holes, centre to centre and in width [m].
struct HandLimits {
    double apart_min_m = 0.0, apart_max_m = 0.0, hole_max_m = 0.0;
};

// Model    three fingers have two ways between them; a print closes a hole with kSeal_m of skin all
//          round; a finger is wider than its print by kBeside_m on either side, and two may touch.
// Source   common practice, no source.
HandLimits limits_of_hand(double span_m, double pad_m);

// Hands to begin with, the smallest first; the grown-up's is that of core/choose/merit. Common
// practice, no source; fingers of children as wide as those measured
// (tests/core/choose/reach_test).
const std::vector<HandSize>& hand_sizes();

inline constexpr double kSeal_m = 0.0015, kBeside_m = 0.002;

// What a hand will find hard about a flute. `holes` from 0; with one hole the other is -1.
struct HandWarning {
    enum class Kind { far, near, wide } kind;
    int hole = 0, other = -1;
    double value_m = 0.0, limit_m = 0.0;
    bool own_limit = false;  // the maker's; else a grown-up's hand (core/choose/merit)
};
// Beyond the shop's limits where it has any, and beyond what a grown-up's hand does where not.
std::vector<HandWarning> hand_warnings(const Shop& shop, const std::vector<FingerHole>& holes);

// 0 the upper hand, 1 the lower: for each hole.
std::vector<int> hand_of_holes(const Shop& shop, int holes);

}  // namespace canewright

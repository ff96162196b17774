// core/choose/drills.hpp -- the sizes in which twist drills are sold. Layer: choose.
#pragma once

#include <string>
#include <vector>

namespace canewright {

// A drill as its owner knows it.
struct Drill {
    double diameter_m;
    std::string label;
};
struct DrillSet {
    const char* name;  // "metric", "inch fractions", "numbers", "letters"
    std::vector<Drill> drills;
};

// The four rows of sizes between kLeastDrill_m and kMostDrill_m: what finger holes, sound holes and
// air holes are drilled with. Rising.
//
// Source  metric: tenths of a millimetre from 3 mm (BS 328, ISO 235); of these the halves, which
//         sets hold. Fractions: 64ths of an inch, numbers 1 to 30, letters A to Z: ASME B94.11M.
std::vector<DrillSet> drill_sets();

// What the owner of some drills might buy more of, between two sizes: the sets of which some are
// owned by name, and half millimetres for who owns drills without such names ("", a rod's); none
// nearer than kSameDrill_m to one that is owned. Those of half millimetres have no label.
std::vector<Drill> drills_on_offer(const std::vector<Drill>& owned, double from_m, double to_m);

inline constexpr double kSameDrill_m = 0.0003;
inline constexpr double kLeastDrill_m = 0.003, kMostDrill_m = 0.0127;

}  // namespace canewright

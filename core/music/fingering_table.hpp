// core/music/fingering_table.hpp -- the default fingerings that do not follow the simple rule.
#pragma once

#include <string>
#include <vector>

namespace canewright {

// One step of a scale and how it is played.
struct FingeredStep {
    double step_cents;      // above the lowest note
    std::vector<int> open;  // numbers of the open holes, rising, 1 nearest the sound hole
};

struct FingeringEntry {
    std::string scale;  // a name of named_scales()
    int holes;
    std::vector<FingeredStep> steps;  // rising; the first is {0, {}}
};

// The table itself is fingering_table.cpp, which says how to edit it.
const std::vector<FingeringEntry>& fingering_table();

}  // namespace canewright

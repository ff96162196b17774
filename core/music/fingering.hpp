// core/music/fingering.hpp -- which holes are open for which step of a scale.
#pragma once

#include <optional>
#include <vector>

#include "core/base/violation.hpp"
#include "core/music/fingering_table.hpp"
#include "core/music/scale.hpp"

namespace canewright {

inline constexpr int kFewestHoles = 1;
inline constexpr int kMostHoles = 8;  // what eight fingers cover; thumbs hold the flute

// A maker's own: the open holes of each step of the scale, in any order within a step.
using OwnFingerings = std::vector<std::vector<int>>;

struct ResolvedFingerings {
    std::vector<FingeredStep> steps;    // from the lowest note up; empty when anything is wrong
    std::vector<Violation> violations;  // all of them
};

// The open holes when one after the other is opened from the foot up: 0 gives {}, 2 of 5 {4, 5}.
// Requires 0 <= count <= holes.
std::vector<int> lowest_holes(int count, int holes);

// The steps that will be played, and with which holes.
//
//   scale   named (the name decides) or a maker's own (empty name, steps passed check_steps())
//   holes   1..8, else too_small / too_large at song.holes
//   own     where given, one list for each step of the scale, and nothing else is played
//
// Without `own`:
//   a named scale with an entry in fingering_table() plays that entry;
//   any other scale is opened one hole after the other, continued past its last step by octaves
//   where there are more holes than steps (continued_steps()). A named scale with more steps than
//   holes + 1 plays its lowest ones; for a maker's own, where every step was asked for, that is
//   missing_fingering at song.scale (value: steps asked for, limit: steps that can be played).
// With `own`, at song.fingerings or below:
//   missing_fingering  fewer lists than steps       too_large  more lists than steps
//   bad_hole_number    no such hole                 overlap    a hole, or a whole list, twice
//   out_of_order       a list that opens some of the holes of a lower step and no other: it
//                      cannot sound higher, at least not in the first register, and the
//                      document knows no other. Value and limit are the two steps [cents].
ResolvedFingerings resolve_fingerings(const Scale& scale, int holes,
                                      const std::optional<OwnFingerings>& own = std::nullopt);

}  // namespace canewright

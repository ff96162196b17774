// core/music/fingering_table.cpp -- the default fingerings that do not follow the simple rule.
//
// The rule (fingering.cpp) needs no entry here: open the holes one after the other from the foot
// up; n holes play the lowest n + 1 degrees. It serves all but the two cases below. An entry
// replaces the rule for its scale and number of holes, and also says which degrees are played.
//
// To edit: holes are numbered from 1, nearest the sound hole; a line is {cents, {open holes}};
// lines rise; every degree must belong to the scale; no line may open a subset of the holes of a
// lower one, since opening a hole never lowers a note. The test of this file checks all that.
//
// All notes are in the first register. Six-hole major and natural minor therefore end at the
// seventh degree: with all six holes open for it, nothing is left to open for the octave, which the
// player overblows. Two fingerings that differ in register only have no place in the document.
#include "core/music/fingering_table.hpp"

namespace canewright {

const std::vector<FingeringEntry>& fingering_table() {
    static const std::vector<FingeringEntry> table = {
        // Hole 3 stays covered throughout, so that the six holes play the five notes and the
        // octave. Common practice, no source.
        {"minor pentatonic",
         6,
         {
             {0, {}},
             {300, {6}},
             {500, {5, 6}},
             {700, {4, 5, 6}},
             {1000, {2, 4, 5, 6}},
             {1200, {1, 2, 4, 5, 6}},
         }},

        // Five holes one after the other end at the flat sixth (800). A cross fingering adds the
        // seventh: the fifth is the flat sixth with the two holes below it covered, a semitone
        // lower. Covering holes below the first open one to flatten it is common practice, no
        // source; its use here is our choice.
        // Two holes and not one, by a lossless plane-wave estimate of ours (bore 18.5 mm, wall
        // 3.5 mm, foot at 390 mm, all holes 7 mm wide): {2, 5} gives 701 cents, {2, 4, 5} 738,
        // which would need a hole 2 of 5.3 mm, moved to within 10 mm of hole 1.
        {"natural minor",
         5,
         {
             {0, {}},
             {200, {5}},
             {300, {4, 5}},
             {500, {3, 4, 5}},
             {700, {2, 5}},  // cross fingering of 800
             {800, {2, 3, 4, 5}},
             {1000, {1, 2, 3, 4, 5}},
         }},

        // Not five-hole major: its only semitone below the seventh, 400 to 500, has a single hole
        // below it, and by the same estimate {4} is then 51 cents sharp with 7 mm holes and right
        // only when all upper holes are about 4.6 mm. It follows the rule, up to the sixth (900).
    };
    return table;
}

}  // namespace canewright

// core/task/replay.hpp -- what the log's cuts have made of the tube.
#pragma once

#include <vector>

#include "core/document/document.hpp"

namespace canewright {

// The document as the log's last entry leaves it.
struct Standing {
    // tube.end_m: where the foot was last sawn, if that is nearer. sound_hole: as last opened.
    // foot_plug: as last put in. finger_holes: those cut stand where and as wide as they were last
    // cut; the others as planned.
    Document document;
    std::vector<bool> is_cut;            // one entry a planned hole
    std::vector<double> cut_diameter_m;  // 0: not cut, or its diameter is not known
};

// Readings, undercuts, a moved block and a sealed bore change nothing here: what they tell is for a
// calibration, and no size can be read off them. A hole cut without a diameter keeps the planned
// one; one that was narrowed without a diameter has the planned one again.
// Requires  a document without violations.
Standing replay(const Document& document);

// Whether anything happened: an empty log is none.
bool has_log(const Document& document);
// Whether a hole was cut.
bool cuts_holes(const Document& document);

}  // namespace canewright

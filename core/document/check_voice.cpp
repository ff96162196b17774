// core/document/check_voice.cpp -- violations between values: splitting edge and block.
#include "core/document/check_parts.hpp"

namespace canewright {

namespace {

// The wall that the splitting edge is cut into; nothing where none is given. From the outside it is
// that of the tube's middle, which stands for all of it (core/task), at its thinner sides.
std::optional<double> wall_of_edge_m(const Document& document) {
    if (document.sound_hole->wall_m) return document.sound_hole->wall_m;
    if (!document.tube) return {};
    const TubeEntry& tube = *document.tube;
    if (tube.wall_m || !tube.outer_m || tube.bore.empty()) return tube.wall_m;
    return 0.5 * (*tube.outer_m - widest_bore_m(document, 0.5 * tube.end_m.value_or(0.0)));
}

}  // namespace

void check_edge(const Document& document, Faults& faults) {
    if (!document.sound_hole || !document.sound_hole->edge_m) return;
    const double edge_m = *document.sound_hole->edge_m;
    const std::optional<double> most_m = wall_of_edge_m(document);
    if (most_m && exceeds(edge_m, *most_m)) {
        add_mm(faults, Code::too_large, "sound_hole.edge_mm", edge_m, *most_m);
    }
}

void check_block(const Document& document, Faults& faults) {
    if (!document.block || !document.block->front_m || !document.sound_hole) return;
    // As far as that it would close the opening.
    const double least_m = -document.sound_hole->length_m;
    if (*document.block->front_m <= least_m) {
        add_mm(faults, Code::too_small, "block.front_mm", *document.block->front_m, least_m);
    }
}

}  // namespace canewright

// tests/support/random_voices.cpp: ramps, blocks and side walls, measured, seen by eye or not
// there.
#include <algorithm>
#include <string>

#include "core/document/limits.hpp"
#include "tests/support/random_documents.hpp"

namespace canewright::testing {

namespace {

const char* one_of(Draw& draw, const char* const (&words)[3]) { return words[draw.whole(0, 2)]; }

double within(Draw& draw, double low, double high, const Range& range) {
    return draw.size(low, high, range.min, range.max);
}

Json side_walls(Draw& draw, double length) {
    Json walls = Json::object();
    walls["height_mm"] = within(draw, 0.2 * length, 0.6 * length, limit::kSideWallHeight_mm);
    walls["thickness_mm"] = within(draw, 0.2 * length, 0.8 * length, limit::kSideWallThickness_mm);
    if (draw.chance(0.5))
        walls["length_mm"] = within(draw, 0.7 * length, 1.1 * length, limit::kSideWallLength_mm);
    return walls;
}

Json block(Draw& draw, double length, double bore) {
    Json block = Json::object();
    if (draw.chance(0.7))
        block["height_mm"] = within(draw, 0.7 * length, 2.0 * length, limit::kBlockHeight_mm);
    if (draw.chance(0.7))
        block["width_mm"] = within(draw, 0.7 * bore, 1.3 * bore, limit::kBlockWidth_mm);
    if (draw.chance(0.3)) block["front_mm"] = within(draw, -0.5, 1.0, limit::kBlockFront_mm);
    if (draw.chance(0.3))
        block["side_walls"] = one_of(draw, {"none", "low", "high"});
    else if (draw.chance(0.5))
        block["side_walls"] = side_walls(draw, length);
    return block;
}

}  // namespace

void add_voice(Draw& draw, Json& document) {
    Json& hole = document["sound_hole"];
    const double length = hole["length_mm"];
    if (draw.chance(0.3))
        hole["ramp"] = one_of(draw, {"none", "short", "long"});
    else if (draw.chance(0.7))
        hole["ramp_mm"] = within(draw, length, 2.2 * length, limit::kRamp_mm);
    if (draw.chance(0.5)) hole["edge_mm"] = within(draw, 0.1, 0.8, limit::kEdge_mm);
    if (draw.chance(0.2))
        document["block"] = "none";
    else if (draw.chance(0.8))
        document["block"] = block(draw, length, bore_mm(document));
}

}  // namespace canewright::testing

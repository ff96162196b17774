// core/document/read_voice.cpp -- the keys `sound_hole` and `block`.
#include <algorithm>
#include <iterator>

#include "core/document/read_parts.hpp"

namespace canewright {

namespace {

std::optional<Seen> read_seen(Fields& fields, const char* key, const char* const (&words)[3]) {
    const auto word = fields.choice(key, {words[0], words[1], words[2]});
    if (!word) return {};
    return static_cast<Seen>(std::find(std::begin(words), std::end(words), *word) - words);
}

bool is_word(Fields& fields, const char* key) {
    const Json* node = fields.raw(key);
    return node && node->is_string();
}

std::optional<SideWallsEntry> read_side_walls(Fields& fields) {
    SideWallsEntry walls;
    if (is_word(fields, "side_walls")) {
        walls.seen = read_seen(fields, "side_walls", kSideWallWords);
        return walls.seen ? std::optional<SideWallsEntry>(walls) : std::nullopt;
    }
    const bool there = fields.object("side_walls", [&](Fields& part) {
        walls.height_m = need_mm(part, "height_mm", limit::kSideWallHeight_mm);
        walls.thickness_m = need_mm(part, "thickness_mm", limit::kSideWallThickness_mm);
        walls.length_m = read_mm(part, "length_mm", limit::kSideWallLength_mm);
    });
    return there ? std::optional<SideWallsEntry>(walls) : std::nullopt;
}

}  // namespace

SoundHoleEntry read_sound_hole(Fields& fields) {
    SoundHoleEntry hole;
    hole.length_m = need_mm(fields, "length_mm", limit::kSoundHoleLength_mm);
    hole.width_m = need_mm(fields, "width_mm", limit::kSoundHoleWidth_mm);
    hole.wall_m = read_mm(fields, "wall_mm", limit::kThinnedWall_mm);
    hole.ramp_m = read_mm(fields, "ramp_mm", limit::kRamp_mm);
    hole.ramp_seen = read_seen(fields, "ramp", kRampWords);
    // What was seen and what was measured could contradict each other.
    if (fields.has("ramp") && fields.has("ramp_mm")) {
        fields.faults().add(violation(Code::overlap, fields.path("ramp")));
    }
    hole.edge_m = read_mm(fields, "edge_mm", limit::kEdge_mm);
    return hole;
}

std::optional<BlockEntry> read_block(Fields& fields) {
    BlockEntry block;
    if (is_word(fields, "block")) {
        block.none = fields.choice("block", {"none"}).has_value();
        return block.none ? std::optional<BlockEntry>(block) : std::nullopt;
    }
    const bool there = fields.object("block", [&](Fields& part) {
        block.height_m = read_mm(part, "height_mm", limit::kBlockHeight_mm);
        block.width_m = read_mm(part, "width_mm", limit::kBlockWidth_mm);
        block.front_m = read_mm(part, "front_mm", limit::kBlockFront_mm);
        block.side_walls = read_side_walls(part);
    });
    return there ? std::optional<BlockEntry>(block) : std::nullopt;
}

}  // namespace canewright

// core/document/write_voice.cpp -- the keys `sound_hole` and `block`.
#include "core/document/write_parts.hpp"

namespace canewright {

namespace {

Json side_walls_json(const SideWallsEntry& walls) {
    if (walls.seen) return kSideWallWords[static_cast<std::size_t>(*walls.seen)];
    Json json = Json::object();
    put_mm(json, "height_mm", walls.height_m);
    put_mm(json, "thickness_mm", walls.thickness_m);
    put_mm(json, "length_mm", walls.length_m);
    return json;
}

}  // namespace

Json sound_hole_json(const SoundHoleEntry& hole) {
    Json json = Json::object();
    put_mm(json, "length_mm", hole.length_m);
    put_mm(json, "width_mm", hole.width_m);
    put_mm(json, "wall_mm", hole.wall_m);
    put_mm(json, "ramp_mm", hole.ramp_m);
    if (hole.ramp_seen) json["ramp"] = kRampWords[static_cast<std::size_t>(*hole.ramp_seen)];
    put_mm(json, "edge_mm", hole.edge_m);
    return json;
}

Json block_json(const BlockEntry& block) {
    if (block.none) return "none";
    Json json = Json::object();
    put_mm(json, "height_mm", block.height_m);
    put_mm(json, "width_mm", block.width_m);
    put_mm(json, "front_mm", block.front_m);
    if (block.side_walls) json["side_walls"] = side_walls_json(*block.side_walls);
    return json;
}

}  // namespace canewright

// core/document/write_tube.cpp -- the keys `tube` and `finger_holes`.
#include "core/document/write_parts.hpp"

namespace canewright {

Json tube_json(const TubeEntry& tube) {
    Json json = Json::object();
    put(json, "material", tube.material);
    if (!tube.bore.empty()) json["bore"] = Json::array();
    for (const BoreEntry& station : tube.bore) {
        Json entry = Json::object();
        put_mm(entry, "at_mm", station.at_m);
        put_mm(entry, "diameter_mm", station.diameter_m);
        put_mm(entry, "across_mm", station.across_m);
        json["bore"].push_back(std::move(entry));
    }
    put_mm(json, "wall_mm", tube.wall_m);
    put_mm(json, "outer_mm", tube.outer_m);
    put_mm(json, "end_mm", tube.end_m);
    put_mm(json, "above_mm", tube.above_m);
    if (tube.ridge) {
        Json ridge = Json::object();
        put_mm(ridge, "at_mm", tube.ridge->at_m);
        put_mm(ridge, "opening_mm", tube.ridge->opening_m);
        if (tube.ridge->thickness_m != Ridge{}.thickness_m)
            put_mm(ridge, "thickness_mm", tube.ridge->thickness_m);
        json["ridge"] = std::move(ridge);
    }
    return json;
}

Json hole_json(const HoleEntry& hole) {
    Json json = Json::object();
    put_mm(json, "at_mm", hole.at_m);
    put_mm(json, "diameter_mm", hole.diameter_m);
    put_mm(json, "inner_diameter_mm", hole.inner_diameter_m);
    put_mm(json, "wall_mm", hole.wall_m);
    if (hole.aspect) json["aspect"] = *hole.aspect;
    if (hole.at_fixed && hole.diameter_fixed) {
        json["fixed"] = {"at", "diameter"};
    } else if (hole.at_fixed) {
        json["fixed"] = "at";
    } else if (hole.diameter_fixed) {
        json["fixed"] = "diameter";
    }
    return json;
}

}  // namespace canewright

// core/document/read_tube.cpp -- the key `tube`.
#include "core/document/read_parts.hpp"

namespace canewright {

namespace {

BoreEntry read_station(const Json& node, const std::string& path, Faults& faults) {
    Fields fields(node, path, faults);
    BoreEntry station;
    station.at_m = need_mm(fields, "at_mm", limit::kStation_mm);
    station.diameter_m = need_mm(fields, "diameter_mm", limit::kBore_mm);
    station.across_m = read_mm(fields, "across_mm", limit::kBore_mm);
    fields.close();
    return station;
}

}  // namespace

TubeEntry read_tube(Fields& fields) {
    TubeEntry tube;
    fields.list("bore", 1, limit::kStations, [&](const Json& node, const std::string& path) {
        tube.bore.push_back(read_station(node, path, fields.faults()));
    });
    tube.wall_m = read_mm(fields, "wall_mm", limit::kWall_mm);
    tube.outer_m = read_mm(fields, "outer_mm", limit::kOuter_mm);
    tube.end_m = read_mm(fields, "end_mm", limit::kEnd_mm);
    tube.above_m = read_mm(fields, "above_mm", limit::kAbove_mm);
    tube.material = fields.text("material", limit::kWord_bytes);
    fields.object("ridge", [&](Fields& part) {
        tube.ridge = Ridge{need_mm(part, "at_mm", limit::kStation_mm),
                           need_mm(part, "opening_mm", limit::kRidgeOpening_mm)};
        if (const auto thickness_m = read_mm(part, "thickness_mm", limit::kRidgeThickness_mm))
            tube.ridge->thickness_m = *thickness_m;
    });
    return tube;
}

}  // namespace canewright

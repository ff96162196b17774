// core/verbs/outside.cpp -- each element against the range that its header names.
#include "core/verbs/outside.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include "core/base/units.hpp"
#include "core/document/typed.hpp"
#include "core/element/sound_hole.hpp"
#include "core/layout/problem.hpp"
#include "core/task/replay.hpp"

namespace canewright {

namespace {

constexpr double kRounding = 1e-6;  // relative: a limit that is just kept is kept

struct Placed {
    double at_m, diameter_m;
};

class Outside {
   public:
    // Beyond [least, most], each in metres.
    void check(const std::string& path, double value_m, double least_m, double most_m) {
        if (value_m < least_m * (1.0 - kRounding)) add(path, value_m, least_m);
        if (value_m > most_m * (1.0 + kRounding)) add(path, value_m, most_m);
    }
    Json json = Json::array();

   private:
    void add(const std::string& path, double value_m, double limit_m) {
        json.push_back(
            {{"path", path}, {"value", typed_mm(value_m)}, {"limit", typed_mm(limit_m)}});
    }
};

std::vector<Placed> holes_of(const Flute& flute, const Json& answer) {
    std::vector<Placed> holes;
    const auto it = answer.find("finger_holes");
    if (it != answer.end() && it->is_array()) {
        for (const Json& hole : *it)
            holes.push_back({m_from_mm(hole.at("at_mm").get<double>()),
                             m_from_mm(hole.at("diameter_mm").get<double>())});
        return holes;
    }
    for (const FingerHole& hole : flute.holes) holes.push_back({hole.at_m, hole.diameter_m});
    return holes;
}

}  // namespace

Json outside_json(const Document& document, const Json& answer) {
    const Document now = replay(document).document;
    const Flute flute = flute_of(now);
    const SoundHole& hole = flute.sound_hole;
    const double bore_m = bore_diameter_m(flute, 0.5 * hole.length_m), radius_m = 0.5 * bore_m;
    Outside outside;
    double narrow_m = bore_m;
    for (std::size_t i = 0; i < flute.bore.size(); ++i) {
        const BoreStation& station = flute.bore[i];
        const double low_m = std::min(station.diameter_m, station.across_m);
        narrow_m = std::min(narrow_m, low_m);
        const std::string path = "tube.bore[" + std::to_string(i) + "].";
        outside.check(path + (low_m < station.diameter_m ? "across_mm" : "diameter_mm"), low_m,
                      kBoreMin_m, kNoLimit);
        const double high_m = std::max(station.diameter_m, station.across_m);
        outside.check(path + (high_m > station.diameter_m ? "across_mm" : "diameter_mm"), high_m,
                      0.0, kBoreMax_m);
    }
    const double most_wall_m = kWallToBore * narrow_m;
    if (now.tube->wall_m)
        outside.check("tube.wall_mm", flute.wall_m, 0.0, most_wall_m);
    else
        outside.check("tube.outer_mm", narrow_m + 2.0 * flute.wall_m, 0.0,
                      narrow_m + 2.0 * most_wall_m);
    const WindowRange& range = kWindowRange;
    outside.check("sound_hole.length_mm", hole.length_m, range.length_min * radius_m,
                  range.length_max * radius_m);
    outside.check("sound_hole.width_mm", hole.width_m, range.width_min * bore_m,
                  range.width_max * bore_m);
    outside.check("sound_hole.wall_mm", hole.wall_m, range.wall_min * radius_m,
                  range.wall_max * radius_m);
    outside.check("plug.offset_mm", flute.plug_offset_m, 0.0, range.offset_max * radius_m);
    const std::vector<Placed> holes = holes_of(flute, answer);
    for (std::size_t i = 0; i < holes.size(); ++i) {
        const std::string path = "finger_holes[" + std::to_string(i) + "].";
        outside.check(path + "diameter_mm", holes[i].diameter_m, 0.0,
                      kLargestHole * bore_diameter_m(flute, holes[i].at_m));
        if (i + 1 == holes.size()) continue;
        const double left_m = holes[i + 1].at_m - holes[i].at_m -
                              0.5 * (holes[i].diameter_m + holes[i + 1].diameter_m);
        outside.check(path + "at_mm", left_m,
                      std::max(holes[i].diameter_m, holes[i + 1].diameter_m), kNoLimit);
    }
    if (flute.foot_plug) {  // a disc is made for one place, and the foot may come to lie at another
        const auto foot = answer.find("foot_mm");
        const double foot_m = foot != answer.end() && foot->is_number()
                                  ? m_from_mm(foot->get<double>())
                                  : flute.foot_m;
        outside.check("foot_plug.opening_mm", flute.foot_plug->opening_m, 0.0,
                      bore_diameter_m(flute, foot_m));
    }
    return std::move(outside.json);
}

}  // namespace canewright

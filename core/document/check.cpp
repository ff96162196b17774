// core/document/check.cpp -- violations between values: tube, sound hole and foot.
//
// Comparisons are written so that NaN (a value that was wrong itself) passes: one mistake, one
// violation.
#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/units.hpp"
#include "core/document/asked.hpp"
#include "core/document/check_parts.hpp"
#include "core/document/read_parts.hpp"
#include "core/document/typed.hpp"

namespace canewright {

namespace {

void check_stations(const TubeEntry& tube, Faults& faults) {
    for (std::size_t i = 1; i < tube.bore.size(); ++i) {
        if (tube.bore[i].at_m <= tube.bore[i - 1].at_m) {
            add_mm(faults, Code::out_of_order, "tube.bore" + index_text(i) + ".at_mm",
                   tube.bore[i].at_m, tube.bore[i - 1].at_m);
        }
    }
}

void check_outer(const TubeEntry& tube, Faults& faults) {
    if (!tube.outer_m || tube.bore.empty()) return;
    double widest_m = 0.0;
    for (const BoreEntry& station : tube.bore) {
        widest_m = std::max({widest_m, station.diameter_m, station.across_m.value_or(0.0)});
    }
    const double least_m = widest_m + 2.0 * m_from_mm(limit::kWall_mm.min);
    if (exceeds(least_m, *tube.outer_m)) {
        add_mm(faults, Code::too_small, "tube.outer_mm", *tube.outer_m, least_m);
        return;
    }
    if (!tube.wall_m) return;
    // The same thing twice. Where the bore tapers, any of its stations may be the one measured.
    double off_m = std::numeric_limits<double>::infinity();
    double nearest_m = *tube.outer_m;
    for (const BoreEntry& station : tube.bore) {
        for (const double bore_m :
             {station.diameter_m, station.across_m.value_or(station.diameter_m)}) {
            const double implied_m = bore_m + 2.0 * *tube.wall_m;
            if (std::abs(*tube.outer_m - implied_m) < off_m) {
                off_m = std::abs(*tube.outer_m - implied_m);
                nearest_m = implied_m;
            }
        }
    }
    if (std::isfinite(off_m) && exceeds(off_m, 2.0 * m_from_mm(limit::kWallsAgree_mm))) {
        add_mm(faults, Code::overlap, "tube.outer_mm", *tube.outer_m, nearest_m);
    }
}

void check_tube(const Document& document, Faults& faults) {
    if (!document.tube) return;
    const TubeEntry& tube = *document.tube;
    check_stations(tube, faults);
    check_outer(tube, faults);
    if (tube.ridge) {
        const double bore_m = widest_bore_m(document, tube.ridge->at_m);
        if (exceeds(tube.ridge->opening_m, bore_m)) {
            add_mm(faults, Code::too_large, "tube.ridge.opening_mm", tube.ridge->opening_m, bore_m);
        }
        if (tube.end_m && exceeds(tube.ridge->at_m, *tube.end_m)) {
            add_mm(faults, Code::too_large, "tube.ridge.at_mm", tube.ridge->at_m, *tube.end_m);
        }
    }
}

void check_sound_hole(const Document& document, Faults& faults) {
    if (!document.sound_hole) return;
    const SoundHoleEntry& hole = *document.sound_hole;
    const double bore_m = widest_bore_m(document, 0.5 * hole.length_m);
    if (exceeds(hole.width_m, bore_m)) {
        add_mm(faults, Code::too_large, "sound_hole.width_mm", hole.width_m, bore_m);
    }
    // Below it there is room for a disc and, however small they be, for the holes asked for.
    double least_m = hole.length_m + kLeastRoom_m * (asked_holes(document).value_or(0) + 1);
    if (document.foot_plug)
        least_m += document.foot_plug->thickness_m.value_or(kFootPlugThickness_m);
    if (document.tube && document.tube->end_m && exceeds(least_m, *document.tube->end_m)) {
        add_mm(faults, Code::too_small, "tube.end_mm", *document.tube->end_m, least_m);
    }
}

// The disc in the foot as it is now: planned, or as the log has replaced it.
std::optional<std::pair<double, std::string>> disc_now(const Document& document) {
    std::optional<std::pair<double, std::string>> disc;
    const auto take = [&disc](const FootPlugEntry& entry, const std::string& path) {
        const double before_m = disc ? disc->first : kFootPlugThickness_m;
        disc = {entry.thickness_m.value_or(before_m), path + "foot_plug.thickness_mm"};
    };
    if (document.foot_plug) take(*document.foot_plug, "");
    for (std::size_t i = 0; document.log && i < document.log->size(); ++i)
        if ((*document.log)[i].what == Happened::foot_plug)
            take((*document.log)[i].foot_plug, "log" + index_text(i) + ".");
    return disc;
}

void check_foot(const Document& document, Faults& faults) {
    const FootPlugEntry* disc = document.foot_plug ? &*document.foot_plug : nullptr;
    const auto end_m = document.tube ? document.tube->end_m : std::nullopt;
    double above_m = document.sound_hole ? document.sound_hole->length_m : 0.0;
    bool stays = false;  // what lies above the foot, wherever the foot comes to lie
    if (document.finger_holes && !document.finger_holes->empty()) {
        const HoleEntry& last = document.finger_holes->back();
        above_m = last.at_m + 0.5 * last.diameter_m;
        stays = last.at_fixed;
    }
    if (document.foot_m) {
        if (end_m && exceeds(*document.foot_m, *end_m))
            add_mm(faults, Code::too_large, "foot_mm", *document.foot_m, *end_m);
        if (exceeds(above_m, *document.foot_m))
            add_mm(faults, Code::too_small, "foot_mm", *document.foot_m, above_m);
    }
    if (document.foot_m || (stays && end_m)) {
        // A disc is pressed in until it is flush: it must not cover the last hole.
        const double room_m = document.foot_m.value_or(end_m.value_or(0.0)) - above_m;
        const auto disc_thick = disc_now(document);
        if (disc_thick && room_m > 0.0 && exceeds(disc_thick->first, room_m))
            add_mm(faults, Code::too_large, disc_thick->second, disc_thick->first, room_m);
    }
    if (!disc) return;
    // It is made for wherever the foot comes to lie; where the tube narrows, a wider one is none
    // (core/verbs/outside says it).
    double bore_m = 0.0;
    const auto to_m = end_m ? end_m : document.foot_m;
    if (to_m) bore_m = widest_bore_m(document, *to_m);
    for (std::size_t i = 0; to_m && document.tube && i < document.tube->bore.size(); ++i)
        if (const double at_m = document.tube->bore[i].at_m; at_m < *to_m)
            bore_m = std::max(bore_m, widest_bore_m(document, at_m));
    if (bore_m > 0.0 && exceeds(disc->opening_m, bore_m)) {
        add_mm(faults, Code::too_large, "foot_plug.opening_mm", disc->opening_m, bore_m);
    }
}

}  // namespace

void add_mm(Faults& faults, Code code, const std::string& path, double value_m, double limit_m) {
    faults.add(violation(code, path, typed_mm(value_m), typed_mm(limit_m)));
}

double widest_bore_m(const Document& document, double at_m) {
    if (!document.tube || document.tube->bore.empty()) {
        return std::numeric_limits<double>::infinity();
    }
    const auto width_m = [](const BoreEntry& station) {
        return std::max(station.diameter_m, station.across_m.value_or(0.0));
    };
    const std::vector<BoreEntry>& bore = document.tube->bore;
    if (at_m <= bore.front().at_m) return width_m(bore.front());
    for (std::size_t i = 1; i < bore.size(); ++i) {
        if (at_m > bore[i].at_m) continue;
        const double span_m = bore[i].at_m - bore[i - 1].at_m;
        const double share = span_m > 0 ? (at_m - bore[i - 1].at_m) / span_m : 1.0;
        return width_m(bore[i - 1]) + share * (width_m(bore[i]) - width_m(bore[i - 1]));
    }
    return width_m(bore.back());
}

double widest_hole_m(const Document& document, double at_m) {
    return limit::kHoleToBore * widest_bore_m(document, at_m);
}

void check_document(const Document& document, Faults& faults) {
    check_tube(document, faults);
    check_sound_hole(document, faults);
    check_edge(document, faults);
    check_block(document, faults);
    check_finger_holes(document, faults);
    check_foot(document, faults);
    check_notes(document, faults);
    check_song(document, faults);
    check_shop(document, faults);
    check_log(document, faults);
}

}  // namespace canewright

// core/layout/causes.cpp: the list of causes, and what each does to a flute.
#include "core/layout/causes.hpp"

#include <algorithm>
#include <cmath>

namespace canewright {
namespace {

constexpr double kSameWidth = 1e-6;   // a limit that is just kept is kept
constexpr double kWidestHole = 0.95;  // of the bore: a wider one would cut the tube's sides open

double positive(double value) { return value > 0.0 ? value : 0.0; }

void widen(FingerHole& hole, double diameter_m) {  // an undercut hole keeps its shape
    hole.inner_diameter_m *= diameter_m / hole.diameter_m;
    hole.diameter_m = diameter_m;
}

}  // namespace

const char* name(Group group) {
    switch (group) {
        case Group::ruler:
            return "ruler";
        case Group::bits:
            return "bits";
        case Group::wall:
            return "wall";
        case Group::bore:
            return "bore";
        case Group::sound_hole:
            return "sound_hole";
        case Group::temperature:
            return "temperature";
        case Group::voice:
            return "voice";
        case Group::breath_share:
            return "breath_share";
        case Group::breath:
            return "breath";
        case Group::hole_size:
            return "hole_size";
        case Group::each_note:
            return "each_note";
    }
    return "";
}

const char* name(What what) {
    switch (what) {
        case What::place:
            return "place";
        case What::foot:
            return "foot";
        case What::diameter:
            return "diameter";
        case What::wall:
            return "wall";
        case What::bore:
            return "bore";
        case What::taper:
            return "taper";
        case What::sound_hole_length:
            return "sound_hole_length";
        case What::sound_hole_width:
            return "sound_hole_width";
        case What::temperature:
            return "temperature";
        case What::voice:
            return "voice";
        case What::breath_share:
            return "breath_share";
        case What::breath:
            return "breath";
        case What::hole_size:
            return "hole_size";
        case What::each_note:
            return "each_note";
    }
    return "";
}

Group group_of(What what) {
    switch (what) {
        case What::place:
        case What::foot:
            return Group::ruler;
        case What::diameter:
            return Group::bits;
        case What::wall:
            return Group::wall;
        case What::bore:
        case What::taper:
            return Group::bore;
        case What::sound_hole_length:
        case What::sound_hole_width:
            return Group::sound_hole;
        case What::temperature:
            return Group::temperature;
        case What::voice:
            return Group::voice;
        case What::breath_share:
            return Group::breath_share;
        case What::breath:
            return Group::breath;
        case What::hole_size:
            return Group::hole_size;
        case What::each_note:
            break;
    }
    return Group::each_note;
}

double crowding(const Flute& flute) {
    double lacking = 0.0;
    for (std::size_t i = 1; i < flute.holes.size(); ++i) {
        const FingerHole &upper = flute.holes[i - 1], &lower = flute.holes[i];
        const double wide_m = std::max(upper.diameter_m, lower.diameter_m);
        const double left_m = lower.at_m - upper.at_m - 0.5 * (upper.diameter_m + lower.diameter_m);
        lacking = std::max(lacking, 1.0 - left_m / wide_m);
    }
    return lacking > kSameWidth ? std::min(lacking, 1.0) : 0.0;
}

std::vector<Cause> causes_of(const Flute& flute, std::size_t notes, bool has_room,
                             const ShopErrors& shop, const ModelErrors& model) {
    std::vector<Cause> causes;
    const auto add = [&causes](What what, int index, double sigma) {
        if (sigma > 0.0) causes.push_back({what, index, sigma});
    };
    const int holes = static_cast<int>(flute.holes.size());
    for (int i = 0; i < holes; ++i) add(What::place, i, shop.ruler_m);
    add(What::foot, -1, shop.ruler_m);
    for (int i = 0; i < holes; ++i) add(What::diameter, i, shop.bit_m);
    add(What::wall, -1, shop.wall_m);
    add(What::bore, -1, shop.bore_m);
    add(What::taper, -1, shop.taper_m);
    add(What::sound_hole_length, -1, shop.sound_hole_m);
    add(What::sound_hole_width, -1, shop.sound_hole_m);
    if (has_room) add(What::temperature, -1, shop.temperature_C);
    add(What::voice, -1, model.voice);
    if (has_room) add(What::breath_share, -1, model.breath_share);
    add(What::breath, -1, model.breath);
    if (holes > 0) add(What::hole_size, -1, model.hole_size);
    const double each_cents =
        std::hypot(model.each_note_cents, kCrowdedHoles_cents * crowding(flute));
    for (std::size_t n = 0; n < notes; ++n) add(What::each_note, static_cast<int>(n), each_cents);
    return causes;
}

void put_off(Build& build, const Cause& cause, double amount) {
    Flute& flute = build.flute;
    const auto hole = [&]() -> FingerHole& {
        return flute.holes[static_cast<std::size_t>(cause.index)];
    };
    switch (cause.what) {
        case What::place:
            hole().at_m += amount;
            break;
        case What::foot:
            flute.foot_m += amount;
            break;
        case What::diameter:
            widen(hole(), positive(hole().diameter_m + amount));
            break;
        case What::wall:
            flute.wall_m = positive(flute.wall_m + amount);
            flute.sound_hole.wall_m = positive(flute.sound_hole.wall_m + amount);
            for (FingerHole& each : flute.holes) each.wall_m = positive(each.wall_m + amount);
            break;
        case What::bore:
            for (BoreStation& station : flute.bore) {
                station.diameter_m = positive(station.diameter_m + amount);
                station.across_m = positive(station.across_m + amount);
            }
            break;
        case What::taper: {
            // one measured station says nothing of the rest: the foot gets one of its own
            if (flute.bore.size() == 1) {
                flute.bore.front().at_m = std::min(flute.bore.front().at_m, 0.0);
                flute.bore.push_back(flute.bore.front());
                flute.bore.back().at_m = flute.foot_m;
            }
            for (BoreStation& station : flute.bore) {
                const double added_m = amount * std::max(0.0, station.at_m) / flute.foot_m;
                station.diameter_m = positive(station.diameter_m + added_m);
                station.across_m = positive(station.across_m + added_m);
            }
            break;
        }
        case What::sound_hole_length:
            flute.sound_hole.length_m = positive(flute.sound_hole.length_m + amount);
            break;
        case What::sound_hole_width:
            flute.sound_hole.width_m = positive(flute.sound_hole.width_m + amount);
            break;
        case What::temperature:
            if (build.room) build.room->temperature_C += amount;
            break;
        case What::voice:
            flute.sound_hole.inertance_factor *= positive(1.0 + amount);
            break;
        case What::breath_share:
            build.breath_share = std::clamp(build.breath_share + amount, 0.0, 1.0);
            break;
        case What::breath:
            build.breath = positive(build.breath + amount);
            break;
        case What::hole_size:
            for (FingerHole& each : flute.holes)
                widen(each, each.diameter_m * positive(1.0 + amount));
            break;
        case What::each_note:
            break;
    }
}

double nudge_of(const Cause& cause) {
    constexpr double kLength_m = 2e-8;
    constexpr double kShare = 1e-6;
    constexpr double kTemperature_C = 1e-4;
    switch (cause.what) {
        case What::temperature:
            return kTemperature_C;
        case What::voice:
        case What::breath_share:
        case What::breath:
        case What::hole_size:
            return kShare;
        default:
            return kLength_m;
    }
}

bool is_flute(const Flute& flute) {
    const auto good = [](double value) { return value > 0.0; };  // NaN fails
    if (!good(flute.wall_m) || !good(flute.sound_hole.length_m) ||
        !good(flute.sound_hole.width_m) || !good(flute.sound_hole.wall_m))
        return false;
    for (const BoreStation& station : flute.bore)
        if (!good(station.diameter_m) || !good(station.across_m)) return false;
    if (!(flute.sound_hole.width_m < bore_diameter_m(flute, 0.5 * flute.sound_hole.length_m)))
        return false;
    double last_m = flute.sound_hole.length_m;
    for (const FingerHole& hole : flute.holes) {
        const double bore_m = bore_diameter_m(flute, hole.at_m);
        if (!good(hole.wall_m) || !(hole.at_m > last_m) || !good(hole.diameter_m) ||
            !(hole.diameter_m < kWidestHole * bore_m) || !(hole.inner_diameter_m < bore_m))
            return false;
        last_m = hole.at_m;
    }
    return flute.foot_m > last_m;
}

}  // namespace canewright

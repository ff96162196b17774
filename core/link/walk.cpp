// core/link/walk.cpp -- the document from its name to its log, one bit for what is absent.
//
// Frozen: this order and these widths are version 1. A key that comes later goes behind it, with a
// tag of its own (link_rest.hpp), or makes version 2.
#include "core/link/walk.hpp"

#include <algorithm>

#include "core/base/units.hpp"
#include "core/document/asked.hpp"
#include "core/document/json_text.hpp"
#include "core/document/limits.hpp"
#include "core/document/write.hpp"

namespace canewright {

namespace {

constexpr const char* kUnits[] = {"mm", "inch"};
constexpr const char* kDatums[] = {"centre", "upstream edge", "splitting edge"};
constexpr const char* kMaterials[] = {"bamboo", "river cane", "reed grass", "wood", "plastic pipe"};
constexpr int kFractions[] = {16, 32, 64};

void walk_show(LinkStream& stream, ShowEntry& show) {
    if (stream.present(show.unit)) walk_word(stream, *show.unit, {kUnits, 2, 2}, 0);
    if (stream.present(show.fraction)) {
        const auto* at = std::find(std::begin(kFractions), std::end(kFractions), *show.fraction);
        const auto which = stream.bits(static_cast<std::uint64_t>(at - kFractions), 2);
        if (which >= std::size(kFractions)) return stream.spoil();
        show.fraction = kFractions[which];
    }
    if (stream.present(show.datum)) walk_word(stream, *show.datum, {kDatums, 3, 2}, 0);
    stream.in_inches = show.unit == "inch";
}

void walk_air(LinkStream& stream, AirEntry& air) {
    stream.number(air.room_C, grid::kRoom_C);
    walk_percent(stream, air.humidity_fraction);
    if (stream.present(air.pressure_Pa)) {  // in kilopascals, as it is typed
        double pressure_kPa = kPa_from_Pa(*air.pressure_Pa);
        stream.number(pressure_kPa, grid::kPressure_kPa);
        air.pressure_Pa = Pa_from_kPa(pressure_kPa);
    }
    if (!any_of_them(stream, air.sound_speed_m_s, air.density_kg_m3, air.lossless)) return;
    stream.number(air.sound_speed_m_s, grid::kSpeed_m_s);
    stream.number(air.density_kg_m3, grid::kDensity_kg_m3);
    if (stream.present(air.lossless)) air.lossless = stream.flag(*air.lossless);
}

void walk_ridge(LinkStream& stream, Ridge& ridge) {
    stream.length(ridge.at_m, grid::kStation_mm);
    stream.length(ridge.opening_m, grid::kAcross_mm);
    const auto usual_m = Ridge{}.thickness_m;
    const auto place_m = [&](double length_m) {
        return stream.placed_m(length_m, grid::kSlight_mm);
    };
    if (stream.flag(place_m(ridge.thickness_m) != place_m(usual_m))) {
        stream.length(ridge.thickness_m, grid::kSlight_mm);
    } else {
        ridge.thickness_m = usual_m;
    }
}

void walk_tube(LinkStream& stream, TubeEntry& tube) {
    walk_list(stream, tube.bore, limit::kStations, 2, [&](BoreEntry& station) {
        stream.length(station.at_m, grid::kStation_mm);
        stream.length(station.diameter_m, grid::kAcross_mm);
        stream.length(station.across_m, grid::kAcross_mm);
    });
    stream.length(tube.wall_m, grid::kAcross_mm);
    stream.length(tube.outer_m, grid::kAcross_mm);
    stream.length(tube.end_m, grid::kAlong_mm);
    stream.length(tube.above_m, grid::kAlong_mm);
    if (stream.present(tube.material)) {
        walk_word(stream, *tube.material, {kMaterials, 5, 3}, limit::kWord_bytes);
    }
    if (stream.present(tube.ridge)) walk_ridge(stream, *tube.ridge);
}

void walk_foot_plug(LinkStream& stream, FootPlugEntry& plug) {
    stream.length(plug.opening_m, grid::kAcross_mm);
    stream.length(plug.thickness_m, grid::kAcross_mm);
}

void walk_hole(LinkStream& stream, HoleEntry& hole) {
    stream.length(hole.at_m, grid::kAlong_mm);
    stream.length(hole.diameter_m, grid::kAcross_mm);
    const bool fixed = hole.at_fixed || hole.diameter_fixed;
    if (!stream.flag(hole.inner_diameter_m || hole.wall_m || hole.aspect || fixed)) return;
    stream.length(hole.inner_diameter_m, grid::kAcross_mm);
    stream.length(hole.wall_m, grid::kAcross_mm);
    stream.number(hole.aspect, grid::kAspect);
    hole.at_fixed = stream.flag(hole.at_fixed);
    hole.diameter_fixed = stream.flag(hole.diameter_fixed);
}

// One of two.
template <class Choice>
void walk_choice(LinkStream& stream, std::optional<Choice>& choice, Choice first, Choice second) {
    if (stream.present(choice)) choice = stream.flag(*choice == second) ? second : first;
}

void walk_rare(LinkStream& stream, Document& document) {
    const bool texts = !document.pattern.empty() || !document.x.empty();
    if (!stream.flag(texts || document.track || document.chamber || document.foot_plug ||
                     document.fingers || document.sounds_as)) {
        return;
    }
    if (stream.present(document.track)) {
        stream.length(document.track->depth_m, grid::kSlight_mm);
        stream.length(document.track->width_m, grid::kAcross_mm);
        stream.length(document.track->length_m, grid::kAcross_mm);
        stream.length(document.track->block_gap_m, grid::kSlight_mm);
    }
    if (stream.present(document.chamber)) {
        stream.length(document.chamber->length_m, grid::kAlong_mm);
        stream.length(document.chamber->air_hole_m, grid::kAcross_mm);
    }
    if (stream.present(document.foot_plug)) walk_foot_plug(stream, *document.foot_plug);
    walk_choice(stream, document.fingers, Fingers::soft, Fingers::flat);
    walk_choice(stream, document.sounds_as, SoundsAs::standing, SoundsAs::planned);
    walk_json(stream, document.pattern);
    walk_json(stream, document.x);
}

void walk_plan(LinkStream& stream, Document& document) {
    const auto most = static_cast<int>(limit::kHoles);
    if (stream.present(document.finger_holes)) {
        walk_list(stream, *document.finger_holes, limit::kHoles, 3,
                  [&](HoleEntry& hole) { walk_hole(stream, hole); });
        stream.holes = std::clamp(static_cast<int>(document.finger_holes->size()), 1, most);
    }
    if (stream.present(document.song)) walk_song(stream, *document.song);
    stream.holes = std::clamp(planned_holes(document).value_or(most), 1, most);
    if (stream.present(document.notes)) {
        walk_list(stream, *document.notes, limit::kNotes, 3, [&](NoteEntry& note) {
            stream.open(note.open);
            stream.number(note.target_Hz, grid::kPitch_Hz);
        });
    }
}

}  // namespace

// JSON that nobody here reads, on one line. Numbers as write_document() writes them, so that it is
// the same text when it comes back.
void walk_json(LinkStream& stream, std::string& json) {
    if (!stream.flag(!json.empty())) return json.clear();
    const auto plain = [](const std::string& text) {
        const ParsedJson parsed = parse_json(text);
        return parsed.violations.empty() ? json_text(parsed.tree) : std::string();
    };
    if (stream.writing()) json = plain(json);
    stream.text(json, limit::kDocument_bytes, 8);
    if (stream.good() && (json.empty() || plain(json) != json)) stream.spoil();
}

void walk_word(LinkStream& stream, std::string& word, Names names, std::size_t most_bytes) {
    const auto* const end = names.list + names.count;
    const auto* const at = std::find(names.list, end, word);
    const auto which = stream.bits(static_cast<std::uint64_t>(at - names.list), names.bits);
    if (which < static_cast<std::uint64_t>(names.count)) {
        word = names.list[which];
    } else if (which == static_cast<std::uint64_t>(names.count)) {
        stream.text(word, most_bytes, 4);
    } else {
        stream.spoil();
    }
}

void walk_percent(LinkStream& stream, std::optional<double>& fraction) {
    if (!stream.present(fraction)) return;
    double percent = percent_from_ratio(*fraction);
    stream.number(percent, grid::kShare_percent);
    fraction = ratio_from_percent(percent);
}

void walk(LinkStream& stream, Document& document) {
    stream.is_fine = stream.flag(stream.is_fine);
    if (stream.present(document.name)) stream.text(*document.name, limit::kName_bytes, 5);
    if (stream.present(document.show)) walk_show(stream, *document.show);
    if (stream.present(document.air)) walk_air(stream, *document.air);
    if (stream.present(document.tube)) walk_tube(stream, *document.tube);
    if (stream.present(document.plug)) {
        stream.length(document.plug->offset_m, grid::kSlight_mm);
        stream.length(document.plug->thickness_m, grid::kAcross_mm);
    }
    if (stream.present(document.sound_hole)) {
        stream.length(document.sound_hole->length_m, grid::kAcross_mm);
        stream.length(document.sound_hole->width_m, grid::kAcross_mm);
        stream.length(document.sound_hole->wall_m, grid::kAcross_mm);
    }
    stream.length(document.foot_m, grid::kAlong_mm);
    walk_plan(stream, document);
    if (stream.present(document.shop)) walk_shop(stream, *document.shop);
    walk_rare(stream, document);
    if (stream.present(document.log)) walk_log(stream, *document.log);
}

}  // namespace canewright

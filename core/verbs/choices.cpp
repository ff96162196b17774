// core/verbs/choices.cpp -- what there is to choose from, default fingerings, violations.
#include <cmath>

#include "core/base/units.hpp"
#include "core/document/asked.hpp"
#include "core/document/typed.hpp"
#include "core/document/write.hpp"
#include "core/layout/causes.hpp"
#include "core/music/fingering.hpp"
#include "core/task/task.hpp"
#include "core/verbs/answer.hpp"

namespace canewright {

namespace {

Json number_or_null(double value) {
    return std::isfinite(value) ? Json(typed(value)) : Json(nullptr);
}

// A document in which every key that has a default is written out with it.
Document defaults() {
    const AirState room;
    Document document;
    document.show = ShowEntry{"mm", 32, "centre"};
    document.air =
        AirEntry{room.temperature_C, room.humidity_fraction, room.pressure_Pa, {}, {}, {}};
    document.plug = PlugEntry{0.0, {}};
    document.fingers = Fingers::soft;
    SongEntry song;
    song.a4_Hz = kDefaultA4_Hz;
    song.tolerance_cents = kDefaultTolerance_cents;
    song.breath = 1.0;
    document.song = song;
    const ShopErrors errors;
    ShopEntry shop;
    shop.ruler_error_m = errors.ruler_m;
    shop.bit_error_m = errors.bit_m;
    shop.bore_error_m = errors.bore_m;
    shop.wall_error_m = errors.wall_m;
    shop.sound_hole_error_m = errors.sound_hole_m;
    shop.temperature_error_C = errors.temperature_C;
    document.shop = shop;
    return document;
}

}  // namespace

Json choices_answer() {
    Json json = Json::object();
    json["scales"] = Json::array();
    for (const Scale& scale : named_scales()) {
        Json entry = Json::object();
        entry["name"] = scale.name;
        entry["cents"] = scale.step_cents;
        json["scales"].push_back(std::move(entry));
    }
    json["holes"] = {4, 5, 6};
    json["units"] = {"mm", "inch"};
    json["fractions"] = {16, 32, 64};
    json["datums"] = {"centre", "upstream edge", "splitting edge"};
    json["fingers"] = {"soft", "flat"};
    // Suggestions; any other word is as good, the sound does not depend on it.
    json["materials"] = {"bamboo", "river cane", "reed grass", "wood", "plastic pipe"};
    json["defaults"] = document_json(defaults());
    return json;
}

Answer fingerings_answer(const Document& document) {
    const SongEntry& song = *document.song;
    const ResolvedFingerings resolved =
        resolve_fingerings(*asked_scale(document), *asked_holes(document));
    if (!resolved.violations.empty()) return {Json(), resolved.violations};
    Document by_default = document;
    by_default.song->fingerings.reset();
    Json json = Json::object();
    json["fingerings"] = Json::array();
    for (const NoteTarget& note : song_notes(by_default)) {
        Json entry = Json::object();
        entry["cents"] = note.interval_cents;
        entry["open"] = note.open;
        entry["name"] = name_json(note.target_Hz, song.a4_Hz.value_or(kDefaultA4_Hz));
        json["fingerings"].push_back(std::move(entry));
    }
    return {std::move(json), {}};
}

Json violations_json(const std::vector<Violation>& violations) {
    Json json = Json::array();
    for (const Violation& each : violations) {
        Json entry = Json::object();
        entry["code"] = name(each.code);
        entry["path"] = each.path;
        entry["value"] = each.given.empty() || std::isfinite(each.value)
                             ? number_or_null(each.value)
                             : Json(each.given);
        entry["limit"] = number_or_null(each.limit);
        json.push_back(std::move(entry));
    }
    return json;
}

}  // namespace canewright

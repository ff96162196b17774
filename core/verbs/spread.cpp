// core/verbs/spread.cpp -- the document made into what spreads, and the linear answer.
#include "core/verbs/spread.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/document/typed.hpp"
#include "core/layout/bore_ways.hpp"
#include "core/layout/lift.hpp"
#include "core/task/task.hpp"
#include "core/task/voice.hpp"
#include "core/verbs/spread_json.hpp"

namespace canewright {

namespace {

ShopErrors shop_errors(const Document& document) {
    const ShopEntry given = document.shop.value_or(ShopEntry{});
    ShopErrors errors;
    errors.ruler_m = given.ruler_error_m.value_or(errors.ruler_m);
    errors.bit_m = given.bit_error_m.value_or(errors.bit_m);
    errors.bore_m = given.bore_error_m.value_or(errors.bore_m);
    errors.wall_m = given.wall_error_m.value_or(errors.wall_m);
    errors.sound_hole_m = given.sound_hole_error_m.value_or(errors.sound_hole_m);
    errors.temperature_C = given.temperature_error_C.value_or(errors.temperature_C);
    return errors;
}

// Which field of the document a cause is about; empty for what is the model's own.
std::string path_of(const Cause& cause, const Document& document) {
    const std::string hole = "finger_holes[" + std::to_string(cause.index) + "]";
    switch (cause.what) {
        case What::place:
            return hole + ".at_mm";
        case What::foot:
            return "foot_mm";
        case What::diameter:
            return hole + ".diameter_mm";
        case What::wall:
            return document.tube->wall_m ? "tube.wall_mm" : "tube.outer_mm";
        case What::bore:
        case What::taper:
            return "tube.bore";
        case What::sound_hole_length:
            return "sound_hole.length_mm";
        case What::sound_hole_width:
            return "sound_hole.width_mm";
        case What::temperature:
            return document.song && document.song->play_C ? "song.play_c" : "air.room_c";
        case What::voice:
        case What::breath_share:
        case What::breath:
        case What::hole_size:
        case What::each_note:
            break;
    }
    return {};
}

Json ranked_json(const Document& document, const Spread& s) {
    Json json = Json::array();
    for (const RankedCause& each : s.ranked) {
        Json entry = Json::object();
        entry["cause"] = name(each.cause.what);
        entry["of"] = is_shops(group_of(each.cause.what)) ? "shop" : "model";
        entry["path"] = path_of(each.cause, document);
        if (each.cause.what == What::place || each.cause.what == What::diameter)
            entry["hole"] = each.cause.index + 1;
        if (each.cause.what == What::each_note)
            entry["open"] = s.notes[static_cast<std::size_t>(each.cause.index)].open;
        entry["share"] = each.share;
        entry["cents"] = each.cents;
        json.push_back(std::move(entry));
    }
    return json;
}

Json worth_repeating_json(const Json& ranked) {
    for (const Json& each : ranked)
        if (each["of"] == "shop") return each;
    return nullptr;
}

Json note_json(const SpreadTask& task, const NoteSpread& note, std::size_t k, double a4_Hz) {
    Json json = Json::object();
    json["open"] = note.open;
    if (task.target_Hz[k] > 0.0) json["target_hz"] = task.target_Hz[k];
    if (!note.speaks) {
        json["hz"] = nullptr;
        json["sigma_cents"] = nullptr;
        return json;
    }
    const double sounding_Hz = shifted_Hz(note.nominal_Hz, note.breath_cents);
    json["hz"] = sounding_Hz;
    json["name"] = name_json(sounding_Hz, a4_Hz);
    if (task.target_Hz[k] > 0.0) json["off_cents"] = cents_off(sounding_Hz, task.target_Hz[k]);
    json["sigma_cents"] = note.sigma_cents;
    json["shop_cents"] = note.shop_cents;
    json["model_cents"] = note.model_cents;
    json["parts"] = Json::object();
    for (int g = 0; g < kGroups; ++g)
        json["parts"][name(static_cast<Group>(g))] = note.part_cents[static_cast<std::size_t>(g)];
    json["quality"] = note.quality;
    return json;
}

double mean(const std::vector<double>& values) {
    double sum = 0.0, count = 0.0;
    for (const double value : values) {
        if (!std::isfinite(value)) continue;
        sum += value;
        count += 1.0;
    }
    return sum / count;
}

// Each note's own shift goes with the note; here is the flute's.
Json climate_json(const SpreadTask& task, Json& notes) {
    if (!task.plan.room) return nullptr;
    const Climate c = climate(task);
    for (std::size_t k = 0; k < task.open.size(); ++k)
        if (std::isfinite(c.ten_to_30[k])) notes[k]["cents_10_to_30_c"] = c.ten_to_30[k];
    Json json = Json::object();
    json["cents_10_to_30_c"] = number_json(mean(c.ten_to_30));  // null where no note speaks
    json["per_c"] = number_json(mean(c.per_C));
    return json;
}

Json bore_ways_json(const Document& document, const SpreadTask& task) {
    BoreTools tools;
    tools.wall_m = task.shop.wall_m;
    const Flute& flute = task.plan.flute;
    const double length_m = document.tube->end_m.value_or(flute.foot_m) + flute.plug_offset_m;
    const auto ways = bore_ways(bore_diameter_m(flute, 0.5 * length_m), length_m,
                                slopes_cents(task, {What::bore, -1, 1.0}), tools);
    Json json = Json::array();
    for (const BoreWayWorth& each : ways) {
        Json entry = Json::object();
        entry["way"] = name(each.way);
        entry["sigma_mm"] = typed_mm(each.sigma_m);
        entry["cents"] = each.cents;
        if (std::isfinite(each.step_cents)) entry["step_cents"] = each.step_cents;
        entry["best"] = json.empty();
        json.push_back(std::move(entry));
    }
    return json;
}

Json errors_json(const ShopErrors& shop, const ModelErrors& model) {
    Json json = Json::object();
    json["ruler_mm"] = typed_mm(shop.ruler_m);
    json["bit_mm"] = typed_mm(shop.bit_m);
    json["bore_mm"] = typed_mm(shop.bore_m);
    json["wall_mm"] = typed_mm(shop.wall_m);
    json["sound_hole_mm"] = typed_mm(shop.sound_hole_m);
    json["temperature_c"] = shop.temperature_C;
    json["voice_percent"] = typed_percent(model.voice);
    json["breath_share"] = model.breath_share;
    json["breath_percent"] = typed_percent(model.breath);
    json["hole_size_percent"] = typed_percent(model.hole_size);
    json["each_note_cents"] = model.each_note_cents;
    return json;
}

}  // namespace

SpreadTask spread_task(const Document& document) {
    Document plan = document;
    plan.sounds_as = SoundsAs::planned;
    const SoundTask sound = sound_task(plan);
    const double octave_cents = document.song ? document.song->lift_cents.value_or(0.0) : 0.0;
    SpreadTask task;
    task.plan.flute = sound.flute;
    task.plan.room = room_air(document);
    task.plan.air = bore_air(document);
    task.model.voice = voice_sigma(voice_said(document), sound.flute);
    for (std::size_t k = 0; k < sound.notes.size(); ++k) {
        task.open.push_back(sound.fingering[k]);
        task.target_Hz.push_back(sound.notes[k].target_Hz.value_or(0.0));
        task.lift_cents.push_back(lift_cents(octave_cents, sound.above_cents[k]));
    }
    if (document.song) task.breath = document.song->breath.value_or(task.breath);
    task.shop = shop_errors(document);
    return task;
}

Json shares_json(const Shares& shares) {
    Json json = Json::object();
    for (std::size_t i = 0; i < kWithin_cents.size(); ++i)
        json[std::to_string(std::lround(kWithin_cents[i]))] = shares[i];
    return json;
}

Json spread_answer(const Document& document) { return spread_of(document, spread_task(document)); }

Json spread_of(const Document& document, const SpreadTask& task) {
    const Spread s = spread(task);
    const double a4_Hz =
        document.song ? document.song->a4_Hz.value_or(kDefaultA4_Hz) : kDefaultA4_Hz;
    Json json = Json::object();
    if (const auto room = room_C(document)) json["at_c"] = *room;
    Json notes = Json::array();
    for (std::size_t k = 0; k < s.notes.size(); ++k)
        notes.push_back(note_json(task, s.notes[k], k, a4_Hz));
    Json moved = climate_json(task, notes);
    json["notes"] = std::move(notes);
    json["within"] = shares_json(s.within);
    json["within_shop"] = shares_json(s.within_shop);
    json["ranked"] = ranked_json(document, s);
    json["worth_repeating"] = worth_repeating_json(json["ranked"]);
    json["climate"] = std::move(moved);
    json["bore_ways"] = bore_ways_json(document, task);
    json["errors"] = errors_json(task.shop, task.model);
    return json;
}

}  // namespace canewright

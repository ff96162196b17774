// core/document/write.cpp -- the top of the document, and its small parts.
#include "core/document/write.hpp"

#include <cmath>
#include <cstdint>

#include "core/document/write_parts.hpp"

namespace canewright {

namespace {

Json show_json(const ShowEntry& show) {
    Json json = Json::object();
    put(json, "unit", show.unit);
    put(json, "fraction", show.fraction);
    put(json, "datum", show.datum);
    return json;
}

Json air_json(const AirEntry& air) {
    Json json = Json::object();
    put(json, "room_c", air.room_C);
    if (air.humidity_fraction) json["humidity_percent"] = typed_percent(*air.humidity_fraction);
    if (air.pressure_Pa) json["pressure_kpa"] = typed_kPa(*air.pressure_Pa);
    put(json, "sound_speed_m_s", air.sound_speed_m_s);
    put(json, "density_kg_m3", air.density_kg_m3);
    put(json, "lossless", air.lossless);
    return json;
}

Json plug_json(const PlugEntry& plug) {
    Json json = Json::object();
    put_mm(json, "offset_mm", plug.offset_m);
    put_mm(json, "thickness_mm", plug.thickness_m);
    return json;
}

Json track_json(const TrackEntry& track) {
    Json json = Json::object();
    put_mm(json, "depth_mm", track.depth_m);
    put_mm(json, "width_mm", track.width_m);
    put_mm(json, "length_mm", track.length_m);
    put_mm(json, "block_gap_mm", track.block_gap_m);
    return json;
}

Json chamber_json(const ChamberEntry& chamber) {
    Json json = Json::object();
    put_mm(json, "length_mm", chamber.length_m);
    put_mm(json, "air_hole_mm", chamber.air_hole_m);
    return json;
}

Json foot_plug_json(const FootPlugEntry& plug) {
    Json json = Json::object();
    put_mm(json, "opening_mm", plug.opening_m);
    put_mm(json, "thickness_mm", plug.thickness_m);
    return json;
}

Json holes_json(const std::vector<HoleEntry>& holes) {
    Json json = Json::array();
    for (const HoleEntry& hole : holes) json.push_back(hole_json(hole));
    return json;
}

Json notes_json(const std::vector<NoteEntry>& notes) {
    Json json = Json::array();
    for (const NoteEntry& note : notes) {
        Json entry = Json::object();
        entry["open"] = note.open;
        put(entry, "target_hz", note.target_Hz);
        json.push_back(std::move(entry));
    }
    return json;
}

// Whole numbers as they are typed: 18, not 18.0. To a reader of JSON both are the same number.
void without_point_zero(Json& json) {
    constexpr double kMostWhole = 1e15;  // all whole numbers up to here are exact
    if (json.is_number_float()) {
        const double value = json.get<double>();
        if (std::abs(value) < kMostWhole && std::trunc(value) == value) {
            json = static_cast<std::int64_t>(value);
        }
    } else if (json.is_structured()) {
        for (auto& part : json) without_point_zero(part);
    }
}

// Text of ours, kept from a tree: it always parses.
Json kept(const std::string& text) { return json_of(text); }

}  // namespace

Json document_json(const Document& document) {
    Json json = Json::object();
    json["format"] = kFormat;
    put(json, "name", document.name);
    if (document.show) json["show"] = show_json(*document.show);
    if (document.air) json["air"] = air_json(*document.air);
    if (document.tube) json["tube"] = tube_json(*document.tube);
    if (document.plug) json["plug"] = plug_json(*document.plug);
    if (document.sound_hole) json["sound_hole"] = sound_hole_json(*document.sound_hole);
    if (document.block) json["block"] = block_json(*document.block);
    if (document.track) json["track"] = track_json(*document.track);
    if (document.chamber) json["chamber"] = chamber_json(*document.chamber);
    put_mm(json, "foot_mm", document.foot_m);
    if (document.foot_plug) json["foot_plug"] = foot_plug_json(*document.foot_plug);
    if (document.fingers) json["fingers"] = *document.fingers == Fingers::flat ? "flat" : "soft";
    if (document.finger_holes) json["finger_holes"] = holes_json(*document.finger_holes);
    if (document.notes) json["notes"] = notes_json(*document.notes);
    if (document.song) json["song"] = song_json(*document.song);
    if (document.shop) json["shop"] = shop_json(*document.shop);
    if (!document.pattern.empty()) json["pattern"] = kept(document.pattern);
    if (document.log) json["log"] = log_json(*document.log);
    if (document.sounds_as) {
        json["sounds_as"] = *document.sounds_as == SoundsAs::planned ? "planned" : "standing";
    }
    if (!document.x.empty()) json["x"] = kept(document.x);
    if (!document.link_rest.empty()) json["link_rest"] = document.link_rest;
    return json;
}

std::string json_text(const Json& json) {
    Json plain = json;
    without_point_zero(plain);
    return plain.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string write_document(const Document& document) { return json_text(document_json(document)); }

}  // namespace canewright

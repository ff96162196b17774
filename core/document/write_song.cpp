// core/document/write_song.cpp -- the keys `song` and `shop`.
#include "core/document/write_parts.hpp"

namespace canewright {

namespace {

Json lowest_json(const LowestEntry& lowest) {
    if (lowest.is_free) return "free";
    if (lowest.note) return *lowest.note;
    Json json = Json::object();
    put(json, "hz", lowest.frequency_Hz);
    return json;
}

Json scale_json(const ScaleEntry& scale) {
    if (scale.name) return *scale.name;
    Json json = Json::object();
    json["cents"] = scale.step_cents;
    return json;
}

Json span_json(const SpanEntry& span) {
    Json json = Json::object();
    put_mm(json, "min", span.min_m);
    put_mm(json, "max", span.max_m);
    return json;
}

}  // namespace

Json song_json(const SongEntry& song) {
    Json json = Json::object();
    if (song.lowest) json["lowest"] = lowest_json(*song.lowest);
    if (song.scale) json["scale"] = scale_json(*song.scale);
    put(json, "holes", song.holes);
    put(json, "a4_hz", song.a4_Hz);
    put(json, "tolerance_cents", song.tolerance_cents);
    put(json, "good_enough_cents", song.good_enough_cents);
    put(json, "octaves_weight", song.octaves_weight);
    put(json, "play_c", song.play_C);
    put(json, "breath", song.breath);
    put(json, "lift_cents", song.lift_cents);
    put(json, "fingerings", song.fingerings);
    return json;
}

Json shop_json(const ShopEntry& shop) {
    Json json = Json::object();
    if (shop.bits) {
        json["bits"] = Json::array();
        for (const BitEntry& bit : *shop.bits) {
            Json entry = Json::object();
            put_mm(entry, "mm", bit.diameter_m);
            put(entry, "label", bit.label);
            json["bits"].push_back(std::move(entry));
        }
    }
    if (shop.diameter) json["diameter_mm"] = span_json(*shop.diameter);
    if (shop.spacing) json["spacing_mm"] = span_json(*shop.spacing);
    put(json, "hands", shop.hands);
    put_mm(json, "ruler_mm", shop.ruler_error_m);
    put_mm(json, "bit_mm", shop.bit_error_m);
    put_mm(json, "bore_mm", shop.bore_error_m);
    put_mm(json, "wall_mm", shop.wall_error_m);
    put_mm(json, "sound_hole_mm", shop.sound_hole_error_m);
    put(json, "temperature_c", shop.temperature_error_C);
    if (shop.risk_fraction) json["risk_percent"] = typed_percent(*shop.risk_fraction);
    return json;
}

}  // namespace canewright

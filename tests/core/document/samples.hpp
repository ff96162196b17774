// tests/core/document/samples.hpp -- documents for the tests, and ways to spoil them.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "core/document/json_text.hpp"
#include "core/document/read.hpp"

namespace canewright::samples {

// Every key of the format at least once, nothing wrong.
inline const char* kFull = R"json({
  "format": "canewright/1", "name": "all keys",
  "show": {"unit": "inch", "fraction": 64, "datum": "splitting edge"},
  "air": {"room_c": 18, "humidity_percent": 55, "pressure_kpa": 99.7},
  "tube": {
    "material": "reed grass",
    "bore": [{"at_mm": 0, "diameter_mm": 18.4, "across_mm": 18.1}, {"at_mm": 410, "diameter_mm": 17.9}],
    "wall_mm": 3.1, "end_mm": 430, "above_mm": 160, "ridge": {"at_mm": 120, "opening_mm": 15.5}
  },
  "plug": {"offset_mm": 0.5, "thickness_mm": 9},
  "sound_hole": {"length_mm": 5.3, "width_mm": 9.5, "wall_mm": 2.7, "ramp_mm": 6.5, "edge_mm": 0.8},
  "block": {
    "height_mm": 9, "width_mm": 14.5, "front_mm": -0.5,
    "side_walls": {"height_mm": 2.5, "thickness_mm": 3, "length_mm": 5}
  },
  "track": {"depth_mm": 0.9, "width_mm": 9.5, "length_mm": 20, "block_gap_mm": 0.2},
  "chamber": {"length_mm": 110, "air_hole_mm": 10},
  "foot_mm": 396.7,
  "foot_plug": {"opening_mm": 14, "thickness_mm": 4},
  "fingers": "flat",
  "finger_holes": [
    {"at_mm": 187.5, "diameter_mm": 7.5, "inner_diameter_mm": 8.1, "wall_mm": 2.9},
    {"at_mm": 214.5, "diameter_mm": 8, "fixed": "at"},
    {"at_mm": 242.5, "diameter_mm": 8.5, "fixed": "diameter"},
    {"at_mm": 277.5, "diameter_mm": 7, "fixed": ["at", "diameter"]},
    {"at_mm": 307.5, "diameter_mm": 9}
  ],
  "notes": [{"open": [], "target_hz": 392.1}, {"open": [5]}, {"open": [3, 4, 5]}],
  "song": {
    "lowest": "G4", "scale": {"cents": [0, 300, 500]}, "holes": 5, "a4_hz": 441.3,
    "tolerance_cents": 8, "play_c": 21, "fingerings": [[], [5], [5, 4]]
  },
  "shop": {
    "bits": [{"mm": 4.1}, {"mm": 7.14375, "label": "9/32 in"}],
    "diameter_mm": {"min": 3.1, "max": 9.3}, "spacing_mm": {"min": 18, "max": 36.3},
    "hands": [2, 3], "ruler_mm": 0.3, "bit_mm": 0.1, "bore_mm": 0.15, "wall_mm": 0.2,
    "temperature_c": 2
  },
  "pattern": {"means": [1.5, 0.1], "of": "what it will be"},
  "log": [
    {"bore": "sealed", "room_c": 17.5, "at": "2026-11-25T14:30", "note": "two coats"},
    {"block": "moved", "at": 1764080000},
    {"foot": {"at_mm": 410.3, "error_mm": 0.3}},
    {"hole": {"number": 5, "at_mm": 307.1, "diameter_mm": 6}, "error_mm": 0.2},
    {"hole": {"number": 4, "at_mm": 277.2}},
    {"undercut": {"number": 5}},
    {"narrow": {"number": 4, "diameter_mm": 6.1}},
    {"sound_hole": {"length_mm": 5.6, "width_mm": 9.7}},
    {"foot_plug": {"opening_mm": 13.7}},
    {"read": {"open": [4, 5], "hz": 512.3, "sigma_cents": 4}, "room_c": 18},
    {"breath": {"open": [4, 5], "pa": 1320, "what": "jumps up"}, "note": "slowly"},
    {"breath": {"open": [], "water_mm": 48.5, "what": "falls back"}}
  ],
  "sounds_as": "planned",
  "x": {"anything": [1, null, {"goes": true}]},
  "link_rest": "AQNhYmPIAA"
})json";

inline Json full() { return Json::parse(kFull); }

inline ReadDocument read(const Json& json) { return read_document(json.dump()); }

// The document with one value replaced; `pointer` as in "/tube/wall_mm" (JSON pointer, RFC 6901).
inline Json with(Json json, const std::string& pointer, Json value) {
    json[Json::json_pointer(pointer)] = std::move(value);
    return json;
}

inline Json without(Json json, const std::string& pointer) {
    const Json::json_pointer at(pointer);
    json[at.parent_pointer()].erase(at.back());
    return json;
}

// All violations as "code path", for comparison as a whole.
inline std::vector<std::string> said(const std::vector<Violation>& violations) {
    std::vector<std::string> all;
    for (const Violation& each : violations) {
        all.push_back(std::string(name(each.code)) + " " + each.path);
    }
    return all;
}

inline std::vector<std::string> said(const Json& json) { return said(read(json).violations); }

using Said = std::vector<std::string>;

}  // namespace canewright::samples

// tests/core/verbs/voice_flutes.hpp -- two flutes whose voices are asked about.
#pragma once

#include <catch2/catch.hpp>
#include <fstream>
#include <map>
#include <sstream>
#include <string>

#include "core/api.hpp"
#include "tests/core/document/samples.hpp"

namespace canewright::testing {

inline Json asked(const std::string& verb, const Json& document) {
    const Json json = Json::parse(run_workshop(verb, document.dump()));
    CAPTURE(json.dump());
    REQUIRE(json.contains("answer"));
    return json["answer"];
}

// By value: a range-for over a part of a temporary would walk what is gone.
inline Json part_of(const Json& json, const char* key) { return json.at(key); }

// One of tests/data/documents.
inline Json document_file(const std::string& name) {
    std::ifstream in(std::string(CANEWRIGHT_TEST_DATA) + "/documents/" + name + ".json");
    REQUIRE(in);
    std::stringstream text;
    text << in.rdbuf();
    return Json::parse(text.str());
}

// Every part measured, the track deep for so small a flute: rough.
inline Json small_flute() {
    return Json::parse(R"json({
      "format": "canewright/1",
      "tube": {"bore": [{"at_mm": 0, "diameter_mm": 9}], "wall_mm": 1.5, "end_mm": 240,
               "above_mm": 90},
      "plug": {"offset_mm": 0, "thickness_mm": 6},
      "sound_hole": {"length_mm": 4, "width_mm": 5, "wall_mm": 1.3, "ramp_mm": 8, "edge_mm": 0.3},
      "block": {"height_mm": 5, "width_mm": 11, "front_mm": 0,
                "side_walls": {"height_mm": 1.5, "thickness_mm": 2, "length_mm": 4}},
      "track": {"depth_mm": 0.5, "width_mm": 5, "length_mm": 10, "block_gap_mm": 0},
      "chamber": {"length_mm": 70, "air_hole_mm": 4.5},
      "foot_mm": 225,
      "finger_holes": [{"at_mm": 105, "diameter_mm": 3.6}, {"at_mm": 120, "diameter_mm": 3.6},
                       {"at_mm": 140, "diameter_mm": 4}, {"at_mm": 165, "diameter_mm": 4}],
      "notes": [{"open": []}, {"open": [4]}, {"open": [3, 4]}, {"open": [2, 3, 4]}]
    })json");
}

// Nothing known of the block; with its track the voice is good.
inline Json large_flute() {
    return Json::parse(R"json({
      "format": "canewright/1",
      "tube": {"bore": [{"at_mm": 0, "diameter_mm": 19}], "wall_mm": 3, "end_mm": 430,
               "above_mm": 160},
      "sound_hole": {"length_mm": 5, "width_mm": 10},
      "track": {"depth_mm": 1, "width_mm": 10, "length_mm": 20},
      "foot_mm": 385,
      "finger_holes": [{"at_mm": 200, "diameter_mm": 7}, {"at_mm": 230, "diameter_mm": 7.5},
                       {"at_mm": 265, "diameter_mm": 8}, {"at_mm": 300, "diameter_mm": 8}],
      "notes": [{"open": []}, {"open": [4]}, {"open": [3, 4]}]
    })json");
}

// What is proposed, by its path.
inline std::map<std::string, Json> proposed(const Json& flute) {
    std::map<std::string, Json> all;
    for (const Json& each : part_of(asked("voice", flute), "proposed")) all[each["path"]] = each;
    return all;
}

// Nothing but a tube and a sound hole.
inline Json blank_tube(double bore_mm, double wall_mm, double above_mm) {
    Json json = Json::parse(R"json({"format": "canewright/1"})json");
    json["tube"] = {{"bore", {{{"at_mm", 0}, {"diameter_mm", bore_mm}}}},
                    {"wall_mm", wall_mm},
                    {"end_mm", 20.0 * bore_mm},
                    {"above_mm", above_mm}};
    json["sound_hole"] = {{"length_mm", 0.3 * bore_mm}, {"width_mm", 0.55 * bore_mm}};
    return json;
}

// The entry of `advice` with a code; none: null.
inline const Json* advised(const Json& answer, const char* code) {
    for (const Json& each : answer["advice"])
        if (each["code"] == code) return &each;
    return nullptr;
}

}  // namespace canewright::testing

// tests/support/answers.hpp: what a verb answers to a document, and how two layouts differ.
#pragma once

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <string>

#include "core/api.hpp"

namespace canewright::testing {

using Json = nlohmann::ordered_json;

inline constexpr double kContinuous_mm = 2.0;  // for a tenth of a millimetre
inline constexpr double kSame_mm = 0.01;
inline constexpr double kAgree_cents = 0.1;

// A document that was once answered wrongly: tests/data/repro.
inline Json stored(const std::string& name) {
    std::ifstream in(std::string(CANEWRIGHT_TEST_DATA) + "/repro/" + name + ".json");
    return Json::parse(std::string{std::istreambuf_iterator<char>(in), {}});
}

inline Json answer_to(const std::string& verb, const Json& document) {
    const Json json = Json::parse(canewright::run_workshop(verb, document.dump()));
    CAPTURE(verb, json.dump());
    REQUIRE(json.contains("answer"));
    return json["answer"];
}

// The farthest that foot, a hole's place or its size moves from one layout to the other.
inline double furthest_mm(const Json& one, const Json& other) {
    double furthest = std::abs(one["foot_mm"].get<double>() - other["foot_mm"].get<double>());
    REQUIRE(one["finger_holes"].size() == other["finger_holes"].size());
    for (std::size_t i = 0; i < one["finger_holes"].size(); ++i)
        for (const char* key : {"at_mm", "diameter_mm"})
            furthest = std::max(furthest, std::abs(one["finger_holes"][i][key].get<double>() -
                                                   other["finger_holes"][i][key].get<double>()));
    return furthest;
}

inline void check_sound_agrees(const Json& laid_out) {
    const Json heard = answer_to("sound", laid_out)["notes"];
    for (std::size_t n = 0; n < heard.size(); ++n)
        CHECK(std::abs(1200.0 * std::log2(heard[n]["hz"].get<double>() /
                                          laid_out["notes"][n]["hz"].get<double>())) <
              kAgree_cents);
}

}  // namespace canewright::testing

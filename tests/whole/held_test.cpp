// tests/whole/held_test.cpp -- a hole that is drilled where it was marked moves no other mark.
//
// Found by drilling plans hole by hole, each exactly at its mark: of 2402 holes 178 moved another
// that was not drilled by more than 5 mm, by 30 mm at most. What was held had its own layout
// without limits, and the rest was kept near that instead of near the plan's.
#include "tests/support/answers.hpp"

using namespace canewright::testing;

namespace held_test {  // its own where tests are compiled together

Json flute(const char* song, double bore_mm, double end_mm, const char* shop) {
    Json document = Json::parse(R"json({"format": "canewright/1",
        "tube": {"bore": [{"at_mm": 0}], "wall_mm": 3},
        "sound_hole": {"length_mm": 6.1, "width_mm": 8.2}})json");
    document["tube"]["bore"][0]["diameter_mm"] = bore_mm;
    document["tube"]["end_mm"] = end_mm;
    document["song"] = Json::parse(song);
    document["shop"] = Json::parse(shop);
    return document;
}

// The plan, then foot and holes as it says, from the foot up; how far any mark moves at most.
double furthest_of_a_build_mm(const Json& asked, double share_of_size) {
    Json build = answer_to("layout", asked);
    const Json plan = build;
    build["log"] = Json::array();
    build["log"].push_back({{"foot", {{"at_mm", plan["foot_mm"]}}}});
    double most_mm = 0.0;
    for (std::size_t i = plan["finger_holes"].size(); i-- > 0;) {
        const Json& hole = plan["finger_holes"][i];
        build["log"].push_back(
            {{"hole",
              {{"number", i + 1},
               {"at_mm", hole["at_mm"]},
               {"diameter_mm", share_of_size * hole["diameter_mm"].get<double>()}}}});
        most_mm = std::max(most_mm, furthest_mm(plan, answer_to("layout", build)));
        CHECK(furthest_mm(answer_to("next", build), answer_to("layout", build)) < kSame_mm);
    }
    return most_mm;
}

const char* const kFive = R"({"lowest": "B4", "scale": "major pentatonic", "holes": 5})";
const char* const kSix = R"({"lowest": "free", "scale": "minor pentatonic", "holes": 6})";
const char* const kMinor =
    R"({"lowest": "Ab4", "scale": "natural minor", "holes": 6, "lift_cents": 5})";
const char* const kNear = R"({"spacing_mm": {"min": 18, "max": 32}, "hands": [2, 3]})";
const char* const kBits = R"({"spacing_mm": {"min": 18, "max": 32}, "hands": [2, 3],
    "bits": [{"mm": 3}, {"mm": 3.5}, {"mm": 4}, {"mm": 4.5}, {"mm": 5}, {"mm": 5.5}, {"mm": 6},
             {"mm": 6.5}, {"mm": 7}, {"mm": 7.5}, {"mm": 8}, {"mm": 8.5}, {"mm": 9}]})";

}  // namespace held_test

using namespace held_test;

TEST_CASE("what is drilled where it was marked moves no other mark", "[whole]") {
    // 15 mm before
    CHECK(furthest_of_a_build_mm(flute(kFive, 17.3, 357, kNear), 0.85) < 0.1);
    // a hole that no note depends on, between its neighbours
    CHECK(furthest_of_a_build_mm(flute(kSix, 18.3, 430, "{}"), 0.85) < 0.1);
}

// Two holes so near that our own distance keeps them apart, while neither is drilled and after.
TEST_CASE("a hole keeps the distance from a drilled one with which it was planned", "[whole]") {
    Json close = flute(kMinor, 20.7, 428, "{}");
    close["tube"]["wall_mm"] = 2.8;
    close["sound_hole"] = Json::parse(R"({"length_mm": 6.3, "width_mm": 13.2})");
    CHECK(furthest_of_a_build_mm(close, 1.0) < 0.1);  // 5 mm before
}

// Each of another bit: which one is nearest hung on what was drilled.
TEST_CASE("bits that were planned stay as long as nobody hears it", "[whole]") {
    CHECK(furthest_of_a_build_mm(flute(kFive, 17.3, 357, kBits), 1.0) < 0.5);  // 4.4 mm before
}

TEST_CASE("a hole fixed where it lies moves no other", "[whole]") {
    Json plan = answer_to("layout", flute(kFive, 17.3, 357, kNear));
    for (const std::size_t hole : {4U, 3U, 0U}) {
        Json fixed = plan;
        fixed["finger_holes"][hole]["fixed"] = "at";
        CHECK(furthest_mm(answer_to("layout", fixed), plan) < 0.1);  // 20 mm before
    }
}

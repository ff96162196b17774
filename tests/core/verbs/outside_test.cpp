// tests/core/verbs/outside_test.cpp -- elements beyond their stated validity are listed, with path,
// value and limit; notes of crowded holes have a wider band; what cannot be so is said.
#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "core/api.hpp"
#include "core/document/json_text.hpp"

using namespace canewright;
using Catch::WithinAbs;

namespace {

// A plain tube within every range.
Json plain() {
    return Json::parse(
        R"json({"format":"canewright/1","tube":{"bore":[{"at_mm":0,"diameter_mm":16}],
      "wall_mm":2.5,"end_mm":400,"above_mm":120},"sound_hole":{"length_mm":5,"width_mm":8},
      "song":{"lowest":"free","scale":"minor pentatonic","holes":5}})json");
}

Json asked(const char* verb, const Json& document) {
    return Json::parse(run_workshop(verb, document.dump())).at("answer");
}

// The element with this path, or null.
Json element(const Json& answer, const std::string& path) {
    const Json list = answer.at("outside");
    for (const Json& each : list)
        if (each.at("path") == path) return each;
    return nullptr;
}

bool warns(const Json& answer, const char* code) {
    const Json list = answer.at("cane").at("warnings");
    for (const Json& each : list)
        if (each == code) return true;
    return false;
}

Json two_holes(double apart_mm, double wide_mm) {
    Json document = plain();
    document["foot_mm"] = 380;
    document["finger_holes"] = Json::array();
    for (const double at_mm : {300.0, 300.0 + apart_mm})
        document["finger_holes"].push_back({{"at_mm", at_mm}, {"diameter_mm", wide_mm}});
    document["notes"] = Json::parse(R"json([{"open":[]},{"open":[2]},{"open":[1,2]}])json");
    document.erase("song");
    return document;
}

}  // namespace

TEST_CASE("nothing is outside on a plain tube, whatever is asked", "[outside]") {
    for (const char* verb : {"layout", "next", "voice"})
        CHECK(asked(verb, plain()).at("outside").empty());
    const Json laid = asked("layout", plain());
    for (const char* verb : {"sound", "spread"}) CHECK(asked(verb, laid).at("outside").empty());
}

// core/element/finger_hole: no neighbour nearer than its own width.
TEST_CASE("holes nearer than their own width are outside, with the wood that is left",
          "[outside]") {
    const Json near = element(asked("sound", two_holes(8.3, 6.3)), "finger_holes[0].at_mm");
    REQUIRE(near.is_object());
    CHECK_THAT(near.at("value").get<double>(), WithinAbs(2.0, 1e-9));  // 8.3 less 6.3
    CHECK_THAT(near.at("limit").get<double>(), WithinAbs(6.3, 1e-9));
    CHECK(element(asked("sound", two_holes(12.6, 6.3)), "finger_holes[0].at_mm").is_null());
    CHECK(element(asked("sound", two_holes(12.5, 6.3)), "finger_holes[0].at_mm").is_object());
}

TEST_CASE("notes of crowded holes have a wider band", "[outside]") {
    const auto band = [](double apart_mm) {
        return asked("spread", two_holes(apart_mm, 6.3))
            .at("notes")
            .at(2)
            .at("model_cents")
            .get<double>();
    };
    // What is left of the model there comes on top: finite elements, 3.3 cents at 8.3 and 6.3 mm.
    const double wide = band(8.3), narrow = band(13.0);
    CHECK(std::sqrt(wide * wide - narrow * narrow) > 3.0);
    CHECK(std::abs(band(13.0) - band(14.0)) < 0.5);
}

TEST_CASE("sizes beyond the ranges of their headers are outside", "[outside]") {
    Json document = plain();
    document["tube"]["bore"][0]["diameter_mm"] = 27;  // kBoreMax_m 25 mm
    document["sound_hole"] = {{"length_mm", 12}, {"width_mm", 15}};
    const Json wide = asked("layout", document);
    CHECK(element(wide, "tube.bore[0].diameter_mm").at("limit").get<double>() == 25.0);
    document = plain();
    document["tube"]["wall_mm"] = 6;  // 0.3 of 16 mm is 4.8
    CHECK_THAT(element(asked("layout", document), "tube.wall_mm").at("limit").get<double>(),
               WithinAbs(4.8, 1e-9));
    document = plain();
    document["sound_hole"]["length_mm"] = 14;  // 1.6 of the radius of 8 mm is 12.8
    CHECK_THAT(element(asked("layout", document), "sound_hole.length_mm").at("limit").get<double>(),
               WithinAbs(12.8, 1e-9));
}

TEST_CASE("a layout answer with what is outside can be asked about again", "[outside]") {
    Json document = plain();
    document["tube"]["wall_mm"] = 6;
    const Json laid = asked("layout", document);
    REQUIRE_FALSE(laid.at("outside").empty());
    CHECK(asked("sound", laid).at("notes").size() == laid.at("notes").size());
}

// The default holds in the command too: semitones on a wide hole's tube without any shop.
TEST_CASE("without a spacing the command leaves holes their own width", "[outside]") {
    Json document = plain();
    document["tube"]["end_mm"] = 190;
    document["song"] = Json::parse(
        R"json({"lowest":"free","scale":{"cents":[0,100,200,300,400,500]},"holes":5})json");
    const Json laid = asked("layout", document);
    for (std::size_t i = 0; i + 1 < 5; ++i)
        CHECK(element(laid, "finger_holes[" + std::to_string(i) + "].at_mm").is_null());
}

TEST_CASE(
    "a bore measured beyond the end, and a sound hole's wall thicker than the tube's, are said",
    "[outside]") {
    CHECK_FALSE(warns(asked("layout", plain()), "bore_beyond_end"));
    CHECK_FALSE(warns(asked("layout", plain()), "sound_hole_wall_thick"));
    Json document = plain();
    document["tube"]["bore"].push_back({{"at_mm", 400}, {"diameter_mm", 15.5}});
    CHECK_FALSE(warns(asked("layout", document), "bore_beyond_end"));
    document["tube"]["bore"][1]["at_mm"] = 401;
    CHECK(warns(asked("layout", document), "bore_beyond_end"));
    document = plain();
    document["sound_hole"]["wall_mm"] = 2.5;
    CHECK_FALSE(warns(asked("layout", document), "sound_hole_wall_thick"));
    document["sound_hole"]["wall_mm"] = 2.6;
    CHECK(warns(asked("layout", document), "sound_hole_wall_thick"));
}

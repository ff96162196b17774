// tests/core/verbs/marks_exist_test.cpp -- no number where a mark should be is no answer.
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <limits>
#include <sstream>

#include "core/api.hpp"
#include "core/api_parts.hpp"
#include "core/document/json_text.hpp"

using namespace canewright;

namespace {

Json stored(const std::string& file) {
    std::ifstream in(std::string(CANEWRIGHT_TEST_DATA) + "/repro/" + file);
    std::ostringstream text;
    text << in.rdbuf();
    return Json::parse(text.str());
}

Json answer(const std::string& verb, const Json& given) {
    const Json reply = Json::parse(run_workshop(verb, given.dump()));
    CAPTURE(verb, reply.dump());
    REQUIRE(reply.contains("answer"));
    return reply["answer"];
}

void check_marks(const Json& json) {
    CHECK(json["foot_mm"].get<double>() > 100.0);
    REQUIRE(json["finger_holes"].size() == 5);
    for (const Json& hole : json["finger_holes"]) {
        CHECK(hole["at_mm"].get<double>() > 0.0);
        CHECK(hole["diameter_mm"].get<double>() > 0.0);
    }
}

}  // namespace

TEST_CASE("errors of nothing leave the marks as small errors do", "[property]") {
    const Json given = stored("errors_of_zero.json");
    for (const double error_mm : {0.0, 1e-300}) {
        Json zero = given, small = given;
        for (const char* key : {"ruler_mm", "bit_mm", "bore_mm", "wall_mm", "sound_hole_mm"})
            zero["shop"][key] = error_mm, small["shop"][key] = 0.01;
        const Json marks = answer("layout", zero), near = answer("layout", small);
        check_marks(marks);
        CHECK(marks["converged"] == true);
        CHECK(std::abs(marks["foot_mm"].get<double>() - near["foot_mm"].get<double>()) < 0.01);
        const Json next = answer("next", zero);
        check_marks(next);
        CHECK(next["sigma_cents"].get<double>() > 0.0);
        CHECK(next["step"]["at_mm"].get<double>() > 100.0);
    }
}

TEST_CASE("a sound hole as wide as an oval bore allows has marks", "[property]") {
    const Json json = answer("layout", stored("wide_sound_hole_in_oval_bore.json"));
    check_marks(json);
    for (const Json& note : json["notes"]) CHECK(note["hz"].get<double>() > 300.0);
}

// 45,240 cents per mm before. The ring's own fall, some 45 cents, over the 2 mm of its root.
TEST_CASE("a foot beside a ridge has a slope that can be sawn", "[property]") {
    const Json json = answer("layout", stored("ridge_at_the_foot.json"));
    check_marks(json);
    CHECK(json["converged"] == true);
    for (const Json& note : json["notes"])
        CHECK(std::abs(note["cents_per_mm_foot"].get<double>()) < 50.0);
}

TEST_CASE("a foot trimmed to its pitch is not short", "[property]") {
    Json given = stored("trimmed_to_pitch.json");
    const auto is_short = [&] {
        const Json json = answer("layout", given);
        for (const Json& warning : json["cane"]["warnings"])
            if (warning == "short_tube") return true;
        return false;
    };
    CHECK_FALSE(is_short());
    given["song"]["lowest"] = "F4";  // two semitones lower than it can go
    CHECK(is_short());
}

TEST_CASE("an answer with a number that does not exist is a fault") {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    Json json = Json::parse(R"({"finger_holes": [{"at_mm": 1.5}, {"at_mm": 2}], "hz": null})");
    CHECK(Json::parse(api::answered(json)).contains("answer"));
    for (const double bad : {nan, std::numeric_limits<double>::infinity()}) {
        json["finger_holes"][1]["at_mm"] = bad;
        const Json reply = Json::parse(api::answered(json));
        CHECK_FALSE(reply.contains("answer"));
        CHECK(reply["fault"] == "no number at /answer/finger_holes/1/at_mm");
    }
    CHECK(number_json(nan).is_null());
    CHECK(number_json(2.5) == 2.5);
}

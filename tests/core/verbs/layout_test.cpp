// tests/core/verbs/layout_test.cpp -- the marks alone are those of the layout, sooner.
#include <catch2/catch.hpp>

#include "core/api.hpp"
#include "core/document/json_text.hpp"

using namespace canewright;

namespace layout_verb_test {  // its own where tests are compiled together

namespace {

// Six holes; with fingers that reach only so far, notes are off.
Json six_holes(bool held) {
    Json document = Json::parse(R"json({
      "format": "canewright/1",
      "tube": {"bore": [{"at_mm": 0, "diameter_mm": 18.4}], "wall_mm": 3.1, "end_mm": 430},
      "sound_hole": {"length_mm": 5, "width_mm": 9.5},
      "song": {"lowest": "G4", "scale": "natural minor", "holes": 6},
      "shop": {"diameter_mm": {"min": 3, "max": 10}, "spacing_mm": {"min": 16, "max": 60}}
    })json");
    if (held)
        document["shop"] = Json::parse(
            R"({"spacing_mm": {"min": 22, "max": 26}, "diameter_mm": {"min": 5, "max": 7}})");
    return document;
}

Json answer(const char* verb, const Json& document) {
    const Json reply = Json::parse(run(verb, document.dump()));
    INFO(reply.dump());
    REQUIRE(reply.contains("answer"));
    return reply["answer"];
}

}  // namespace

TEST_CASE("marks without reasons are those of the layout to the last digit") {
    const Json document = six_holes(true);
    Json whole = answer("layout", document), marks = answer("marks", document);
    REQUIRE(whole["worst_cents"].get<double>() > 3.0);
    CHECK(!whole["binding"].empty());
    CHECK(marks["binding"].is_null());  // not looked for, which is not none
    whole.erase("binding");
    marks.erase("binding");
    CHECK(whole == marks);
}

TEST_CASE("notes that are met have no reasons, so marks say that there are none") {
    const Json document = six_holes(false);
    const Json whole = answer("layout", document);
    REQUIRE(whole["worst_cents"].get<double>() < 0.05);
    CHECK(whole["binding"] == Json::array());
    CHECK(answer("marks", document) == whole);
}

TEST_CASE("of a flute that was heard the marks are the workshop's layout, reasons and all") {
    Json document = six_holes(false);
    document["log"] =
        Json::parse(R"([{"foot": {"at_mm": 420}}, {"read": {"open": [], "hz": 330}}])");
    CHECK(run_workshop("marks", document.dump()) == run_workshop("layout", document.dump()));
    CHECK(Json::parse(run("marks", document.dump())).contains("fault"));
}

}  // namespace layout_verb_test

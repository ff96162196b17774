// tests/core/layout/lift_test.cpp -- high notes are blown harder, and the plan allows for it.
#include "core/layout/lift.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/bench/belief/unknowns.hpp"
#include "tests/support/answers.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;

namespace lift_test {  // its own where tests are compiled together

Json tube(double octave_cents) {
    Json document = Json::parse(R"json({
      "format": "canewright/1",
      "tube": {"bore": [{"at_mm": 0, "diameter_mm": 18}], "wall_mm": 3, "end_mm": 440},
      "sound_hole": {"length_mm": 5, "width_mm": 9},
      "song": {"lowest": "G4", "scale": "minor pentatonic", "holes": 5}})json");
    if (octave_cents != 0.0) document["song"]["lift_cents"] = octave_cents;
    return document;
}

// Cents above the targets, of each note.
std::vector<double> off_cents(const Json& notes, const char* key = "cents") {
    std::vector<double> off;
    for (const Json& note : notes) off.push_back(note[key]);
    return off;
}

}  // namespace lift_test

using namespace lift_test;

TEST_CASE("how high a note lies goes by the scale, else by its uppermost hole", "[layout]") {
    const std::vector<NoteTarget> notes = {
        {{}, 0.0, 0.0}, {{3}, 200.0, 0.0}, {{2, 3}, 400.0, 0.0}, {{1, 2, 3}, 700.0, 0.0}};
    CHECK(above_lowest_cents(notes, {}) == 0.0);
    CHECK(above_lowest_cents(notes, {2, 3}) == 400.0);
    CHECK(above_lowest_cents(notes, {1, 3}) == 700.0);
    CHECK(above_lowest_cents(notes, {2}) == 400.0);
    LayoutTask task;
    task.notes = notes;
    task.lift_cents = 6.0;
    CHECK(lifts_cents(task) == std::vector<double>{0.0, 1.0, 2.0, 3.5});
}

// Blown as evenly as it was not planned for, each note is flat by just what the breath would add.
TEST_CASE("a plan leaves to the breath what the breath adds", "[layout]") {
    for (const bool floats : {false, true}) {
        Json asked = tube(9.0);
        if (floats) asked["song"]["lowest"] = "free";
        Json plan = answer_to("layout", asked);
        CHECK(plan["worst_cents"].get<double>() < kAgree_cents);
        CHECK(plan["song"]["lift_cents"] == 9.0);
        check_sound_agrees(plan);
        plan["song"].erase("lift_cents");
        const std::vector<double> off = off_cents(answer_to("sound", plan)["notes"]);
        REQUIRE(off.size() == 6);
        for (std::size_t n = 0; n < off.size(); ++n)
            CHECK_THAT(off[n],
                       WithinAbs(-9.0 * plan["notes"][n]["interval_cents"].get<double>() / 1200.0,
                                 kAgree_cents));
    }
}

// Before, `spread` knew of no breath at all: notes of a plan for 1.2 of the design's were 6 flat.
TEST_CASE("layout, sound and spread reckon with one breath", "[layout]") {
    Json asked = tube(9.0);
    asked["song"]["breath"] = 1.2;
    asked["song"]["fingerings"] = Json::parse("[[],[5],[4,5],[3,4,5],[2,3,4,5],[1,2,3,4,5]]");
    asked["shop"]["bits"] =
        Json::parse(R"([{"mm": 3.5}])");  // so that notes are off, each otherwise
    const Json plan = answer_to("layout", asked);
    REQUIRE(plan["worst_cents"].get<double>() > 1.0);
    check_sound_agrees(plan);
    const std::vector<double> laid = off_cents(plan["notes"]);
    const std::vector<double> spread = off_cents(answer_to("spread", plan)["notes"], "off_cents");
    REQUIRE(laid.size() == spread.size());
    for (std::size_t n = 0; n < laid.size(); ++n)
        CHECK_THAT(spread[n], WithinAbs(laid[n], kAgree_cents));
}

// What the maker says of their own breath is no trouble to be told of.
TEST_CASE("a lift that was planned is not found to be too much", "[layout]") {
    Json plan = answer_to("layout", tube(20.0));
    plan["log"] = Json::array();
    CHECK(answer_to("next", plan)["trouble"] == "none");
}

// A player nobody knows is taken to lift notes by kDriftMean_cents once a note was heard. Where the
// plan has that already, a first note just as planned moves no mark.
TEST_CASE("the first reading moves no mark of a plan that allows for the breath", "[layout]") {
    const auto moved_mm = [](double octave_cents) {
        Json plan = answer_to("layout", tube(octave_cents));
        plan["log"] = Json::array();
        plan["log"].push_back({{"foot", {{"at_mm", plan["foot_mm"]}}}});
        CHECK(furthest_mm(plan, answer_to("next", plan)) < 0.01);
        Json stands = plan;  // no hole is cut yet
        stands.erase("sounds_as");
        const Json sounds = answer_to("sound", stands)["notes"][0]["hz"];
        plan["log"].push_back({{"read", {{"open", Json::array()}, {"hz", sounds}}}});
        const Json after = answer_to("layout", plan);
        CHECK(furthest_mm(after, answer_to("next", plan)) < 0.01);
        return furthest_mm(plan, after);
    };
    CHECK(moved_mm(kDriftMean_cents) < 0.05);
    CHECK(moved_mm(0.0) > 0.3);
}

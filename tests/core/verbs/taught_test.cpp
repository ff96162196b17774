// tests/core/verbs/taught_test.cpp -- what layout answers of a build under way is itself a
// build.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/api.hpp"
#include "core/base/units.hpp"
#include "tests/core/document/samples.hpp"

using namespace canewright;
using Catch::WithinAbs;

namespace {

Json answer(const char* verb, const Json& document) {
    const Json all = Json::parse(run_workshop(verb, document.dump()));
    INFO(all.dump());
    REQUIRE(all.contains("answer"));
    return all["answer"];
}

Json tube(double bore_mm, double end_mm, int holes) {
    Json document = Json::parse(R"json({
      "format": "canewright/1",
      "tube": {"bore": [{"at_mm": 0}], "wall_mm": 3},
      "sound_hole": {"length_mm": 5, "width_mm": 9},
      "song": {"lowest": "G4", "scale": "minor pentatonic"}})json");
    document["tube"]["bore"][0]["diameter_mm"] = bore_mm;
    document["tube"]["end_mm"] = end_mm;
    document["song"]["holes"] = holes;
    return document;
}

}  // namespace

// Sizes that the log leaves to the plan, in a plan that changes; and readings before an undercut,
// which the answered plan has in it.
TEST_CASE("sound of what layout answers of a log is what layout says", "[property]") {
    Json document = answer("layout", tube(18, 440, 5));
    document["log"] = Json::parse(R"json([
      {"foot": {"at_mm": 402}}, {"read": {"open": [], "hz": 381}},
      {"hole": {"number": 5, "at_mm": 295}}, {"read": {"open": [5], "hz": 429}},
      {"undercut": {"number": 5}}, {"read": {"open": [5], "hz": 441}},
      {"hole": {"number": 4, "at_mm": 262}}, {"read": {"open": [4, 5], "hz": 487}},
      {"hole": {"number": 4, "at_mm": 262}}, {"read": {"open": [4, 5], "hz": 495}}])json");
    const Json plan = answer("layout", document), sound = answer("sound", plan);
    for (std::size_t n = 0; n < plan["notes"].size(); ++n) {
        CAPTURE(n);
        CHECK_THAT(cents_between(sound["notes"][n]["hz"], plan["notes"][n]["hz"]),
                   WithinAbs(0.0, 1e-3));
    }
    // what was left to the plan is said, with the tenth that is not known of it
    const double drilled_mm = plan["log"][2]["hole"]["diameter_mm"];
    CHECK_THAT(drilled_mm, WithinAbs(document["finger_holes"][4]["diameter_mm"], 1e-9));
    CHECK_THAT(plan["log"][2]["error_mm"], WithinAbs(0.1 * drilled_mm, 1e-9));
}

// An undercut takes 12 % more at the bore, but not more than the format lets a hole have there.
TEST_CASE("no undercut goes beyond the bore", "[property]") {
    Json document = answer("layout", tube(18, 440, 5));
    document["log"] = Json::parse(R"json([
      {"hole": {"number": 5, "at_mm": 295, "diameter_mm": 16.5}}, {"undercut": {"number": 5}}])json");
    const Json plan = answer("layout", document);
    CHECK_THAT(plan["finger_holes"][4]["inner_diameter_mm"], WithinAbs(0.95 * 18.0, 1e-6));
    const Json sound = answer("sound", plan);
    CHECK(sound["notes"].size() == plan["notes"].size());
}

// Eight holes of 10 mm in a hand of room: the shop's least size gives way, not the hole itself.
TEST_CASE("where there is no room holes are still holes", "[property]") {
    Json document = tube(34, 122, 8);
    document["sound_hole"] = {{"length_mm", 16}, {"width_mm", 17}};
    document["shop"] = {{"diameter_mm", {{"min", 7.5}, {"max", 19}}},
                        {"spacing_mm", {{"min", 26.7}, {"max", 80}}},
                        {"hands", {1, 7}}};
    const Json plan = answer("layout", document);
    CHECK(plan["converged"] == false);
    for (const Json& hole : plan["finger_holes"]) CHECK(hole["diameter_mm"] >= 0.3);
    const Json sound = answer("sound", plan);
    CHECK(sound["notes"].size() == plan["notes"].size());
}

// `spread` took the plan as of a tube nobody knows: every note was 34 to 45 cents off its target,
// and hardly a flute came out in tune, of one whose layout meets each note.
TEST_CASE("what a flute taught is in the spread of the next one, too", "[property]") {
    Json taught = tube(18, 440, 5);
    Json heard = answer("layout", taught);
    heard["log"] = Json::parse(R"json([{"foot": {"at_mm": 405}},
                                       {"read": {"open": [], "hz": 380}}])json");
    taught["pattern"] = answer("pattern", heard);
    for (const Json& each : {taught, heard}) {
        const Json plan = answer("layout", each), spread = answer("spread", plan);
        REQUIRE(std::abs(answer("sound", plan)["notes"][0]["cents"].get<double>()) < 1e-3);
        for (const Json& note : spread["notes"])
            CHECK_THAT(note["off_cents"], WithinAbs(0.0, 1e-3));
        // the voice is known better by now
        const Json stranger = answer("spread", answer("layout", tube(18, 440, 5)));
        CHECK(spread["notes"][0]["sigma_cents"] < stranger["notes"][0]["sigma_cents"]);
        CHECK(spread["within"]["10"] > stranger["within"]["10"]);
        // the Monte Carlo goes round the same notes
        const Json tried = Json::parse(spread_builds(plan.dump(), 0, 300, 7, ""));
        for (const Json& note : tried["answer"]["monte_carlo"]["notes"])
            CHECK(std::abs(note["mean_cents"].get<double>()) < 4.0);  // three standard errors
    }
}

// tests/core/verbs/spread_test.cpp -- errors, breath, climate and bore through the boundary.
#include "core/verbs/spread.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/api.hpp"
#include "core/base/units.hpp"
#include "tests/core/document/samples.hpp"
#include "tests/support/table.hpp"

using namespace canewright;

namespace spread_test {  // its own where tests are compiled together
using Catch::WithinAbs;
using Catch::WithinRel;
using samples::with;
using samples::without;

namespace {

Json answer(const std::string& verb, const Json& document) {
    const auto asked = verb == "sound" ? run_workshop : run;
    const Json json = Json::parse(asked(verb, document.dump()));
    CAPTURE(json.dump());
    REQUIRE(json.contains("answer"));
    return json["answer"];
}

Json plan() {
    static const Json planned = answer("layout", Json::parse(R"json({
      "format": "canewright/1",
      "tube": {"bore": [{"at_mm": 0, "diameter_mm": 18}], "wall_mm": 3, "end_mm": 430},
      "sound_hole": {"length_mm": 5, "width_mm": 9.5},
      "song": {"lowest": "G4", "scale": "minor pentatonic", "holes": 5}
    })json"));
    return planned;
}

Json builds(const Json& document, long from, long to, std::uint64_t seed, const Json& before) {
    return Json::parse(
        spread_builds(document.dump(), from, to, seed, before.is_null() ? "" : before.dump()));
}

}  // namespace

TEST_CASE("spread answers what was promised", "[spread]") {
    const Json json = answer("spread", plan());
    REQUIRE(json["notes"].size() == 6);
    for (const Json& note : json["notes"]) {
        CHECK(note["sigma_cents"] > note["shop_cents"]);
        CHECK(note["sigma_cents"] > note["model_cents"]);
        double squares = 0.0;
        for (const auto& [group, cents] : note["parts"].items())
            squares += std::pow(cents.get<double>(), 2);
        CHECK_THAT(note["sigma_cents"].get<double>(), WithinRel(std::sqrt(squares), 1e-12));
    }
    CHECK(json["within"]["5"] <= json["within"]["10"]);
    CHECK(json["within"]["10"] <= json["within"]["20"]);
    CHECK(json["within_shop"]["10"] > json["within"]["10"]);
    CHECK(json["worth_repeating"]["of"] == "shop");
    CHECK(json["ranked"].size() > 15);
    CHECK(json["bore_ways"].size() == 5);
    CHECK(json["bore_ways"][0]["best"] == true);
    CHECK(json["errors"]["sound_hole_mm"] == 0.1);
}

TEST_CASE("the shop's errors come from the document", "[spread]") {
    Json exact = plan();
    exact["shop"] = {{"ruler_mm", 0}, {"bit_mm", 0},        {"bore_mm", 0},
                     {"wall_mm", 0},  {"sound_hole_mm", 0}, {"temperature_c", 0}};
    const Json none = answer("spread", exact);
    for (const Json& note : none["notes"]) CHECK(note["shop_cents"] == 0.0);
    Json one = exact;
    one["shop"]["bore_mm"] = 0.2;
    const Json ranked = answer("spread", one);
    CHECK(ranked["worth_repeating"]["cause"] == "bore");
    CHECK(ranked["worth_repeating"]["path"] == "tube.bore");
    // linear: half the error, half the spread
    Json half = exact;
    half["shop"]["bore_mm"] = 0.1;
    CHECK_THAT(
        ranked["notes"][0]["shop_cents"].get<double>(),
        WithinRel(2.0 * answer("spread", half)["notes"][0]["shop_cents"].get<double>(), 1e-9));
    // read and written back
    CHECK(answer("layout", one)["shop"]["sound_hole_mm"] == 0);
}

TEST_CASE("spread needs what sound needs, and wrong errors are violations", "[spread]") {
    const Json bare = Json::parse(run("spread", without(plan(), "/foot_mm").dump()));
    CHECK(bare["violations"][0]["code"] == "needs");
    CHECK(bare["violations"][0]["path"] == "foot_mm");
    const Json wrong = Json::parse(run("spread", with(plan(), "/shop/sound_hole_mm", -1).dump()));
    CHECK(wrong["violations"][0]["code"] == "too_small");
    CHECK(wrong["violations"][0]["path"] == "shop.sound_hole_mm");
}

TEST_CASE("builds in pieces are the builds in one", "[spread]") {
    const Json whole = builds(plan(), 0, 40, 9, nullptr)["answer"];
    Json part = builds(plan(), 0, 15, 9, nullptr)["answer"];
    part = builds(plan(), 15, 40, 9, part["sums"])["answer"];
    CHECK(part["monte_carlo"]["builds"] == 40);
    CHECK(part["monte_carlo"]["within"] == whole["monte_carlo"]["within"]);
    for (std::size_t k = 0; k < 6; ++k)
        CHECK_THAT(part["monte_carlo"]["notes"][k]["sigma_cents"].get<double>(),
                   WithinRel(whole["monte_carlo"]["notes"][k]["sigma_cents"].get<double>(), 1e-9));
    CHECK(whole["monte_carlo"]["agrees"] == true);
    const Json both = Json::parse(spread_with_builds(plan().dump(), 40, 9))["answer"];
    CHECK(both["monte_carlo"] == whole["monte_carlo"]);
    CHECK(both["notes"] == answer("spread", plan())["notes"]);
}

// Of a single flute a standard deviation is not defined (n - 1 = 0): it is left open, not a fault.
TEST_CASE("one build has no scatter", "[spread]") {
    const Json one = builds(plan(), 0, 1, 1, nullptr)["answer"]["monte_carlo"];
    REQUIRE(one["notes"].size() == 6);
    for (const Json& note : one["notes"]) CHECK(note["sigma_cents"].is_null());
    const Json two = builds(plan(), 0, 2, 1, nullptr)["answer"]["monte_carlo"];
    for (const Json& note : two["notes"]) CHECK(note["sigma_cents"].is_number());
}

TEST_CASE("builds that make no sense are violations", "[spread]") {
    CHECK(builds(plan(), 5, 5, 1, nullptr)["violations"][0]["path"] == "to");
    CHECK(builds(plan(), -1, 5, 1, nullptr)["violations"][0]["path"] == "from");
    CHECK(builds(plan(), 0, kMostBuilds + 1, 1, nullptr)["violations"][0]["path"] == "to");
    for (const char* before : {"{}", "[1]", "no json", R"({"builds":"x"})"})
        CHECK(Json::parse(spread_builds(plan().dump(), 0, 5, 1, before))["violations"][0]["path"] ==
              "before");
    // sums of a flute with another number of notes
    Json other = plan();
    other["notes"].erase(0);
    const Json sums = builds(other, 0, 5, 1, nullptr)["answer"]["sums"];
    CHECK(builds(plan(), 5, 9, 1, sums)["violations"][0]["path"] == "before");
}

// Source     row TEMP-cents, 2.953 cents a kelvin at 20 C; breath carries 0.45 of the bore's
//            temperature and does not change, moisture adds a little.
TEST_CASE("what is tuned for the place of playing sounds right there", "[spread][derived]") {
    const double per_K = testing::check_value("TEMP-cents").number("value");
    Json warm = plan();
    warm["song"]["play_c"] = 28;
    const Json heard = answer("sound", warm);
    CHECK(heard["at_c"] == 28);
    for (const Json& note : heard["notes"])  // tuned for 20 C: sharp at 28
        CHECK_THAT(note["cents"].get<double>(), WithinRel(8.0 * 0.55 * per_K, 0.1));
    const Json tuned = answer("layout", warm);
    CHECK(tuned["foot_mm"] > plan()["foot_mm"]);
    const Json sounded = answer("sound", tuned);
    for (const Json& note : sounded["notes"])
        CHECK_THAT(note["cents"].get<double>(), WithinAbs(0.0, 0.1));
    // room_c alone is the place of playing where nothing else is said
    Json room = plan();
    room["air"]["room_c"] = 28;
    CHECK(answer("sound", room)["notes"][0]["hz"] == heard["notes"][0]["hz"]);
    const Json climate = answer("spread", plan())["climate"];
    CHECK_THAT(climate["per_c"].get<double>(), WithinRel(0.55 * per_K, 0.1));
    CHECK_THAT(climate["cents_10_to_30_c"].get<double>(), WithinRel(20.0 * 0.55 * per_K, 0.1));
}

TEST_CASE("breath moves what sounds, and only then", "[spread]") {
    const Json passive = answer("sound", plan());
    CHECK_FALSE(passive["notes"][0].contains("breath_cents"));
    const Json design = answer("sound", with(plan(), "/song/breath", 1));
    CHECK(design["notes"] == passive["notes"]);
    double last = -1e9;
    for (const double breath : {0.65, 0.8, 1.2, 1.75}) {
        const Json note = answer("sound", with(plan(), "/song/breath", breath))["notes"][0];
        const double cents = note["breath_cents"].get<double>();
        CHECK(cents > last);
        last = cents;
        CHECK_THAT(cents_between(note["hz"], passive["notes"][0]["hz"]), WithinAbs(cents, 1e-9));
        CHECK_THAT(note["cents"].get<double>(), WithinAbs(cents, 1e-3));
        CHECK(note["second_hz"] == passive["notes"][0]["second_hz"]);
    }
    const Json wrong = Json::parse(run_workshop("sound", with(plan(), "/song/breath", 3).dump()));
    CHECK(wrong["violations"][0]["path"] == "song.breath");
}

// Reference  a cylinder of 18 mm by 400 mm, 101.788 ml, 101.498 g in air at 20 C (bore_ways_test).
TEST_CASE("bore turns a measurement into a bore", "[spread][analytic]") {
    const auto measured = [](const char* text) {
        return Json::parse(run_workshop("bore", text))["answer"];
    };
    const Json weighed = measured(R"({"way":"water_g","amount":101.498,"length_mm":400})");
    CHECK_THAT(weighed["diameter_mm"].get<double>(), WithinAbs(18.0, 1e-3));
    CHECK(weighed["sigma_mm"] < 0.03);
    const Json filled = measured(R"({"way":"water_ml","amount":101.788,"length_mm":400})");
    CHECK_THAT(filled["diameter_mm"].get<double>(), WithinAbs(18.0, 1e-4));
    CHECK(filled["sigma_mm"] > weighed["sigma_mm"]);
    CHECK(measured(R"({"way":"gauges","go_mm":17.5,"no_go_mm":18})")["diameter_mm"] == 17.75);
    CHECK_THAT(measured(R"({"way":"girth","girth_mm":75.712})")["outer_mm"].get<double>(),
               WithinAbs(24.0, 1e-3));
    // a coarser scale is less sure
    CHECK(
        measured(
            R"({"way":"water_g","amount":101.498,"length_mm":400,"scale_step_g":5})")["sigma_mm"] >
        weighed["sigma_mm"]);
}

TEST_CASE("a measurement that makes no sense is a violation", "[spread]") {
    const auto first = [](const char* text) {
        const Json all = Json::parse(run_workshop("bore", text));
        CAPTURE(all.dump());
        REQUIRE(all.contains("violations"));
        return all["violations"][0]["code"].get<std::string>() + " " +
               all["violations"][0]["path"].get<std::string>();
    };
    CHECK(first("nonsense") == "not_json ");
    CHECK(first("{}") == "missing way");
    CHECK(first(R"({"way":"ear"})") == "unknown_name way");
    CHECK(first(R"({"way":"water_g","length_mm":400})") == "missing amount");
    CHECK(first(R"({"way":"water_g","amount":-1,"length_mm":400})") == "too_small amount");
    CHECK(first(R"({"way":"water_g","amount":1,"length_mm":400})") == "too_small amount");
    CHECK(first(R"({"way":"water_ml","amount":5000,"length_mm":40})") == "too_large amount");
    CHECK(first(R"({"way":"gauges","go_mm":18,"no_go_mm":18})") == "out_of_order no_go_mm");
    CHECK(first(R"({"way":"girth","girth_mm":75,"wall":1})") == "unknown_key wall");
    CHECK(first(R"({"way":"girth","girth_mm":2})") == "too_small girth_mm");
}

}  // namespace spread_test

// tests/core/choose/reach_test.cpp: what a hand allows, and what of a flute it will find hard.
#include "core/choose/reach.hpp"

#include <catch2/catch.hpp>
#include <string>

#include "core/api.hpp"
#include "core/choose/merit.hpp"
#include "core/document/json_text.hpp"

using namespace canewright;

namespace reach_test {  // its own where tests are compiled together
namespace {

Json reply(const char* verb, const Json& asked) {
    return Json::parse(run_workshop(verb, asked.dump()));
}

Json flute(const Json& shop) {
    return {{"format", "canewright/1"},
            {"tube",
             {{"bore", {{{"at_mm", 0}, {"diameter_mm", 18}}}}, {"wall_mm", 3}, {"end_mm", 430}}},
            {"sound_hole", {{"length_mm", 6}, {"width_mm", 9}}},
            {"song", {{"lowest", "G4"}, {"scale", "minor pentatonic"}, {"holes", 4}}},
            {"foot_mm", 390},
            {"finger_holes",
             {{{"at_mm", 200}, {"diameter_mm", 7}},
              {{"at_mm", 214}, {"diameter_mm", 11}},
              {{"at_mm", 260}, {"diameter_mm", 8}},
              {{"at_mm", 299}, {"diameter_mm", 6}}}},
            {"shop", shop}};
}

std::string told(const Json& warnings) {
    std::string all;
    for (const Json& each : warnings) {
        all += each["code"].get<std::string>();
        for (const Json& hole : each["holes"]) all += " " + std::to_string(hole.get<int>());
        all += each["own"] == true ? " own; " : "; ";
    }
    return all;
}

}  // namespace

// Index fingers of 160 children from 3 to 10: 15 mm across on the average, 9 to 22 (Ann. Anat. 192
// (2010) 156-161, abstract). A print is less by what rounds away at its sides.
TEST_CASE("children's hands to begin with have children's fingers", "[reach][published]") {
    for (const HandSize& size : hand_sizes()) {
        CAPTURE(size.name);
        const double finger_m = limits_of_hand(size.span_m, size.pad_m).apart_min_m;
        if (std::string(size.name).find("child") == std::string::npos) continue;
        CHECK(finger_m > 0.0135);
        CHECK(finger_m < 0.0165);
    }
    CHECK(std::string(hand_sizes().front().name).find("child") == 0);
}

TEST_CASE("hands grow, and the grown-up's is the one that tubes are judged by", "[reach]") {
    double span_m = 0.0, pad_m = 0.0;
    for (const HandSize& size : hand_sizes()) {
        CHECK(size.span_m > span_m);
        CHECK(size.pad_m > pad_m);
        span_m = size.span_m, pad_m = size.pad_m;
        const HandLimits limits = limits_of_hand(span_m, pad_m);
        CHECK(limits.apart_max_m > limits.apart_min_m);
        CHECK(limits.hole_max_m < pad_m);
    }
    const HandLimits grown = limits_of_hand(span_m, pad_m);
    CHECK(grown.apart_max_m == Approx(kStretch_m));
    CHECK(grown.apart_min_m == Approx(kFinger_m));
    CHECK(grown.hole_max_m == Approx(kPad_m));
}

// Three fingers have two ways between them (arithmetic); the rest is common practice, no source.
TEST_CASE("limits come in half millimetres, to the easier side", "[reach][trade]") {
    const Json limits = reply("reach", {{"span_mm", 61.7}, {"pad_mm", 11.3}})["answer"]["limits"];
    CHECK(limits["apart_max_mm"] == 30.5);  // of 30.85
    CHECK(limits["apart_min_mm"] == 15.5);  // of 15.3
    CHECK(limits["hole_max_mm"] == 8.0);    // of 8.3
    const Json none = reply("reach", Json::object())["answer"];
    CHECK(none["limits"].is_null());
    CHECK(none["sizes"].size() == hand_sizes().size());
}

TEST_CASE("a hand that no hand is, is refused", "[reach]") {
    const auto refused = [](const Json& asked, const char* code, const char* path) {
        const Json wrong = reply("reach", asked)["violations"];
        CAPTURE(asked.dump());
        REQUIRE(wrong.size() == 1);
        CHECK(wrong[0]["code"] == code);
        CHECK(wrong[0]["path"] == path);
    };
    refused({{"span_mm", 6.5}, {"pad_mm", 12}}, "too_small", "span_mm");
    refused({{"span_mm", 210}, {"pad_mm", 12}}, "too_large", "span_mm");
    refused({{"span_mm", 60}, {"pad_mm", 40}}, "too_large", "pad_mm");
    refused({{"span_mm", 60}}, "missing", "pad_mm");
    refused({{"pad_mm", 12}}, "missing", "span_mm");
    refused({{"span_mm", 30}, {"pad_mm", 14}}, "too_small", "span_mm");
    refused({{"spam_mm", 30}}, "unknown_key", "spam_mm");
}

TEST_CASE("what a hand will find hard is said of the holes it has", "[reach]") {
    const Json usual = reply("grip", flute({{"hands", {2, 2}}}))["answer"];
    CHECK(usual["holes"].size() == 4);
    CHECK(usual["holes"][1]["hand"] == "upper");
    CHECK(usual["holes"][2]["hand"] == "lower");
    // 14 mm between holes 1 and 2, a hole of 11, 39 mm between 3 and 4: for a grown-up's hand
    CHECK(told(usual["warnings"]) == "near 1 2; wide 2; far 3 4; ");
    // of another hand holes 2 and 3 may lie as far apart as they like
    CHECK(told(reply("grip", flute({{"hands", {3, 1}}}))["answer"]["warnings"]) ==
          "near 1 2; wide 2; far 2 3; ");
    const Json own = reply("grip", flute({{"hands", {2, 2}},
                                          {"spacing_mm", {{"min", 12}, {"max", 38}}},
                                          {"diameter_mm", {{"max", 7.5}}}}))["answer"];
    CHECK(told(own["warnings"]) == "wide 2 own; wide 3 own; far 3 4 own; ");
    CHECK(own["warnings"][2]["mm"] == 39.0);
    CHECK(own["warnings"][2]["limit_mm"] == 38.0);
    // what rests on a limit is within it
    CHECK(told(reply("grip", flute({{"hands", {2, 2}},
                                    {"spacing_mm", {{"min", 14}, {"max", 39}}},
                                    {"diameter_mm", {{"max", 11}}}}))["answer"]["warnings"]) == "");
}

}  // namespace reach_test

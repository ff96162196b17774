// tests/core/verbs/voice_proposals_test.cpp -- what a maker might begin with, and what is advised.
#include <catch2/catch.hpp>
#include <cmath>
#include <map>

#include "core/jet/calibrate.hpp"
#include "core/verbs/voice/voice_parts.hpp"
#include "tests/core/verbs/voice_flutes.hpp"
#include "tests/support/flutes.hpp"

using namespace canewright;
using canewright::testing::asked;
using canewright::testing::Dice;
using canewright::testing::large_flute;
using canewright::testing::part_of;
using canewright::testing::small_flute;
using Catch::WithinAbs;
using samples::with;
using samples::without;

namespace {

std::map<std::string, Json> proposed(const Json& flute) {
    std::map<std::string, Json> all;
    for (const Json& each : part_of(asked("voice", flute), "proposed")) all[each["path"]] = each;
    return all;
}

Json blank_tube(double bore_mm, double wall_mm, double above_mm) {
    Json json = Json::parse(R"json({"format": "canewright/1"})json");
    json["tube"] = {{"bore", {{{"at_mm", 0}, {"diameter_mm", bore_mm}}}},
                    {"wall_mm", wall_mm},
                    {"end_mm", 20.0 * bore_mm},
                    {"above_mm", above_mm}};
    json["sound_hole"] = {{"length_mm", 0.3 * bore_mm}, {"width_mm", 0.55 * bore_mm}};
    return json;
}

const Json* advised(const Json& answer, const char* code) {
    for (const Json& each : answer["advice"])
        if (each["code"] == code) return &each;
    return nullptr;
}

}  // namespace

// Reference  common practice, no source: 0.1 mm on bores up to 10 mm, 0.7 to 0.9 mm on 19 to 22 mm.
TEST_CASE("the track is as deep as is usual for the bore", "[voice][trade]") {
    CHECK_THAT(usual_track_depth_m(9e-3), WithinAbs(0.1e-3, 0.005e-3));
    CHECK_THAT(usual_track_depth_m(10e-3), WithinAbs(0.1e-3, 1e-12));
    CHECK_THAT(usual_track_depth_m(19e-3), WithinAbs(0.7e-3, 1e-12));
    CHECK_THAT(usual_track_depth_m(22e-3), WithinAbs(0.9e-3, 1e-12));
    for (double bore_m = 3e-3; bore_m < 60e-3; bore_m += 0.1e-3)
        CHECK(usual_track_depth_m(bore_m + 0.1e-3) > usual_track_depth_m(bore_m));
}

TEST_CASE("everything above the sound hole that is not said is proposed, and nothing else",
          "[voice]") {
    const auto all = proposed(blank_tube(18, 3, 150));
    CHECK(all.size() == 11);
    for (const char* path :
         {"sound_hole.ramp_mm", "sound_hole.edge_mm", "track.depth_mm", "track.width_mm",
          "track.length_mm", "block.height_mm", "block.width_mm", "plug.offset_mm",
          "plug.thickness_mm", "chamber.length_mm", "chamber.air_hole_mm"})
        CHECK(all.count(path) == 1);
    CHECK(proposed(small_flute()).empty());
    // a word says it too, and where no block stands none is wanted
    Json seen = blank_tube(18, 3, 150);
    seen["sound_hole"]["ramp"] = "short";
    seen["block"] = "none";
    const auto rest = proposed(seen);
    CHECK(rest.count("sound_hole.ramp_mm") == 0);
    CHECK(rest.count("block.height_mm") == 0);
    CHECK(rest.count("track.depth_mm") == 1);
}

// Common practice, no source, but the sum is arithmetic.
TEST_CASE("nothing proposed is larger than the tube allows", "[voice][property][sweep]") {
    Dice dice(20);
    int short_ones = 0;
    for (int n = 0; n < 150; ++n) {
        const double bore_mm = dice.between(3.0, 60.0);
        const double wall_mm = dice.between(0.4, 0.3 * bore_mm);
        const double above_mm = dice.between(0.0, 12.0) * bore_mm;
        Json flute = blank_tube(bore_mm, wall_mm, std::min(above_mm, 1000.0));
        flute["sound_hole"]["length_mm"] = std::max(1.0, dice.between(0.15, 0.6) * bore_mm);
        if (flute["sound_hole"]["length_mm"] > 40) continue;
        flute["sound_hole"]["width_mm"] = std::max(1.0, dice.between(0.3, 1.0) * bore_mm);
        if (dice.whole(0, 1)) flute["plug"] = {{"offset_mm", dice.between(0.0, 0.3) * bore_mm}};
        CAPTURE(flute.dump());
        const auto all = proposed(flute);
        const auto mm = [&](const char* path) {
            return all.count(path) ? all.at(path)["mm"].get<double>() : 0.0;
        };
        const double room_mm = flute["tube"]["above_mm"].get<double>() + 1e-9;
        const double offset_mm =
            flute.contains("plug") ? flute["plug"]["offset_mm"].get<double>() : 0.0;
        CHECK(mm("track.length_mm") <= room_mm);
        CHECK(offset_mm * (mm("plug.thickness_mm") > 0.0) + mm("plug.thickness_mm") +
                  mm("chamber.length_mm") <=
              room_mm);
        CHECK(mm("chamber.air_hole_mm") <= std::min(room_mm, bore_mm));
        CHECK(mm("chamber.air_hole_mm") <= mm("track.width_mm") + 1e-9);
        CHECK(mm("track.width_mm") <= bore_mm + 1e-9);
        CHECK(mm("track.depth_mm") < wall_mm);
        CHECK(mm("sound_hole.edge_mm") < wall_mm);
        CHECK(mm("sound_hole.ramp_mm") <= bore_mm + 1e-9);
        CHECK(mm("block.height_mm") <= bore_mm + 1e-9);
        CHECK(mm("block.width_mm") <= bore_mm + 2.0 * wall_mm + 1e-9);
        // the air hole opens above the plug
        if (all.count("track.length_mm") && all.count("plug.thickness_mm"))
            CHECK(mm("track.length_mm") + 1e-9 >= offset_mm + mm("plug.thickness_mm"));
        if (!all.count("chamber.length_mm")) {
            ++short_ones;
            CHECK(advised(asked("voice", flute), "above_short"));
        }
        // and may be written into the document as it is
        Json filled = flute;
        for (const auto& [path, each] : all) {
            const std::size_t dot = path.find('.');
            filled[path.substr(0, dot)][path.substr(dot + 1)] = each["mm"];
        }
        for (const auto& [path, each] : proposed(filled)) CHECK(all.count(path) == 0);
    }
    CHECK(short_ones > 5);
}

TEST_CASE("what is proposed follows from the numbers it names", "[voice][property]") {
    for (const Json& flute : {blank_tube(18, 3, 150), blank_tube(9, 1.5, 60),
                              blank_tube(7, 0.4, 12), blank_tube(25, 4, 30)}) {
        for (const auto& [path, each] : proposed(flute)) {
            CAPTURE(flute.dump(), each.dump());
            CHECK_FALSE(each["rule"].get<std::string>().empty());
            for (const Json& number : each["of"]) {
                std::string at = number["path"];
                if (at == "tube.bore") at = "tube.bore.0.diameter_mm";
                const bool given = at.rfind("plug.", 0) != 0;
                for (char& letter : at)
                    if (letter == '.') letter = '/';
                Json changed = flute;
                Json& value = changed[Json::json_pointer("/" + at)];
                if (given) CHECK(value.get<double>() == Approx(number["mm"].get<double>()));
                value = 0.99 * number["mm"].get<double>();
                CHECK(proposed(changed)[path]["mm"] != each["mm"]);
            }
        }
    }
}

TEST_CASE("a rule at its floor names no number", "[voice]") {
    const auto all = proposed(blank_tube(6, 1, 60));
    CHECK(all.at("plug.thickness_mm")["mm"] == 4);
    CHECK(all.at("plug.thickness_mm")["of"].empty());
    CHECK(all.at("track.length_mm")["mm"] == 8);
    CHECK(all.at("track.length_mm")["rule"] == "at_least_8_mm");
}

TEST_CASE("advice names the number that decides, and its limit", "[voice]") {
    const auto first = [](const Json& flute, const char* code) {
        const Json answer = asked("voice", flute);
        CAPTURE(answer["advice"].dump());
        const Json* found = advised(answer, code);
        REQUIRE(found);
        return *found;
    };
    const Json good = large_flute();
    for (const char* code : {"ratio_low", "ratio_high", "jet_fast", "reynolds_low", "jump_near",
                             "needs_much_air", "sound_hole_wider_than_track", "above_short"})
        CHECK_FALSE(advised(asked("voice", good), code));

    const Json low = first(with(good, "/track/depth_mm", 2), "ratio_low");
    CHECK(low["value"] == 2.5);
    CHECK(low["limit"] == 3);
    const Json high = first(with(good, "/track/depth_mm", 0.4), "ratio_high");
    CHECK(high["value"] == 12.5);
    CHECK(high["value"] > high["limit"]);
    const Json thin = first(with(good, "/track/depth_mm", 0.1), "reynolds_low");
    CHECK(thin["value"] < thin["limit"]);
    // high notes of long sound holes want fast jets
    Json fast = with(good, "/sound_hole/length_mm", 9);
    fast["track"]["depth_mm"] = 2;
    CHECK(first(fast, "jet_fast")["value"] > 35);
    const Json wide = first(with(good, "/track/width_mm", 8), "sound_hole_wider_than_track");
    CHECK(wide["value"] == 10);
    CHECK(wide["limit"] == 8);
    Json hungry = with(good, "/track/depth_mm", 1.6);
    hungry["sound_hole"]["length_mm"] = 10;
    hungry["sound_hole"]["width_mm"] = 18;
    hungry["track"]["width_mm"] = 18;
    CHECK(first(hungry, "needs_much_air")["value"] < 4);
    const Json no_room = first(with(good, "/tube/above_mm", 20), "above_short");
    CHECK(no_room["value"] == 20);
    CHECK(no_room["limit"] > 20);
}

// A sheet of paper's height is usual on a small flute: its ratio is not found fault with.
TEST_CASE("a track as it is proposed is not advised against", "[voice][property]") {
    for (const double bore_mm : {7.0, 9.0, 12.0, 16.0, 19.0, 22.0}) {
        Json flute = blank_tube(bore_mm, 0.16 * bore_mm, 8 * bore_mm);
        for (const auto& [path, each] : proposed(flute)) {
            const std::size_t dot = path.find('.');
            flute[path.substr(0, dot)][path.substr(dot + 1)] = each["mm"];
        }
        const Json answer = asked("voice", flute);
        CAPTURE(flute.dump(), answer["advice"].dump());
        for (const char* code : {"ratio_low", "ratio_high", "sound_hole_wider_than_track",
                                 "above_short", "needs_much_air"})
            CHECK_FALSE(advised(answer, code));
    }
}

TEST_CASE("a note that is nearly overblown is said, and one that cannot be", "[voice]") {
    // a long narrow tube: its second register answers nearly as well as its first
    Json near = large_flute();
    near["tube"]["bore"][0]["diameter_mm"] = 8;
    near["sound_hole"] = {{"length_mm", 3}, {"width_mm", 4}};
    near["track"] = {{"depth_mm", 0.9}, {"width_mm", 4}, {"length_mm", 15}};
    near["finger_holes"] = Json::array();
    near["notes"] = {{{"open", Json::array()}}};
    near["tube"]["end_mm"] = near["foot_mm"] = 520;
    const Json answer = asked("voice", near);
    CAPTURE(answer["notes"].dump(), answer["advice"].dump());
    const Json* jump = advised(answer, "jump_near");
    REQUIRE(jump);
    CHECK((*jump)["value"] < (*jump)["limit"]);
    CHECK((*jump)["limit"] == 1.3 * kJumpToPitch);
    for (const Json& note : answer["notes"])
        if (note["open"] == (*jump)["open"] && note["register"] == 1)
            CHECK((*jump)["value"].get<double>() ==
                  Approx(note["jumps_up_pa"].get<double>() / note["pa"]["at_pitch"].get<double>()));

    // the tube below three open holes hides the second register: `sound` says so too
    const Json hidden = asked("voice", small_flute());
    REQUIRE(advised(hidden, "no_overblow"));
    CHECK((*advised(hidden, "no_overblow"))["value"] == 1);
    CHECK((*advised(hidden, "no_overblow"))["open"] == Json{2, 3, 4});
    CHECK(asked("sound", small_flute())["notes"][3]["second_why"] == "faint_register");
}

// What is reckoned with where nobody has said it, and what is proposed for it, is one figure.
TEST_CASE("a part that is taken for what is usual is proposed as it is taken",
          "[voice][property]") {
    for (const double length_mm : {3.0, 6.0, 9.0, 12.0}) {
        Json flute = blank_tube(10, 2, 150);
        flute["sound_hole"]["length_mm"] = length_mm;
        CAPTURE(length_mm);
        const auto all = proposed(flute);
        const Json answer = asked("voice", flute);
        int compared = 0;
        for (const Json& part : answer["as_cut"]["parts"]) {
            const auto found = all.find(part["path"].get<std::string>());
            if (found == all.end()) continue;
            CAPTURE(found->first);
            CHECK(part["known"] == "taken");
            CHECK_THAT(found->second["mm"].get<double>(),
                       WithinAbs(part["mm"].get<double>(), 1e-9));
            ++compared;
        }
        CHECK(compared == 4);  // ramp, edge, the block's height and width
    }
}

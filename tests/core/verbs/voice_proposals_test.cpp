// tests/core/verbs/voice_proposals_test.cpp -- what a maker might begin with.
#include <catch2/catch.hpp>
#include <cmath>
#include <map>

#include "core/verbs/voice/voice_parts.hpp"
#include "tests/core/verbs/voice_flutes.hpp"
#include "tests/support/flutes.hpp"

using namespace canewright;
using canewright::testing::advised;
using canewright::testing::asked;
using canewright::testing::blank_tube;
using canewright::testing::Dice;
using canewright::testing::large_flute;
using canewright::testing::part_of;
using canewright::testing::proposed;
using canewright::testing::small_flute;
using Catch::WithinAbs;
using samples::with;
using samples::without;

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

// Common practice, no source: on small flutes a sheet of paper (0.1 mm), and most of the air
// through the gap under the block, a few ml a second. Reference  plane Poiseuille flow: with the
// height's cube.
TEST_CASE("where the track is as thin as paper a gap under the block is proposed",
          "[voice][trade]") {
    const Json tube = blank_tube(9, 1.5, 80);
    const auto all = proposed(tube);
    REQUIRE(all.count("track.block_gap_mm") == 1);
    CHECK_THAT(all.at("track.block_gap_mm")["mm"].get<double>(),
               WithinAbs(all.at("track.depth_mm")["mm"].get<double>(), 1e-9));
    CHECK(all.at("track.block_gap_mm")["of"] == all.at("track.depth_mm")["of"]);
    const Json voice = asked("voice", tube)["with_proposed"];
    CHECK(voice["band"] == "out");
    CHECK(voice["flow_gap_from"] == "proposed");
    CHECK(voice["flow_gap_mm"] == all.at("track.block_gap_mm")["mm"]);
    for (const std::size_t end : {0U, 1U}) {
        const double flow_ml_s = voice["flow_range_ml_s"][end];
        const double sealed_ml_s = voice["flow_sealed_ml_s"][end];
        // blown hard, the flow's own pressure takes some of it
        CHECK(flow_ml_s / sealed_ml_s < 8.0);
        CHECK(flow_ml_s / sealed_ml_s > (end == 0 ? 7.2 : 5.0));
    }
    CHECK(voice["flow_range_ml_s"][0] < 5.0);
    CHECK(voice["flow_range_ml_s"][1] > 5.0);

    // changed with the track's depth; none on a bore of 19 mm, none without a block
    CHECK(proposed(with(tube, "/track", {{"depth_mm", 0.15}})).at("track.block_gap_mm")["mm"] ==
          0.15);
    CHECK(proposed(with(tube, "/track", {{"depth_mm", 0.2}})).count("track.block_gap_mm") == 0);
    CHECK(proposed(blank_tube(19, 3, 160)).count("track.block_gap_mm") == 0);
    CHECK(proposed(with(tube, "/block", "none")).count("track.block_gap_mm") == 0);
    // a track that is there with a gap that nobody has said
    const Json there = asked(
        "voice", with(tube, "/track", {{"depth_mm", 0.1}, {"width_mm", 5}, {"length_mm", 9}}));
    CHECK(there["voice"]["flow_gap_from"] == "proposed");
    CHECK_THAT(there["voice"]["flow_gap_mm"].get<double>(), WithinAbs(0.1, 1e-9));
    const Json tied =
        asked("voice",
              with(tube, "/track",
                   {{"depth_mm", 0.1}, {"width_mm", 5}, {"length_mm", 9}, {"block_gap_mm", 0.05}}));
    CHECK(tied["voice"]["flow_gap_from"] == "given");
    CHECK_THAT(tied["voice"]["flow_gap_mm"].get<double>(), WithinAbs(0.05, 1e-9));
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

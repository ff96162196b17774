// tests/core/verbs/voice_advice_test.cpp -- what is advised of a voice: the number that decides,
// and its limit.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "core/jet/calibrate.hpp"
#include "tests/core/verbs/voice_flutes.hpp"

using namespace canewright;
using canewright::testing::advised;
using canewright::testing::asked;
using canewright::testing::blank_tube;
using canewright::testing::large_flute;
using canewright::testing::proposed;
using canewright::testing::small_flute;
using Catch::WithinAbs;
using samples::with;

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
                                 "above_short", "needs_much_air", "gap_high", "track_shallow",
                                 "block_over", "block_back", "edge_thick", "tube_long"})
            CHECK_FALSE(advised(answer, code));
    }
}

TEST_CASE("parts of a voice out of their range are advised on", "[voice]") {
    const Json good = small_flute();
    struct Part {
        const char* code;
        const char* path;   // in the document
        const char* named;  // in the advice
        double mm, limit_mm;
    };
    // limits: half the track's depth, a fifth of the sound hole's length, 0.4 of the wall there, a
    // quarter of the bore, 25 bores, a sheet and a half less than is usual for the bore
    for (const Part& part :
         {Part{"gap_high", "/track/block_gap_mm", "track.block_gap_mm", 0.3, 0.25},
          Part{"block_over", "/block/front_mm", "block.front_mm", -0.5, 0.0},
          Part{"block_back", "/block/front_mm", "block.front_mm", 1.2, 0.8},
          Part{"edge_thick", "/sound_hole/edge_mm", "sound_hole.edge_mm", 0.6, 0.52},
          Part{"hole_small", "/finger_holes/1/diameter_mm", "finger_holes[1].diameter_mm", 2.0,
               2.25}}) {
        CAPTURE(part.code);
        CHECK_FALSE(advised(asked("voice", good), part.code));
        const Json answer = asked("voice", with(good, part.path, part.mm));
        const Json* found = advised(answer, part.code);
        REQUIRE(found);
        CHECK((*found)["path"] == part.named);
        CHECK_THAT((*found)["value"].get<double>(), WithinAbs(part.mm, 1e-9));
        CHECK_THAT((*found)["limit"].get<double>(), WithinAbs(part.limit_mm, 1e-9));
    }
    CHECK_FALSE(advised(asked("voice", large_flute()), "tube_long"));
    Json lengthy = large_flute();
    lengthy["tube"]["end_mm"] = 520;
    lengthy["foot_mm"] = 500;
    const Json long_answer = asked("voice", lengthy);
    REQUIRE(advised(long_answer, "tube_long"));
    CHECK((*advised(long_answer, "tube_long"))["value"] == 500);
    CHECK((*advised(long_answer, "tube_long"))["limit"] == 475);
    // 0.25 mm on a bore of 19 mm, where 0.7 is usual
    const Json thin = asked("voice", with(large_flute(), "/track/depth_mm", 0.25));
    REQUIRE(advised(thin, "track_shallow"));
    CHECK_THAT((*advised(thin, "track_shallow"))["limit"].get<double>(), WithinAbs(0.3, 1e-9));
    // the octave furthest off, of which note
    const Json off = asked("voice", good);
    REQUIRE(advised(off, "octave_off"));
    double most_cents = 0.0;
    Json of_note;
    for (const Json& note : off["notes"]) {
        if (note["register"] == 1 || !note["cents_from_octave"].is_number()) continue;
        const double cents = std::abs(note["cents_from_octave"].get<double>());
        if (cents > most_cents) of_note = note["open"];
        most_cents = std::max(most_cents, cents);
    }
    CHECK((*advised(off, "octave_off"))["value"].get<double>() == Approx(most_cents));
    CHECK((*advised(off, "octave_off"))["open"] == of_note);
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

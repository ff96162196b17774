// tests/core/verbs/voice_faults_test.cpp -- the fault guide: its data, and the order for a flute.
#include "core/verbs/voice/voice_faults.hpp"

#include <catch2/catch.hpp>
#include <set>

#include "tests/core/verbs/voice_flutes.hpp"

using namespace canewright;
using canewright::testing::asked;
using canewright::testing::large_flute;
using canewright::testing::part_of;
using canewright::testing::small_flute;
using samples::with;

namespace {

Json causes_of(const Json& flute, const std::string& symptom) {
    for (const Json& fault : part_of(asked("voice", flute), "faults"))
        if (fault["symptom"] == symptom) return fault["causes"];
    FAIL("no symptom " + symptom);
    return {};
}

std::size_t place_of(const Json& causes, const char* code) {
    for (std::size_t n = 0; n < causes.size(); ++n)
        if (causes[n]["code"] == code) return n;
    FAIL("no cause " << code);
    return 0;
}

}  // namespace

TEST_CASE("every symptom is answered, each with something to try first", "[voice]") {
    for (const char* symptom : {"hisses_only", "airy", "squeals", "lowest_weak", "only_top",
                                "wobbles", "good_until_tied", "chokes_wet", "one_hole_weak"}) {
        CAPTURE(symptom);
        const Json causes = causes_of(large_flute(), symptom);
        CHECK(causes.size() >= 5);
        CHECK(causes[0]["first"] == true);
        std::set<std::string> codes;
        for (const Json& cause : causes) codes.insert(cause["code"].get<std::string>());
        CHECK(codes.size() == causes.size());
    }
    CHECK(asked("voice", large_flute())["faults"].size() == 9);
}

TEST_CASE("nothing is taken away before all that can be undone was tried", "[voice][property]") {
    const std::vector<Json> flutes = {
        small_flute(), large_flute(), with(large_flute(), "/track/depth_mm", 2.2),
        with(large_flute(), "/track/depth_mm", 0.2), with(small_flute(), "/block/front_mm", -1.5)};
    for (const Json& flute : flutes)
        for (const Json& fault : part_of(asked("voice", flute), "faults")) {
            bool removed = false;
            for (const Json& cause : fault["causes"]) {
                CAPTURE(fault["symptom"].dump(), cause.dump());
                removed = removed || cause["removes"] == true;
                if (cause["first"] == true) CHECK_FALSE(removed);
                CHECK_FALSE((cause["first"] == true && cause["removes"] == true));
            }
            CHECK(removed);
        }
}

TEST_CASE("two flutes look for the same fault in another order", "[voice]") {
    // too deep a track, or a block that stands over the opening
    const Json deep = causes_of(with(large_flute(), "/track/depth_mm", 2), "hisses_only");
    const Json over = causes_of(with(large_flute(), "/block", {{"front_mm", -1}}), "hisses_only");
    CHECK(deep[0]["code"] == "track_high_lower_block");
    CHECK(deep[0]["number"]["what"] == "ratio_low");
    CHECK(deep[0]["number"]["value"] == 2.5);
    CHECK(deep[0]["number"]["limit"] == 3);
    CHECK(deep[0]["number"]["out"] == true);
    CHECK(over[0]["code"] == "block_over_opening");
    CHECK(over[0]["number"]["path"] == "block.front_mm");
    CHECK(over[0]["number"]["value"] == -1);
    // and of what removes material the one whose number is out comes first
    CHECK(place_of(deep, "sound_hole_short") < place_of(deep, "edge_thick"));
    CHECK(place_of(over, "edge_thick") < place_of(over, "sound_hole_short"));
}

TEST_CASE("the further a number is out the sooner it is looked at", "[voice]") {
    const auto weight = [](double depth_mm) {
        const Json causes = causes_of(with(large_flute(), "/track/depth_mm", depth_mm), "airy");
        return causes[place_of(causes, "track_high_lower_block")]["weight"].get<double>();
    };
    CHECK(weight(1.0) < 1.0);
    CHECK(weight(2.0) > 1.0);
    CHECK(weight(2.4) > weight(2.0));
}

TEST_CASE("a number that nobody measured is null", "[voice]") {
    const Json causes = causes_of(large_flute(), "airy");
    CHECK(causes[place_of(causes, "block_not_sealing")]["number"].is_null());
    CHECK(causes[place_of(causes, "track_rough")]["number"].is_null());
    const Json gap = causes_of(with(large_flute(), "/track/block_gap_mm", 0.7), "airy");
    CHECK(gap[0]["code"] == "block_not_sealing");
    CHECK(gap[0]["number"]["value"] == 0.7);
    CHECK(gap[0]["number"]["limit"] == 0.5);
}

// Each number of the guide can be out, or the guide could not order by it.
TEST_CASE("every number of the guide can decide", "[voice]") {
    Json wide = large_flute();
    wide["track"]["width_mm"] = 8;
    Json back = with(small_flute(), "/block/front_mm", 2);
    Json thick = with(small_flute(), "/sound_hole/edge_mm", 0.9);
    Json long_one = with(small_flute(), "/tube/end_mm", 300);
    long_one["foot_mm"] = 290;
    Json tiny = with(small_flute(), "/finger_holes/2/diameter_mm", 1.5);
    Json shallow = with(small_flute(), "/track/depth_mm", 0.06);
    const auto out = [](const Json& flute, const char* symptom, const char* code) {
        const Json causes = causes_of(flute, symptom);
        const Json number = causes[place_of(causes, code)]["number"];
        CAPTURE(number.dump());
        return number.is_object() && number["out"] == true;
    };
    CHECK(out(wide, "airy", "sound_hole_wider_than_track"));
    CHECK(out(back, "airy", "block_too_far_back"));
    CHECK(out(thick, "airy", "edge_thick"));
    CHECK(out(long_one, "lowest_weak", "tube_long_for_bore"));
    CHECK(out(tiny, "one_hole_weak", "hole_small"));
    CHECK(out(shallow, "chokes_wet", "track_shallow"));
    CHECK(out(small_flute(), "wobbles", "octave_far_off"));
    CHECK(out(with(large_flute(), "/track/depth_mm", 0.4), "hisses_only", "track_shallow"));
    CHECK(out(with(small_flute(), "/tube/above_mm", 40), "chokes_wet", "chamber_small"));
}

// Common practice, no source: a sheet of paper on bores up to 10 mm. What is usual there is no
// fault.
TEST_CASE("a track as thin as paper is no fault of a small flute", "[voice][trade]") {
    Json small = with(small_flute(), "/track/depth_mm", 0.1);
    small["track"]["block_gap_mm"] = 0.1;
    const Json large = with(large_flute(), "/track/depth_mm", 0.2);
    struct Cause {
        const char* symptom;
        const char* code;
    };
    for (const Cause& one :
         {Cause{"hisses_only", "track_shallow"}, Cause{"hisses_only", "track_shallow_shim_block"},
          Cause{"chokes_wet", "track_shallow"}, Cause{"chokes_wet", "water_in_track"},
          Cause{"good_until_tied", "track_shallow_shim_block"}}) {
        CAPTURE(one.symptom, one.code);
        const Json here = causes_of(small, one.symptom), there = causes_of(large, one.symptom);
        CHECK(here[place_of(here, one.code)]["number"]["out"] == false);
        CHECK(there[place_of(there, one.code)]["number"]["out"] == true);
    }
    // nor is the gap that lets its air through
    for (const char* symptom : {"hisses_only", "airy", "squeals"}) {
        const Json here = causes_of(small, symptom);
        CHECK(here[place_of(here, "block_not_sealing")]["number"]["out"] == false);
    }
    small["track"]["block_gap_mm"] = 0.4;
    const Json high = causes_of(small, "airy");
    CHECK(high[0]["code"] == "block_not_sealing");
    CHECK_THAT(high[0]["number"]["limit"].get<double>(), Catch::WithinAbs(0.2, 1e-9));
}

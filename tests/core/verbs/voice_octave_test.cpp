// tests/core/verbs/voice_octave_test.cpp -- where a note goes over to its octave and back, whether
// the octave is clean, and notes that end before they are in tune.
#include <catch2/catch.hpp>

#include "tests/core/verbs/voice_flutes.hpp"

using namespace canewright;
using canewright::testing::advised;
using canewright::testing::asked;
using canewright::testing::document_file;
using canewright::testing::large_flute;
using canewright::testing::part_of;
using canewright::testing::small_flute;
using samples::with;
using samples::without;

namespace {

Json laid_out(const char* name) {
    const Json given = document_file(name);
    return given.contains("song") ? asked("layout", given) : given;
}

// Invented: a narrow one whose holes lie far apart, and one whose only hole lies so high that the
// first register of the tube below it answers hardly at all.
Json narrow_flute() {
    return Json::parse(R"json({
      "format": "canewright/1",
      "tube": {"bore": [{"at_mm": 0, "diameter_mm": 12}], "wall_mm": 3.7, "end_mm": 435.4,
               "above_mm": 120},
      "sound_hole": {"length_mm": 6.1, "width_mm": 9.3},
      "track": {"depth_mm": 0.7, "width_mm": 9.3, "length_mm": 10.5},
      "foot_mm": 425.4,
      "finger_holes": [{"at_mm": 155.7, "diameter_mm": 4.7}, {"at_mm": 257.8, "diameter_mm": 3.6},
                       {"at_mm": 300.7, "diameter_mm": 5}, {"at_mm": 369.6, "diameter_mm": 5.2}],
      "notes": [{"open": []}, {"open": [4]}, {"open": [3, 4]}, {"open": [1, 2, 3, 4]}]
    })json");
}

Json gaping_flute() {
    return Json::parse(R"json({
      "format": "canewright/1",
      "tube": {"bore": [{"at_mm": 0, "diameter_mm": 12}], "wall_mm": 2.3, "end_mm": 389.6,
               "above_mm": 120},
      "sound_hole": {"length_mm": 3.6, "width_mm": 7.1},
      "track": {"depth_mm": 0.84, "width_mm": 7.1, "length_mm": 27.4},
      "foot_mm": 379.6,
      "finger_holes": [{"at_mm": 134.7, "diameter_mm": 5.4}],
      "notes": [{"open": []}, {"open": [1]}]
    })json");
}

}  // namespace

// Where the jet's model names no breath, it names none to fall back at either; everywhere else a
// second register ends somewhere, and the first has been heard to take over (the test
// 'registers jump where they do in time' holds both against the equations in time).
TEST_CASE("of usual flutes every octave says where it falls back", "[voice][property]") {
    for (const char* name : {"tube", "build", "full_log", "six_holes", "flute"}) {
        CAPTURE(name);
        int told = 0;
        const Json notes = asked("voice", laid_out(name))["notes"];
        for (std::size_t n = 1; n < notes.size(); n += 2) {
            CAPTURE(notes[n].dump());
            if (notes[n]["pa"].is_null()) continue;
            ++told;
            REQUIRE(notes[n]["falls_back_pa"].is_number());
            CHECK(notes[n]["falls_back_pa"] > 0);
            CHECK(notes[n]["falls_back_pa"] < notes[n]["pa"]["at_pitch"]);
            if (notes[n]["jump_gap"].is_null()) {
                CHECK(notes[n]["null_why"]["jump_gap"].is_string());
                continue;
            }
            const double gap = notes[n]["jump_gap"];
            CHECK(gap == notes[n - 1]["jumps_up_pa"].get<double>() /
                             notes[n]["falls_back_pa"].get<double>());
            CHECK(gap >= 1.0);
        }
        CHECK(told >= 1);
    }
}

// The first register has no gain there: blown softer, the second has nothing to fall back to.
TEST_CASE("an octave that has no first register below it falls silent", "[voice]") {
    const Json notes = asked("voice", gaping_flute())["notes"];
    REQUIRE(notes.size() == 4);
    CHECK(notes[1]["falls_back_pa"].is_number());
    CHECK(notes[2]["why"]["code"] == "no_gain");
    CHECK(notes[3]["falls_back_pa"].is_null());
    CHECK(notes[3]["null_why"]["falls_back_pa"] == "falls_silent");
    CHECK(notes[3]["null_why"]["jump_gap"] == "no_jump");
    CHECK(notes[3]["pa"]["soft"].is_number());
}

TEST_CASE("the way from the jump to the falling back is told where the jet is good at both",
          "[voice]") {
    const Json good = asked("voice", large_flute())["notes"];
    CHECK(good[1]["jump_gap"].is_number());
    // a track so low that the jet is rough at every breath of the lowest note
    const Json rough = asked("voice", with(large_flute(), "/track/depth_mm", 0.62))["notes"];
    REQUIRE(rough[1]["falls_back_pa"].is_number());
    CHECK(rough[1]["null_why"]["jump_gap"] == "rough_band");
}

// Clean as core/jet/octave defines it; what the answer says of it.
TEST_CASE("every note says whether its octave is there and clean, and how far off", "[voice]") {
    int clean = 0;
    const std::vector<Json> flutes = {large_flute(),     small_flute(),        narrow_flute(),
                                      gaping_flute(),    laid_out("tube"),     laid_out("full_log"),
                                      laid_out("flute"), laid_out("six_holes")};
    for (const Json& flute : flutes) {
        const Json notes = asked("voice", flute)["notes"];
        for (std::size_t n = 0; n < notes.size(); n += 2) {
            CAPTURE(notes[n].dump(), notes[n + 1].dump());
            CHECK_FALSE(notes[n].contains("octave"));
            const Json& second = notes[n + 1];
            const Json& octave = second["octave"];
            CHECK(octave["there"] == second["hz"].is_number());
            CHECK((octave["clean"] == true) == octave["why"].is_null());
            if (octave["why"].is_object()) CHECK(octave["why"]["code"].is_string());
            if (octave["clean"] != true) continue;
            ++clean;
            // one that is clean has a breath at which it is in tune and holds
            CHECK(octave["there"] == true);
            CHECK(second["band"] != "out");
            CHECK(second["pitch_kept_by"].is_null());
            CHECK(second["pa"]["soft"] < second["pa"]["at_pitch"]);
            CHECK(second["cents_from_octave"].is_number());
        }
    }
    CHECK(clean > 15);
}

TEST_CASE("an octave that is not clean says why, with the number", "[voice]") {
    // six holes, all open: blown harder the note slips away long before its octave holds
    const Json notes = part_of(asked("voice", laid_out("six_holes")), "notes");
    const Json& first = notes[notes.size() - 2];
    const Json& second = notes[notes.size() - 1];
    const Json why = second["octave"]["why"];
    CHECK(second["octave"]["clean"] == false);
    CHECK(why["code"] == "not_where_it_jumps");
    CHECK(why["value"] == second["pa"]["soft"]);
    CHECK(why["limit"] == first["pa"]["hard"]);
    CHECK(why["value"] > why["limit"]);
    CHECK(second["null_why"]["jump_gap"] == "neither_between");
    // a resonance there is none of
    const Json none = part_of(asked("voice", small_flute()), "notes").back();
    CHECK(none["octave"]["there"] == false);
    CHECK(none["octave"]["clean"] == false);
    CHECK(none["octave"]["why"] == none["why"]);
    // two more modes than an octave has room for
    const Json crowded = part_of(asked("voice", narrow_flute()), "notes").back();
    CHECK(crowded["octave"]["there"] == true);
    CHECK(crowded["octave"]["clean"] == false);
}

TEST_CASE("of an octave beyond the model nothing is promised", "[voice]") {
    // a voice of which no breath is foretold, and a register whose jet alone is too fast
    const std::vector<Json> flutes = {with(small_flute(), "/track/depth_mm", 0.08),
                                      with(small_flute(), "/sound_hole/length_mm", 4.6)};
    int out = 0, told = 0;
    for (const Json& flute : flutes)
        for (const Json& note : part_of(asked("voice", flute), "notes")) {
            if (note["register"] == 1 || note["hz"].is_null()) continue;
            CAPTURE(note.dump());
            if (note["band"] != "out") {
                ++told;
                continue;
            }
            ++out;
            CHECK(note["octave"]["there"] == true);
            CHECK(note["octave"]["clean"].is_null());
            CHECK(note["octave"]["why"]["code"] == note["why"]["code"]);
        }
    CHECK(out >= 4);
    CHECK(told >= 1);
}

// Every register whose end lies on the wrong side of its own pitch, and no other.
TEST_CASE("a register that is not to be had at its pitch is told", "[voice][property]") {
    int dies = 0;
    for (const Json& flute : {narrow_flute(), large_flute(), laid_out("six_holes")})
        for (const Json& note : part_of(asked("voice", flute), "notes")) {
            CAPTURE(note.dump());
            if (note["pa"].is_null()) {
                CHECK(note["pitch_kept_by"].is_null());
                continue;
            }
            const Json& pa = note["pa"];
            const bool ends = pa["hard"].is_number() && pa["hard"] < pa["at_pitch"];
            const bool begins = pa["soft"].is_number() && pa["soft"] > pa["at_pitch"];
            CHECK(note["pitch_kept_by"].is_null() == !(ends || begins));
            if (ends && note["jumps_up_pa"].is_null()) {
                CHECK(note["pitch_kept_by"] == "dies_before");
                ++dies;
            } else if (ends) {  // none of these flutes': octave_test has one
                CHECK(note["pitch_kept_by"] == "jumps_before");
            }
        }
    CHECK(dies >= 2);
}

TEST_CASE("a note that dies before its pitch is advised on, the worst of them", "[voice]") {
    const Json json = asked("voice", narrow_flute());
    const Json* found = advised(json, "dies_before_pitch");
    REQUIRE(found);
    const Json& one = *found;
    CHECK(one["path"] == "notes");
    CHECK(one["open"] == Json{1, 2, 3, 4});
    const Json note = json["notes"][6];
    CHECK(note["open"] == one["open"]);
    CHECK(one["value"] == note["pa"]["hard"]);
    CHECK(one["limit"] == note["pa"]["at_pitch"]);
    CHECK_FALSE(advised(asked("voice", large_flute()), "dies_before_pitch"));
}

// tests/core/verbs/voice_test.cpp -- the breath that a flute wants, through the boundary.
#include "core/verbs/voice/voice.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/units.hpp"
#include "tests/core/verbs/voice_flutes.hpp"

using namespace canewright;
using canewright::testing::asked;
using canewright::testing::large_flute;
using canewright::testing::part_of;
using canewright::testing::small_flute;
using Catch::WithinAbs;
using Catch::WithinRel;
using samples::with;
using samples::without;

// Reference  the design speed U = 4 f W / c_v at c_v = 0.4 (physics notes of this project, 6),
//            nu of air near 25 C 1.6e-5 m2/s, a breath of 3 litres.
TEST_CASE("the lowest note's design breath follows from pitch, sound hole and track",
          "[voice][derived]") {
    const Json json = asked("voice", large_flute());
    const Json& voice = json["voice"];
    const double hz = json["notes"][0]["hz"].get<double>();
    const double speed = voice["jet_m_s"].get<double>();
    CHECK_THAT(speed, WithinRel(10.0 * hz * 5e-3, 1e-6));
    CHECK(voice["ratio"] == 5);
    CHECK_THAT(voice["reynolds"].get<double>(), WithinRel(speed * 1e-3 / 1.6e-5, 0.05));
    // between the mean speed of a developed profile and of a flat one
    const double flow = voice["flow_ml_s"].get<double>();
    CHECK(flow < speed * 1e-3 * 10e-3 * 1e6);
    CHECK(flow > speed * 1e-3 * 10e-3 * 1e6 / 1.5);
    CHECK_THAT(voice["seconds"].get<double>(), WithinRel(3000.0 / flow, 1e-12));
    CHECK(voice["band"] == "good");
    CHECK(voice["why"].is_null());
    CHECK(json["missing"].empty());
    CHECK(json["from"] == "given");
    CHECK(json["with_proposed"].is_null());
    CHECK(json["calibrated"].is_null());
    CHECK_FALSE(json.contains("calibrated_why"));
}

TEST_CASE("every fingering is blown in two registers, at the pitch that sound gives",
          "[voice][property]") {
    for (const Json& flute : {small_flute(), large_flute()}) {
        const Json json = asked("voice", flute);
        const Json heard = asked("sound", flute)["notes"];
        REQUIRE(json["notes"].size() == 2 * heard.size());
        for (std::size_t n = 0; n < heard.size(); ++n) {
            const Json& first = json["notes"][2 * n];
            const Json& second = json["notes"][2 * n + 1];
            CHECK(first["open"] == heard[n]["open"]);
            CHECK(first["register"] == 1);
            CHECK(second["register"] == 2);
            CHECK(first["hz"] == heard[n]["hz"]);
            CHECK(second["hz"] == heard[n]["second_hz"]);
            CHECK(second["cents_from_octave"].is_null() == second["hz"].is_null());
            if (second["hz"].is_number())
                CHECK_THAT(
                    second["cents_from_octave"].get<double>(),
                    WithinAbs(cents_between(second["hz"], 2.0 * first["hz"].get<double>()), 1e-9));
            CHECK(first["pa"]["soft"] < first["pa"]["at_pitch"]);
            CHECK(first["cents_soft"] < 0);
            CHECK_THAT(first["water_mm"]["at_pitch"].get<double>() * 9.80665,
                       WithinRel(first["pa"]["at_pitch"].get<double>(), 1e-12));
        }
    }
}

TEST_CASE("a mark that is null says why", "[voice][property]") {
    const std::vector<Json> flutes = {
        small_flute(), large_flute(), without(large_flute(), "/track"),
        with(small_flute(), "/track/depth_mm", 0.1),
        with(large_flute(), "/tube/ridge", {{"at_mm", 20}, {"opening_mm", 1}})};
    int nulls = 0;
    for (const Json& flute : flutes)
        for (const Json& note : part_of(asked("voice", flute), "notes")) {
            CAPTURE(note.dump());
            if (note["pa"].is_null()) {
                CHECK(note["why"]["code"].is_string());
                CHECK(note["jumps_up_pa"].is_null());
                ++nulls;
                continue;
            }
            for (const char* key : {"soft", "at_pitch", "hard"})
                CHECK(note["pa"][key].is_null() == note["null_why"].contains(key));
            for (const char* key : {"jumps_up_pa", "falls_back_pa"})
                CHECK(note[key].is_null() == note["null_why"].contains(key));
            CHECK((note["band"] == "good") != note.contains("why"));
        }
    CHECK(nulls > 8);
}

TEST_CASE("an uncalibrated pressure is as sure as its band", "[voice]") {
    for (const Json& note : part_of(asked("voice", large_flute()), "notes")) {
        if (note["band"] == "good") CHECK(note["pa_factor"] == 1.4);
        if (note["band"] == "rough") {
            CHECK(note["pa_factor"] == 2.0);
            // where it falls back is as sure as its softest breath; how far under the jump is not
            if (note["register"] == 2) CHECK(note["falls_back_pa"] == note["pa"]["soft"]);
        }
    }
}

TEST_CASE("without a track the proposals are blown, and said to be", "[voice][property]") {
    const Json bare = without(large_flute(), "/track");
    const Json json = asked("voice", bare);
    CHECK(json["voice"].is_null());
    CHECK(json["missing"] == Json{"track.depth_mm", "track.width_mm", "track.length_mm"});
    CHECK(json["from"] == "proposed");
    Json taken = bare;
    for (const Json& each : json["proposed"])
        if (each["path"].get<std::string>().rfind("track.", 0) == 0)
            taken["track"][each["path"].get<std::string>().substr(6)] = each["mm"];
    REQUIRE(taken["track"].size() == 3);
    const Json with_them = asked("voice", taken);
    CHECK(with_them["voice"]["pa"].get<double>() == Approx(json["with_proposed"]["pa"]));
    CHECK(with_them["voice"]["band"] == json["with_proposed"]["band"]);
    CHECK(with_them["from"] == "given");
    // what is given of a track stays
    const Json part = asked("voice", with(bare, "/track/depth_mm", 0.9));
    CHECK(part["missing"] == Json{"track.width_mm", "track.length_mm"});
    CHECK_THAT(part["with_proposed"]["ratio"].get<double>(), WithinRel(5.0 / 0.9, 1e-12));
}

// Reference  plane Poiseuille flow, Q = p h^3 H / (12 mu l), mu 1.84e-5 Pa s near 25 C.
// Tolerance  5 %: what the entrance and the flow's own pressure cost at 1000 Pa is 3 %.
TEST_CASE("beyond the model there is no map, but what the track lets through",
          "[voice][analytic]") {
    Json flute = with(small_flute(), "/track/depth_mm", 0.08);
    const auto range = [&](double height_mm) {
        const Json json = asked("voice", flute);
        CHECK(json["voice"]["band"] == "out");
        CHECK(json["voice"]["why"]["code"] == "reynolds");
        CHECK(json["voice"]["why"]["value"] < json["voice"]["why"]["limit"]);
        CHECK(json["voice"]["flow_ml_s"].is_null());
        CHECK(json["voice"]["flow_range_why"] == "friction_only");
        for (const Json& note : json["notes"]) {
            CHECK(note["pa"].is_null());
            CHECK((note["hz"].is_number() || note["why"]["code"] == "faint_register"));
        }
        CHECK(json["notes"][0]["hz"].is_number());
        for (const std::size_t end : {0U, 1U}) {
            const double pressure_Pa = end == 0 ? 100.0 : 1000.0;
            const double flow_ml_s =
                pressure_Pa * std::pow(height_mm * 1e-3, 3) * 5e-3 / (12.0 * 1.84e-5 * 10e-3) * 1e6;
            CHECK_THAT(json["voice"]["flow_range_ml_s"][end].get<double>(),
                       WithinRel(flow_ml_s, 0.05));
        }
    };
    range(0.08);
    flute["track"]["block_gap_mm"] = 0.02;
    range(0.1);
}

TEST_CASE("the lowest note alone is blown where no holes are planned", "[voice]") {
    for (const bool song : {false, true}) {
        Json bare = without(without(large_flute(), "/finger_holes"), "/notes");
        bare.erase("foot_mm");
        if (song) bare["song"] = {{"lowest", "G4"}, {"scale", "minor pentatonic"}, {"holes", 5}};
        const Json json = asked("voice", bare);
        REQUIRE(json["notes"].size() == 2);
        CHECK(json["notes"][0]["open"].empty());
        CHECK(json["notes"][0]["pa"]["at_pitch"] == json["voice"]["pa"]);
    }
}

TEST_CASE("voice needs tube and sound hole, and the song of holes cut without a plan", "[voice]") {
    const auto refused = [](const Json& document) {
        std::vector<std::string> paths;
        for (const Json& each :
             part_of(Json::parse(run_workshop("voice", document.dump())), "violations"))
            paths.push_back(each["path"]);
        return paths;
    };
    CHECK(refused({{"format", "canewright/1"}}) == std::vector<std::string>{"tube", "sound_hole"});
    Json cut = without(without(large_flute(), "/finger_holes"), "/notes");
    cut["log"] = {{{"hole", {{"number", 1}, {"at_mm", 250}, {"diameter_mm", 7}}}}};
    CHECK(refused(cut) == std::vector<std::string>{"song"});
    cut["song"] = {{"lowest", "G4"}, {"scale", {{"cents", {0, 300}}}}, {"holes", 1}};
    CHECK(asked("voice", cut)["notes"].size() == 4);  // two steps, two registers
    CHECK(refused(with(large_flute(), "/pattern", {{"means", "x"}})).size() > 0);
}

TEST_CASE("a lossless air has a jet all the same", "[voice]") {
    const Json json = asked(
        "voice", with(large_flute(), "/air",
                      {{"sound_speed_m_s", 345}, {"density_kg_m3", 1.18}, {"lossless", true}}));
    CHECK(json["voice"]["reynolds"] < 2000);
    CHECK(json["as_cut"]["lowest_cents"] == 0);
}

// tests/core/verbs/voice_log_test.cpp -- a voice as its log has left it, and what one pressure
// says.
#include <catch2/catch.hpp>

#include "core/base/units.hpp"
#include "core/jet/calibrate.hpp"
#include "tests/core/verbs/voice_flutes.hpp"

using namespace canewright;
using canewright::testing::asked;
using canewright::testing::large_flute;
using Catch::WithinRel;
using samples::without;

namespace {

Json breath(double pressure_Pa, const char* what, const Json& open = Json::array()) {
    return {{"breath", {{"open", open}, {"pa", pressure_Pa}, {"what", what}}}};
}

// The large flute, sawn and drilled as it was planned, and what was blown.
Json built_and(const std::vector<Json>& entries) {
    Json json = large_flute();
    json["log"] = {{{"foot", {{"at_mm", 385}}}}};
    for (std::size_t n = 4; n-- > 0;) {
        const Json& hole = json["finger_holes"][n];
        json["log"].push_back({{"hole",
                                {{"number", n + 1},
                                 {"at_mm", hole["at_mm"]},
                                 {"diameter_mm", hole["diameter_mm"]}}}});
    }
    for (const Json& entry : entries) json["log"].push_back(entry);
    return json;
}

}  // namespace

TEST_CASE("one pressure in the log calibrates the map", "[voice][property]") {
    const Json plain = asked("voice", built_and({}));
    CHECK(plain["calibrated"].is_null());
    const double up_Pa = plain["notes"][0]["jumps_up_pa"].get<double>();
    const double own_Pa = plain["notes"][0]["pa"]["at_pitch"].get<double>();

    const Json jumped = asked("voice", built_and({breath(1.05 * up_Pa, "jumps up")}));
    CHECK_THAT(jumped["notes"][0]["jumps_up_pa"].get<double>(),
               WithinRel(1.05 * up_Pa, 3.0 * kPressureError));
    CHECK(jumped["calibrated"]["from_entry"] == 5);
    CHECK(jumped["calibrated"]["factor"] < 1.0);
    CHECK(jumped["calibrated"]["band_factor"] == kJumpToPitch);
    CHECK(jumped["notes"][0]["pa_factor"] == kJumpToPitch);
    CHECK(jumped["notes"][0]["pa_factors"]["hard"] == kSameMark);
    // no surer of the fall back than the band is anyway
    CHECK(jumped["notes"][0]["pa_factors"]["soft"] == 1.4);
    CHECK(jumped["voice"]["pa"] > own_Pa);
    CHECK(jumped["voice"]["pa"] == jumped["notes"][0]["pa"]["at_pitch"]);

    const Json pitched = asked("voice", built_and({breath(1.2 * own_Pa, "at pitch")}));
    CHECK_THAT(pitched["notes"][0]["pa"]["at_pitch"].get<double>(),
               WithinRel(1.2 * own_Pa, 3.0 * kPressureError));
    CHECK(pitched["calibrated"]["band_factor"] == kSameMark);

    const double back_Pa = plain["notes"][1]["pa"]["soft"].get<double>();
    const Json fell = asked("voice", built_and({breath(0.9 * back_Pa, "falls back")}));
    CHECK_THAT(fell["notes"][1]["pa"]["soft"].get<double>(),
               WithinRel(0.9 * back_Pa, 3.0 * kPressureError));
}

TEST_CASE("the last breath counts, of the flute as it stood and of the voice as it is",
          "[voice][property]") {
    const double up_Pa = asked("voice", built_and({}))["notes"][0]["jumps_up_pa"].get<double>();
    const Json first = breath(1.1 * up_Pa, "jumps up");
    const Json last = breath(1.05 * up_Pa, "jumps up");
    CHECK(asked("voice", built_and({first, last}))["calibrated"] == [&] {
        Json json = asked("voice", built_and({last}))["calibrated"];
        json["from_entry"] = 6;
        return json;
    }());
    // sawn since: the same jet, another lowest note
    const Json sawn = asked("voice", built_and({last, {{"foot", {{"at_mm", 375}}}}}));
    CHECK_THAT(
        sawn["calibrated"]["factor"].get<double>(),
        WithinRel(asked("voice", built_and({last}))["calibrated"]["factor"].get<double>(), 5e-3));
    CHECK(sawn["notes"][0]["jumps_up_pa"] > 0.9 * up_Pa);
    for (const Json& change :
         {Json{{"block", "moved"}}, Json{{"sound_hole", {{"length_mm", 5.2}, {"width_mm", 10}}}}}) {
        const Json changed = asked("voice", built_and({last, change}));
        CHECK(changed["calibrated"].is_null());
        CHECK(changed["calibrated_why"] == "voice_changed");
    }
    const Json absurd = asked("voice", built_and({breath(up_Pa * 8.0, "jumps up")}));
    CHECK(absurd["calibrated"].is_null());
    CHECK(absurd["calibrated_why"] == "not_this_jet");
    CHECK(absurd["notes"][0]["jumps_up_pa"] == up_Pa);
    const Json proposed = asked("voice", without(built_and({last}), "/track"));
    CHECK(proposed["calibrated_why"] == "track_not_described");
}

TEST_CASE("a log is about the flute as it stands", "[voice]") {
    Json json = large_flute();
    json["log"] = {{{"foot", {{"at_mm", 400}}}},
                   {{"hole", {{"number", 4}, {"at_mm", 300}, {"diameter_mm", 8}}}}};
    const Json standing = asked("voice", json);
    CHECK(standing["notes"][0]["hz"] < asked("voice", large_flute())["notes"][0]["hz"]);
    CHECK(standing["notes"][2]["hz"].is_number());
    CHECK(standing["notes"][4]["hz"].is_null());
    CHECK(standing["notes"][4]["why"]["code"] == "hole_not_cut");
    json["sounds_as"] = "planned";
    CHECK(asked("voice", json)["notes"][4]["hz"].is_number());
}

// A reading 30 cents flat of the plan's model is believed of the voice too.
TEST_CASE("with a song the flute is as its readings have shown it to be", "[voice]") {
    Json json = built_and({});
    json.erase("notes");
    json["song"] = {
        {"lowest", {{"hz", 390}}}, {"scale", {{"cents", {0, 300, 500, 700, 900}}}}, {"holes", 4}};
    const double before_Hz = asked("voice", json)["notes"][0]["hz"].get<double>();
    CHECK(asked("voice", json)["as_cut"]["sigma_cents"].is_number());
    json["log"].push_back(
        {{"read", {{"open", Json::array()}, {"hz", shifted_Hz(before_Hz, -30.0)}}}});
    const double after_Hz = asked("voice", json)["notes"][0]["hz"].get<double>();
    CHECK(cents_between(after_Hz, before_Hz) < -15.0);
    // Two stations may not say two bands of one note: from now on the bench says how far it is
    // known.
    const Json as_cut = asked("voice", json)["as_cut"];
    CHECK(as_cut["sigma_cents"].is_null());
    CHECK(as_cut.value("sigma_why", "") == "heard");
    CHECK(as_cut["lowest_cents"].is_number());
}

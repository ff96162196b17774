// tests/core/verbs/told_test.cpp -- what a document says reaches the flute and the bench.
#include <catch2/catch.hpp>
#include <cmath>
#include <optional>

#include "core/api.hpp"
#include "core/base/units.hpp"
#include "core/bench/builder.hpp"
#include "core/document/limits.hpp"
#include "core/task/build.hpp"
#include "core/task/task.hpp"
#include "tests/core/document/samples.hpp"

using namespace canewright;

namespace told_test {  // its own where tests are compiled together
using Catch::WithinAbs;
using Catch::WithinRel;
using samples::with;

namespace {

// A tube with every measure's error stated, and a room to play in that is not the maker's.
Json measured_tube() {
    return Json::parse(R"json({
      "format": "canewright/1",
      "air": {"room_c": 17, "humidity_percent": 40, "pressure_kpa": 85},
      "tube": {"bore": [{"at_mm": 0, "diameter_mm": 18}], "wall_mm": 3, "end_mm": 440},
      "sound_hole": {"length_mm": 5, "width_mm": 9.5},
      "song": {"lowest": "G4", "scale": "minor pentatonic", "holes": 5, "play_c": 23,
               "tolerance_cents": 8},
      "shop": {"diameter_mm": {"min": 3, "max": 10}, "spacing_mm": {"min": 16, "max": 40},
               "ruler_mm": 0.4, "bit_mm": 0.5, "bore_mm": 0.36, "wall_mm": 0.6},
      "log": []
    })json");
}

Json noted(Json document, const std::vector<Json>& entries) {
    for (const Json& entry : entries) document["log"].push_back(entry);
    return document;
}

BuildState told_build(const Json& document) {
    const ReadDocument read = samples::read(document);
    REQUIRE(read.violations.empty());
    return build_of(read.document);
}

double heard_Hz(const Json& document) {
    const Json json = Json::parse(run_workshop("sound", document.dump()));
    CAPTURE(json.dump());
    REQUIRE(json.contains("answer"));
    return json["answer"]["notes"][0]["hz"];
}

}  // namespace

// Reference  arithmetic on the errors as typed: independent errors add by squares, shares are of
//            18 mm of bore and 3 mm of wall; a place counts as size by kPlaceAsSize, a saw strays
//            by a quarter of a millimetre (Measures).
TEST_CASE("the bench is told how true each measure is", "[bench][told][analytic]") {
    const BuildState build = told_build(noted(
        measured_tube(),
        {{{"foot", {{"at_mm", 410}}}},
         {{"hole", {{"number", 5}, {"at_mm", 300}, {"diameter_mm", 6}}}},
         {{"hole", {{"number", 4}, {"at_mm", 270}, {"diameter_mm", 6}}}, {"error_mm", 0.25}}}));
    const double place_m = kPlaceAsSize * 0.4e-3;
    const History& h = build.history;
    CHECK_THAT(h.stages.front().foot_sigma_m, WithinRel(0.4e-3, 1e-9));
    CHECK_THAT(h.now().foot_sigma_m, WithinRel(std::hypot(0.4e-3, 0.25e-3), 1e-9));
    CHECK_THAT(h.now().holes[4].size_sigma_m, WithinRel(std::hypot(0.5e-3, place_m), 1e-9));
    CHECK_THAT(h.now().holes[3].size_sigma_m, WithinRel(std::hypot(0.25e-3, place_m), 1e-9));
    CHECK_THAT(build.before.sigma(kBore), WithinRel(0.36 / 18.0, 1e-9));
    CHECK_THAT(build.before.sigma(kWall), WithinRel(0.6 / 3.0, 1e-9));
    CHECK(build.aim.tolerance_cents == 8.0);
}

// Common practice, no source: a steel rule read by eye to 0.3 mm, a saw that strays by a quarter, a
// twist drill true to 0.05, wall and bore to 0.1 (Measures).
TEST_CASE("who states no errors has a usual shop's", "[bench][told][trade]") {
    Json document = measured_tube();
    for (const char* key : {"ruler_mm", "bit_mm", "bore_mm", "wall_mm"})
        document["shop"].erase(key);
    const BuildState build = told_build(
        noted(document, {{{"foot", {{"at_mm", 410}}}},
                         {{"hole", {{"number", 5}, {"at_mm", 300}, {"diameter_mm", 6}}}}}));
    const double place_m = kPlaceAsSize * 0.3e-3;
    CHECK_THAT(build.history.now().foot_sigma_m, WithinRel(std::hypot(0.3e-3, 0.25e-3), 1e-9));
    CHECK_THAT(build.history.now().holes[4].size_sigma_m,
               WithinRel(std::hypot(0.05e-3, place_m), 1e-9));
    CHECK_THAT(build.before.sigma(kBore), WithinRel(0.1 / 18.0, 1e-9));
    CHECK_THAT(build.before.sigma(kWall), WithinRel(0.1 / 3.0, 1e-9));
}

TEST_CASE("an entry's own error stands for that entry", "[bench][told][analytic]") {
    const BuildState build = told_build(noted(
        measured_tube(), {{{"foot", {{"at_mm", 420}, {"error_mm", 0.7}}}},
                          {{"foot", {{"at_mm", 410}}}, {"error_mm", 0.6}},
                          {{"hole", {{"number", 5}, {"at_mm", 300}, {"diameter_mm", 7}}}},
                          {{"narrow", {{"number", 5}, {"diameter_mm", 5}}}, {"error_mm", 0.9}}}));
    const History& h = build.history;
    CHECK_THAT(h.stages[1].foot_sigma_m, WithinRel(0.7e-3, 1e-9));
    CHECK_THAT(h.stages[2].foot_sigma_m, WithinRel(0.6e-3, 1e-9));
    CHECK_THAT(h.now().holes[4].size_sigma_m,
               WithinRel(std::hypot(0.9e-3, kPlaceAsSize * 0.4e-3), 1e-9));
}

TEST_CASE("rooms: of each reading, of the next one, of the player", "[bench][told]") {
    const Json read = {{"read", {{"open", Json::array()}, {"hz", 380}}}};
    Json warm = read, warmer = read;
    warm["room_c"] = 21.5;
    warmer["room_c"] = 26;
    const Json sawn = {{"foot", {{"at_mm", 410}}}};
    const BuildState build = told_build(noted(measured_tube(), {read, warm, sawn, warmer, sawn}));
    REQUIRE(build.history.heard.size() == 3);
    CHECK(build.history.heard[0].room_C == 17.0);
    CHECK(build.history.heard[1].room_C == 21.5);
    CHECK(build.history.heard[2].room_C == 26.0);
    CHECK(build.aim.room_C == 26.0);  // the last one noted, the entry after it has none
    CHECK(build.aim.play_C == 23.0);
    CHECK(build.history.heard[0].sigma_cents == kUsualReading_cents);
    CHECK(build.history.room.pressure_Pa == 85e3);
    CHECK(build.history.room.humidity_fraction == 0.4);
    Json anywhere = measured_tube();
    anywhere["song"].erase("play_c");
    CHECK(told_build(anywhere).aim.play_C == 17.0);
}

// Reference  ideal gas: density goes with pressure. Vapour is lighter than air and its share grows
//            as the pressure falls: less than 1 % here, which is the tolerance.
TEST_CASE("air pressure reaches the air of the bore", "[told][analytic]") {
    const auto density = [](double kPa) {
        return bore_air(samples::read(with(measured_tube(), "/air/pressure_kpa", kPa)).document)
            .density_kg_m3;
    };
    CHECK_THAT(density(70.0) / density(101.325), WithinRel(70.0 / 101.325, 0.01));
}

// Reference  an open hole's inertance goes with (t + 1.5 b) / b^2 (classical: A.H. Benade,
//            Fundamentals of Musical Acoustics, 1976, from memory). A hole of 8 mm in a wall of 6
//            mm has 10/16 + 2/16 = 0.75 per mm; so has one of 6.42 mm in a wall of 2.9 mm: (2.9
//            + 1.5 x 3.208) / 3.208^2 = 0.749.
// Tolerance  a quarter of what the thicker wall does: the rule is rough, the effect is not.
TEST_CASE("a hole's own wall counts, not the tube's", "[told][derived]") {
    const auto with_hole = [](double diameter_mm, std::optional<double> wall_mm) {
        Json document = measured_tube();
        document["tube"]["wall_mm"] = 2.9;
        document["foot_mm"] = 400;
        document["finger_holes"] = Json::array({{{"at_mm", 260}, {"diameter_mm", diameter_mm}}});
        if (wall_mm) document["finger_holes"][0]["wall_mm"] = *wall_mm;
        document["notes"] = Json::array({{{"open", {1}}}});
        document.erase("song");
        document.erase("log");
        return heard_Hz(document);
    };
    const double plain_Hz = with_hole(8.0, {}), thick_Hz = with_hole(8.0, 6.0);
    const double like_Hz = with_hole(6.416, {});
    const double effect_cents = cents_between(plain_Hz, thick_Hz);
    CAPTURE(effect_cents);
    CHECK(effect_cents > 15.0);
    CHECK_THAT(cents_between(like_Hz, thick_Hz), WithinAbs(0.0, 0.25 * effect_cents));
    CHECK_THAT(with_hole(8.0, 2.9), WithinRel(plain_Hz, 1e-12));
}

// Reference  build.hpp: widened by half of what is not known of a stranger's voice, air or edges;
//            independent doubts add by squares; never less sure than a stranger's.
TEST_CASE("a pattern is widened by what a new voice brings", "[pattern][told][analytic]") {
    const auto blow = [](double hz) -> Json {
        return {{"read", {{"open", Json::array()}, {"hz", hz}, {"sigma_cents", 1}}}};
    };
    const std::vector<Json> log = {
        {{"foot", {{"at_mm", 410}}}}, blow(366), {{"foot", {{"at_mm", 390}}}}, blow(383)};
    const Json first = noted(measured_tube(), log);
    const Json pattern = Json::parse(run_workshop("pattern", first.dump()))["answer"];
    const BuildState next = told_build(with(measured_tube(), "/pattern", pattern));
    const BuildState stranger = told_build(measured_tube());
    const Unknown carried[] = {kSoundHole, kSoundSpeed, kHoles};
    for (int n = 0; n < 3; ++n) {
        CAPTURE(n);
        const double own =
            std::sqrt(pattern["covariance"][std::size_t(n)][std::size_t(n)].get<double>());
        const double new_one = 0.5 * stranger.before.sigma(carried[n]);
        CHECK_THAT(
            next.before.sigma(carried[n]),
            WithinRel(std::min(std::hypot(own, new_one), stranger.before.sigma(carried[n])), 1e-4));
    }
    CHECK(next.before.sigma(kSoundHole) < 0.9 * stranger.before.sigma(kSoundHole));
}

// A hole drilled 1 mm too small, heard five times: what is flat may be opened however often it was
// heard. A maker for whom it is good enough may leave it: then the verdict must say that the note
// is out, though it is flat and not sharp.
TEST_CASE("a note too flat is not called within", "[next][told]") {
    Json document = measured_tube();
    document["tube"]["material"] = "plastic pipe";  // nothing dries
    document["air"]["room_c"] = 23;
    const Json plan = Json::parse(run_workshop("layout", document.dump()))["answer"];
    document["finger_holes"] = plan["finger_holes"];
    document["foot_mm"] = plan["foot_mm"];
    std::vector<Json> log;
    log.push_back({{"foot", {{"at_mm", plan["foot_mm"]}}}});
    for (int number = 5; number >= 1; --number) {
        const Json& hole = plan["finger_holes"][static_cast<std::size_t>(number - 1)];
        const double diameter_mm = hole["diameter_mm"].get<double>() - (number == 3 ? 1.0 : 0.0);
        log.push_back(
            {{"hole",
              {{"number", number}, {"at_mm", hole["at_mm"]}, {"diameter_mm", diameter_mm}}}});
    }
    const Json standing = noted(document, log);
    const Json sound = Json::parse(run_workshop("sound", standing.dump()))["answer"];
    for (const Json& note : sound["notes"])
        for (int n = 0; n < 5; ++n)
            log.push_back(
                {{"read", {{"open", note["open"]}, {"hz", note["hz"]}, {"sigma_cents", 0.5}}}});
    const auto ask = [&] {
        return Json::parse(run_workshop("next", noted(document, log).dump()))["answer"];
    };
    const Json open = ask();
    CHECK(open["step"]["do"] == "hole");
    CHECK(open["step"]["number"] == 3);
    document["song"]["good_enough_cents"] = limit::kGoodEnough_cents.max;
    const Json next = ask();
    REQUIRE(next["step"]["do"].get<std::string>() == "done");
    int out = 0;
    for (const Json& note : next["step"]["verdict"]) {
        const double cents = note["cents"];
        CHECK(note["within"] == (cents >= -8.0 && cents <= 8.0));
        out += cents < -8.0 ? 1 : 0;
    }
    CHECK(out == 1);
}

// Reference  pitches of the same document with one number moved: what a knife would find.
// Tolerance  the curve over half a millimetre.
TEST_CASE("the slopes of a layout are those of its sound", "[layout][told][property]") {
    Json document = measured_tube();
    document.erase("log");
    Json plan = Json::parse(run_workshop("layout", document.dump()))["answer"];
    // straight holes: without an inner size of their own they stay so
    for (Json& hole : plan["finger_holes"]) hole.erase("inner_diameter_mm");
    const auto cents_by = [&plan](const std::string& pointer, double step_mm, std::size_t note) {
        const auto Hz = [&](double off_mm) {
            const Json::json_pointer at(pointer);
            const Json moved = with(plan, pointer, plan[at].get<double>() + off_mm);
            return Json::parse(run_workshop("sound", moved.dump()))["answer"]["notes"][note]["hz"]
                .get<double>();
        };
        return cents_between(Hz(0.5 * step_mm), Hz(-0.5 * step_mm));
    };
    for (std::size_t note = 1; note <= 5; ++note) {
        CAPTURE(note);
        const Json& said = plan["notes"][note];
        const std::string hole = "/finger_holes/" + std::to_string(5 - note);
        CHECK_THAT(said["cents_per_mm"].get<double>(),
                   WithinRel(cents_by(hole + "/at_mm", 0.5, note) / 0.5, 0.01));
        CHECK_THAT(said["cents_per_tenth_mm"].get<double>(),
                   WithinRel(cents_by(hole + "/diameter_mm", 0.1, note), 0.01));
        CHECK_THAT(said["cents_per_mm_foot"].get<double>(),
                   WithinRel(cents_by("/foot_mm", 0.5, note) / 0.5, 0.01));
    }
    // sound repeats what was asked for
    const Json sound = Json::parse(run_workshop("sound", plan.dump()))["answer"];
    for (std::size_t note = 0; note <= 5; ++note)
        CHECK_THAT(sound["notes"][note]["target_hz"].get<double>(),
                   WithinRel(plan["notes"][note]["target_hz"].get<double>(), 1e-9));
}

}  // namespace told_test

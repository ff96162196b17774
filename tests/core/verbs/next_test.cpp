// tests/core/verbs/next_test.cpp -- from a document with its log to one step, and layouts that
// heed what was heard.
#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "core/api.hpp"
#include "core/base/units.hpp"
#include "core/task/build.hpp"
#include "tests/core/document/samples.hpp"

using namespace canewright;

namespace next_test {  // its own where tests are compiled together
using samples::Said;
using samples::said;
using samples::with;
using samples::without;

namespace {

Json blank(const std::string& lowest = "G4") {
    Json json = Json::parse(R"json({
      "format": "canewright/1", "name": "heron reach",
      "air": {"room_c": 18},
      "tube": {"bore": [{"at_mm": 0, "diameter_mm": 18}], "wall_mm": 3, "end_mm": 430,
               "material": "bamboo"},
      "sound_hole": {"length_mm": 5, "width_mm": 9.5},
      "song": {"lowest": "G4", "scale": "minor pentatonic", "holes": 5, "play_c": 20},
      "shop": {"diameter_mm": {"min": 3, "max": 10}, "spacing_mm": {"min": 16, "max": 40}},
      "log": []
    })json");
    json["song"]["lowest"] = lowest;
    return json;
}

Json reply(const std::string& verb, const Json& document) {
    return Json::parse(run_workshop(verb, document.dump()));
}

Json answer(const std::string& verb, const Json& document) {
    const Json json = reply(verb, document);
    CAPTURE(json.dump());
    REQUIRE(json.contains("answer"));
    return json["answer"];
}

Json refused(const std::string& verb, const Json& document) {
    const Json json = reply(verb, document);
    CAPTURE(json.dump());
    REQUIRE(json.contains("violations"));
    return json["violations"];
}

Json logged(Json document, const std::vector<Json>& entries) {
    for (const Json& entry : entries) document["log"].push_back(entry);
    return document;
}

Json foot(double at_mm) { return {{"foot", {{"at_mm", at_mm}}}}; }
Json hole(int number, double at_mm, double diameter_mm) {
    return {{"hole", {{"number", number}, {"at_mm", at_mm}, {"diameter_mm", diameter_mm}}}};
}
Json heard(const std::vector<int>& open, double hz, double sigma_cents = 3) {
    return {{"read", {{"open", open}, {"hz", hz}, {"sigma_cents", sigma_cents}}}, {"room_c", 18}};
}

// Two readings of the holeless tube, flat of what the model says: a voice with more inertance.
Json voiced() {
    return logged(blank(), {foot(410), heard({}, 369.5), foot(396), heard({}, 381.5)});
}

}  // namespace

TEST_CASE("the first step of a blank saws the foot long", "[next]") {
    const Json json = answer("next", blank());
    CHECK(json["step"]["do"] == "foot");
    CHECK(json["why"] == "saw_long");
    const double at_mm = json["step"]["at_mm"];
    CHECK(at_mm > json["foot_mm"].get<double>());
    CHECK(at_mm < 430);
    CHECK(json["expect_cents"].get<double>() > 0);
    CHECK(json["overshoot"].get<double>() <= 0.05);
    REQUIRE(json["notes"].size() == 6);
    CHECK(json["notes"][0]["name"] == "G4");
    CHECK(json["notes"][1]["now_cents"].is_null());
    CHECK(json["finger_holes"].size() == 5);
}

TEST_CASE("then the voice is heard, and heard again after a trim", "[next]") {
    const Json sawn = logged(blank(), {foot(410)});
    const Json read = answer("next", sawn);
    CHECK(read["step"]["do"] == "read");
    CHECK(read["step"]["open"] == Json::array());
    CHECK(read["why"] == "hear_voice");
    const Json drill = answer("next", logged(voiced(), {}));
    CAPTURE(drill.dump());
    CHECK((drill["step"]["do"] == "hole" || drill["step"]["do"] == "foot"));
}

TEST_CASE("readings narrow the bands of every note, and say what they told", "[next]") {
    const Json before = answer("next", logged(blank(), {foot(410)}));
    const Json after = answer("next", voiced());
    for (std::size_t n = 0; n < 6; ++n) {
        CAPTURE(n);
        const double was = before["notes"][n]["sigma_cents"], is = after["notes"][n]["sigma_cents"];
        CHECK(is < 0.8 * was);
        CHECK(is < after["notes"][n]["before_cents"].get<double>());
    }
    std::set<std::string> told;
    for (const Json& unknown : after["unknowns"])
        if (unknown["told"] == true) told.insert(unknown["name"]);
    CHECK(told.count("sound_hole") == 1);
    CHECK(told.count("wall") == 0);  // a holeless tube does not tell it
    REQUIRE(after["readings"].size() == 2);
    CHECK(after["readings"][0]["trusted"] == true);
    CHECK(after["readings"][1]["entry"] == 3);
}

TEST_CASE("an octave jump is flagged and asked for again, and moves nothing", "[next]") {
    const std::vector<Json> first = {foot(410), heard({}, 369.5), foot(396)};
    const Json before = answer("next", logged(blank(), first));
    const Json jumped = answer("next", logged(logged(blank(), first), {heard({}, 2 * 381.5)}));
    CHECK(jumped.at("step").at("do") == "read");
    CHECK(jumped.at("why") == "hear_again");
    CHECK(jumped.at("readings").at(0).at("trusted") == true);
    CHECK(jumped.at("readings").at(1).at("trusted") == false);
    const auto voice = [](const Json& json) {
        return json.at("unknowns").at(0).at("mean").get<double>();
    };
    CHECK_THAT(voice(jumped), Catch::WithinAbs(voice(before), 1e-3));
    // heard well before, and then wrongly: nothing to ask, the flag is enough
    const Json late = answer("next", logged(voiced(), {heard({}, 2 * 381.5)}));
    CHECK(late.at("readings").at(2).at("trusted") == false);
    CHECK(late.at("why") != "hear_again");
}

TEST_CASE("a layout heeds the readings, and sound agrees with it", "[next][property]") {
    const Json plain = answer("layout", without(blank(), "/log"));
    for (const bool with_bits : {false, true}) {
        Json document = voiced();
        if (with_bits)
            for (int tenths = 40; tenths <= 100; tenths += 5)
                document["shop"]["bits"].push_back({{"mm", 0.1 * tenths}});
        const Json taught = answer("layout", document);
        CAPTURE(with_bits, taught.dump());
        CHECK(taught["converged"] == true);
        // a flatter voice than modelled: a shorter tube
        CHECK(taught["foot_mm"].get<double>() < plain["foot_mm"].get<double>() - 1.0);
        const Json sound = answer("sound", taught);
        for (std::size_t n = 0; n < 6; ++n) {
            CAPTURE(n);
            CHECK_THAT(sound["notes"][n]["hz"].get<double>(),
                       Catch::WithinRel(taught["notes"][n]["hz"].get<double>(), 1e-8));
            if (!with_bits) CHECK(std::abs(sound["notes"][n]["cents"].get<double>()) < 0.1);
        }
        if (with_bits)
            for (const Json& each : taught["finger_holes"]) {
                const double tenths = 10 * each["diameter_mm"].get<double>();
                CHECK_THAT(tenths, Catch::WithinAbs(5 * std::round(tenths / 5), 1e-6));
            }
    }
}

TEST_CASE("sound says of the flute in the hand what the readings say", "[next]") {
    Json document = voiced();
    document["finger_holes"] = answer("layout", document)["finger_holes"];
    document["foot_mm"] = 396;
    document["notes"] = Json::array({{{"open", Json::array()}}});
    const Json note = answer("sound", document).at("notes").at(0);
    // Heard at 18 C, answered for 20 C: the speed of sound goes with the root of the absolute
    // temperature (textbook), 3 cents a degree or 1.6 of a flute half full of breath.
    const double cents = cents_between(note.at("hz").get<double>(), 381.5);
    CHECK(cents > -2.0);
    CHECK(cents < 8.0);
}

TEST_CASE("a plan that is not written down is that of the tube before the first cut", "[next]") {
    const Json plan = answer("layout", without(blank(), "/log"));
    const double at_mm = plan["finger_holes"][4]["at_mm"];
    const Json cut = logged(voiced(), {hole(5, at_mm, 5.5)});
    const ReadDocument read = samples::read(cut);
    REQUIRE(said(read.violations) == Said{});
    const Document planned = planned_like_before(read.document);
    REQUIRE(planned.finger_holes);
    // The bench reckons with the breath's usual lift, a layout before any reading does not: a mm or
    // two.
    CHECK_THAT(planned.finger_holes->at(0).at_m,
               Catch::WithinAbs(m_from_mm(plan["finger_holes"][0]["at_mm"].get<double>()), 3e-3));
    const Json next = answer("next", cut);
    CHECK(next["step"]["do"] == "hole");
    CHECK(next["step"]["number"] == 5);
    CHECK(next["step"]["until"]["open"] == Json({5}));
    CHECK(next["step"]["until"]["hz"].get<double>() < next["notes"][1]["target_hz"]);
}

TEST_CASE("the maker may accept more risk or less", "[next]") {
    const Json plan = answer("layout", without(blank(), "/log"));
    Json cut = logged(voiced(), {hole(5, plan["finger_holes"][4]["at_mm"], 5.5)});
    cut["song"]["tolerance_cents"] = 4;  // a flute's own; at 10 there is room enough in any case
    std::vector<double> stop_Hz;
    for (const double percent : {0.2, 5.0, 40.0}) {
        const Json next = answer("next", with(cut, "/shop/risk_percent", percent));
        stop_Hz.push_back(next.at("step").at("until").at("hz").get<double>());
    }
    CHECK(stop_Hz[0] < stop_Hz[1]);
    CHECK(stop_Hz[1] <= stop_Hz[2]);
    CHECK(said(with(cut, "/shop/risk_percent", 0)) == Said{"too_small shop.risk_percent"});
}

TEST_CASE("a hole far too large is rescued, reversible means first", "[next]") {
    const Json plan = answer("layout", without(blank(), "/log"));
    Json document = logged(voiced(), {foot(386.5), heard({}, 390.5)});
    const double at_mm = plan["finger_holes"][4]["at_mm"];
    document = logged(document, {hole(5, at_mm, 9.4), heard({5}, 478)});
    Json next = answer("next", document);
    // What is asked on the way is done and heard as asked; the note of hole 5 stays as it is.
    for (int n = 0; n < 60 && next.at("step").at("do") != "rescue"; ++n) {
        const Json& step = next.at("step");
        REQUIRE(step.at("do") != "done");
        if (step.at("do") == "wait") {
            document = logged(document, {{{"bore", "sealed"}}});
        } else if (step.at("do") == "foot") {
            document = logged(document, {foot(step.at("at_mm"))});
        } else if (step.at("do") == "hole" && step.contains("diameter_mm")) {
            document = logged(document,
                              {hole(step.at("number"), step.at("at_mm"), step.at("diameter_mm"))});
        } else {
            const bool cut = step.contains("until");
            if (cut && step.at("do") == "hole")
                document = logged(
                    document,
                    {{{"hole", {{"number", step.at("number")}, {"at_mm", step.at("at_mm")}}}}});
            const Json open = cut ? step.at("until").at("open") : step.at("open");
            double hz = cut ? step.at("until").at("hz").get<double>() : 0.0;
            for (const Json& note : next["notes"])
                if (hz == 0.0 && note["open"] == open)
                    hz = note["target_hz"].get<double>() * (open == Json({5}) ? 1.025 : 0.999);
            document = logged(document, {heard(open.get<std::vector<int>>(), hz)});
        }
        next = answer("next", document);
    }
    REQUIRE(next.at("step").at("do") == "rescue");
    CHECK(next.at("why") == "too_sharp_hole");
    REQUIRE(next.at("step").at("options").size() >= 2);
    CHECK(next.at("step").at("options").at(0).at("reversible") == true);
    CHECK(next.at("step").at("what") == next.at("step").at("options").at(0).at("what"));
    CHECK(next.at("expect_cents").get<double>() < -10);
}

TEST_CASE("until it is blown, the flute of the next step is the layout's", "[next][property]") {
    const auto far_mm = [](const Json& document) {
        const Json plan = answer("layout", document)["finger_holes"];
        const Json aim = answer("next", document)["finger_holes"];
        double most_mm = 0.0;
        for (std::size_t i = 0; i < plan.size(); ++i)
            most_mm = std::max(most_mm, std::abs(plan[i]["at_mm"].get<double>() -
                                                 aim.at(i).at("at_mm").get<double>()));
        return most_mm;
    };
    constexpr double kNoRuler_mm = 0.02;  // less than any ruler shows
    for (const char* lowest : {"G4", "A4", "free"}) {
        CAPTURE(lowest);
        CHECK(far_mm(blank(lowest)) < kNoRuler_mm);
    }
}

TEST_CASE("a build that cannot be answered says what is missing", "[next]") {
    CHECK(refused("next", without(blank(), "/song"))[0]["path"] == "song");
    CHECK(refused("next", logged(blank(), {heard({5}, 440)}))[0]["code"] == "bad_hole_number");
}

}  // namespace next_test

// tests/core/api_test.cpp -- the boundary: text in, text out, for whole commands.
#include "core/api.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "tests/core/document/samples.hpp"

using namespace canewright;
using samples::with;
using samples::without;

namespace {

// A small tube to be laid out: bore 18 mm, five holes, as in many a garden.
Json tube() {
    return Json::parse(R"json({
      "format": "canewright/1",
      "tube": {"bore": [{"at_mm": 0, "diameter_mm": 18}], "wall_mm": 3, "end_mm": 430},
      "sound_hole": {"length_mm": 5, "width_mm": 9.5},
      "song": {"lowest": "G4", "scale": "minor pentatonic", "holes": 5}
    })json");
}

// What is built is the workshop's, and what sounds; everything else the first module's.
Json ask(const std::string& verb, const Json& document) {
    const bool built = document.contains("log") || verb == "sound";
    return Json::parse(built ? run_workshop(verb, document.dump()) : run(verb, document.dump()));
}

Json answer(const std::string& verb, const Json& document) {
    const Json json = ask(verb, document);
    CAPTURE(json.dump());
    REQUIRE(json.contains("answer"));
    return json["answer"];
}

}  // namespace

TEST_CASE("layout's answer fed to sound gives the targets", "[property]") {
    const Json planned = answer("layout", tube());
    CHECK(planned["converged"] == true);
    CHECK(planned["binding"].empty());
    const Json heard = answer("sound", planned);
    REQUIRE(heard["notes"].size() == 6);
    for (std::size_t i = 0; i < 6; ++i) {
        CAPTURE(i);
        CHECK(std::abs(heard["notes"][i]["cents"].get<double>()) < 0.1);
        CHECK(heard["notes"][i]["open"] == planned["notes"][i]["open"]);
        CHECK_THAT(heard["notes"][i]["hz"].get<double>(),
                   Catch::WithinRel(planned["notes"][i]["hz"].get<double>(), 1e-9));
        CHECK_THAT(heard["notes"][i]["second_hz"].get<double>(),
                   Catch::WithinRel(planned["notes"][i]["second_hz"].get<double>(), 1e-9));
    }
    CHECK(heard["at_c"] == 20);
}

TEST_CASE("layout answers the whole document with everything that was promised") {
    const Json given = with(with(tube(), "/x", {{"mine", 1}}), "/name", "a tube");
    const Json json = answer("layout", given);
    CHECK(json["x"] == given["x"]);
    CHECK(json["name"] == "a tube");
    CHECK(json["tube"] == given["tube"]);
    CHECK(json["song"] == given["song"]);
    CHECK_FALSE(json.contains("sounds_as"));
    REQUIRE(json["finger_holes"].size() == 5);
    for (const char* key : {"at_mm", "diameter_mm", "inner_diameter_mm", "wall_mm"}) {
        CHECK(json["finger_holes"][0][key].is_number());
    }
    // G4 = 391.995 Hz, B flat 4 = 466.164 Hz: ISO 16:1975 in equal temperament.
    CHECK_THAT(json["notes"][0]["target_hz"].get<double>(), Catch::WithinAbs(391.995, 0.001));
    CHECK_THAT(json["notes"][1]["target_hz"].get<double>(), Catch::WithinAbs(466.164, 0.001));
    CHECK(json["notes"][0]["name"] == "G4");
    CHECK(json["notes"][1]["name"] == "B♭4");
    CHECK(json["notes"][1]["interval_cents"] == 300);
    CHECK(json["notes"][0]["cents_per_mm"].is_null());  // no hole of its own
    // A hole further from the sound hole sounds lower, a wider one higher, a longer foot lower.
    CHECK(json["notes"][1]["cents_per_mm"].get<double>() < 0);
    CHECK(json["notes"][1]["cents_per_tenth_mm"].get<double>() > 0);
    CHECK(json["notes"][0]["cents_per_mm_foot"].get<double>() < 0);
    const Json& cane = json["cane"];
    CHECK_THAT(cane["spare_mm"].get<double>(),
               Catch::WithinAbs(430 - json["foot_mm"].get<double>(), 1e-9));
    CHECK_THAT(cane["length_to_bore"].get<double>(),
               Catch::WithinRel(json["foot_mm"].get<double>() / 18, 1e-12));
    CHECK(cane["taper_percent"] == 0);
    CHECK(cane["oval_percent"] == 0);
    CHECK(cane["lowest_hz"].get<double>() < json["notes"][0]["hz"].get<double>());
    CHECK(cane["lowest_name"].is_string());
}

TEST_CASE("a derivative of the answer is the change that sound finds", "[derived]") {
    // Reference: two calls of `sound` with the first open hole moved by 0.01 mm either way.
    Json planned = answer("layout", tube());
    const double promised = planned["notes"][3]["cents_per_mm"].get<double>();
    const double at_mm = planned["finger_holes"][2]["at_mm"].get<double>();
    const auto cents = [&](double moved_mm) {
        planned["finger_holes"][2]["at_mm"] = at_mm + moved_mm;
        return 1200 * std::log2(answer("sound", planned)["notes"][3]["hz"].get<double>());
    };
    CHECK_THAT((cents(0.01) - cents(-0.01)) / 0.02, Catch::WithinRel(promised, 1e-3));
}

TEST_CASE("warnings say what is outside what has been compared") {
    const auto warns = [](const Json& document, const char* what) {
        const Json warnings = answer("layout", document)["cane"]["warnings"];
        return std::find(warnings.begin(), warnings.end(), what) != warnings.end();
    };
    // Ranges: core/element/sound_hole.hpp (H/2a at most 0.95) and, for the others, cane.cpp.
    CHECK_FALSE(warns(with(tube(), "/sound_hole/width_mm", 17.0), "sound_hole_outside_range"));
    CHECK(warns(with(tube(), "/sound_hole/width_mm", 17.2), "sound_hole_outside_range"));
    CHECK_FALSE(warns(with(tube(), "/tube/bore/0/diameter_mm", 25), "bore_outside_range"));
    CHECK(warns(with(tube(), "/tube/bore/0/diameter_mm", 25.1), "bore_outside_range"));
    CHECK_FALSE(warns(with(tube(), "/tube/wall_mm", 5.4), "wall_thick"));
    CHECK(warns(with(tube(), "/tube/wall_mm", 5.41), "wall_thick"));
    CHECK_FALSE(warns(tube(), "short_tube"));
    CHECK(warns(with(tube(), "/tube/end_mm", 350), "short_tube"));
    // Whatever the bare tube would resonate: covered holes are pockets, and lower the note.
    Json barely = Json::parse(R"json({"format": "canewright/1",
        "tube": {"bore": [{"at_mm": 0, "diameter_mm": 19}], "wall_mm": 3, "end_mm": 413},
        "sound_hole": {"length_mm": 6, "width_mm": 11},
        "song": {"lowest": {"hz": 373}, "scale": "minor pentatonic", "holes": 5,
                 "tolerance_cents": 8}})json");
    const double off_cents = answer("layout", barely)["worst_cents"];
    CHECK(off_cents > 2.0);
    CHECK(off_cents < 8.0);
    CHECK_FALSE(warns(barely, "short_tube"));
    CHECK(warns(with(barely, "/tube/end_mm", 405), "short_tube"));
    CHECK_FALSE(warns(tube(), "above_short"));
    CHECK_FALSE(warns(with(tube(), "/tube/above_mm", 60), "above_short"));
    CHECK(warns(with(tube(), "/tube/above_mm", 59), "above_short"));
    const Json chamber =
        with(with(tube(), "/chamber", {{"length_mm", 100}}), "/track", {{"length_mm", 20}});
    CHECK_FALSE(warns(with(chamber, "/tube/above_mm", 120), "above_short"));
    CHECK(warns(with(chamber, "/tube/above_mm", 119), "above_short"));
}

TEST_CASE("a note that cannot be played is null and says why") {
    Json planned = answer("layout", tube());
    planned["log"] = {{{"hole", {{"number", 5}, {"at_mm", planned["finger_holes"][4]["at_mm"]}}}}};
    const Json heard = answer("sound", planned)["notes"];
    CHECK(heard[1]["hz"].is_number());
    CHECK(heard[2]["hz"].is_null());
    CHECK(heard[2]["why"] == "hole_not_cut");
    // Without the holes that are not cut, and at its full length, the tube sounds lower.
    CHECK(heard[0]["cents"].get<double>() < -50);
}

TEST_CASE("with a log, layout is for the flute as it stands, and can still be fed to sound") {
    Json planned = answer("layout", tube());
    const double at_mm = planned["finger_holes"][4]["at_mm"].get<double>() + 2;
    planned["log"] = {{{"foot", {{"at_mm", 410}}}},
                      {{"hole", {{"number", 5}, {"at_mm", at_mm}, {"diameter_mm", 6.5}}}}};
    const Json again = answer("layout", planned);
    CHECK(again["sounds_as"] == "planned");
    CHECK(again["finger_holes"][4]["at_mm"] == at_mm);
    CHECK(again["finger_holes"][4]["diameter_mm"].get<double>() >= 6.5);
    CHECK_FALSE(again["finger_holes"][4].contains("fixed"));
    CHECK(again["foot_mm"].get<double>() <= 410);
    CHECK(again["log"] == planned["log"]);
    const Json heard = answer("sound", again)["notes"];
    for (std::size_t i = 0; i < heard.size(); ++i) {
        CHECK_THAT(heard[i]["hz"].get<double>(),
                   Catch::WithinRel(again["notes"][i]["hz"].get<double>(), 1e-9));
    }
}

TEST_CASE("violations come back whole, needs among them, never both for one key") {
    Json wrong = with(tube(), "/tube/wall_mm", -1);
    wrong["song"]["lowest"] = "zebra";
    wrong.erase("sound_hole");
    const Json json = ask("layout", wrong);
    const Json expected = Json::parse(R"json({"violations": [
      {"code": "too_small", "path": "tube.wall_mm", "value": -1, "limit": 0.3},
      {"code": "not_a_note", "path": "song.lowest", "value": "zebra", "limit": null},
      {"code": "needs", "path": "sound_hole", "value": null, "limit": null}]})json");
    CHECK(json == expected);
    for (const char* text : {"{", "[]", "3", "[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]"}) {
        CAPTURE(text);
        CHECK(Json::parse(run_workshop("sound", text))["violations"].size() == 1);
        for (const char* verb : {"spread", "layout", "fingerings"})
            CHECK(Json::parse(run(verb, text))["violations"].size() == 1);
    }
    CHECK(Json::parse(run("dance", "{}")).contains("fault"));
}

TEST_CASE("default fingerings depend on the song alone, and not on its own ones") {
    Json json = tube();
    json["song"]["fingerings"] = {{9, 9}};
    json["tube"]["wall_mm"] = "thick";
    const Json fingerings = answer("fingerings", json)["fingerings"];
    REQUIRE(fingerings.size() == 6);
    CHECK(fingerings[1] == Json::parse(R"({"cents": 300, "open": [5], "name": "B♭4"})"));
    json["song"]["lowest"] = "free";
    CHECK(answer("fingerings", json)["fingerings"][1]["name"].is_null());
    CHECK(ask("fingerings", with(tube(), "/song/scale", "odd"))["violations"][0]["path"] ==
          "song.scale");
    CHECK(ask("fingerings", without(tube(), "/song/scale"))["violations"][0]["code"] == "needs");
    const Json crowded = with(tube(), "/song/scale", {{"cents", {0, 1, 2, 3, 4, 5, 6}}});
    CHECK(ask("fingerings", crowded)["violations"][0]["code"] == "missing_fingering");
}

TEST_CASE("choices and example need no document") {
    const Json choices = Json::parse(run("choices", ""))["answer"];
    CHECK(choices["scales"][0] == Json::parse(R"({"name": "minor pentatonic",
                                                  "cents": [0, 300, 500, 700, 1000, 1200]})"));
    for (const Json& scale : choices["scales"]) {
        CHECK(answer("layout", with(tube(), "/song/scale", scale["name"])).contains("notes"));
    }
    // The defaults are a document, and writing them out changes nothing.
    Json spelled = tube();
    spelled.merge_patch(choices["defaults"]);
    CHECK(spelled["song"]["a4_hz"] == 440);
    CHECK(answer("layout", spelled)["finger_holes"] == answer("layout", tube())["finger_holes"]);
    const Json example = Json::parse(run("example", "ignored"))["answer"];
    CHECK(answer("layout", example)["converged"] == true);
}

TEST_CASE("lengths are read and written") {
    CHECK(Json::parse(read_length_json("53,3", "mm")) ==
          Json::parse(R"({"mm": 53.3, "unit": "mm"})"));
    CHECK(Json::parse(read_length_json("2 3/32", "inch"))["mm"] == 53.18125);
    CHECK(Json::parse(read_length_json("2\"", "mm")) ==
          Json::parse(R"({"mm": 50.8, "unit": "inch"})"));
    const Json wrong = Json::parse(read_length_json("wide", "mm"))["violations"][0];
    CHECK(wrong["code"] == "not_a_length");
    CHECK(wrong["value"] == "wide");
    CHECK(Json::parse(read_length_json("\xff", "mm"))["violations"][0]["code"] == "not_a_length");
    CHECK(Json::parse(read_length_json("5", "cubit"))["violations"][0]["path"] == "unit");
    CHECK(write_length_text(53.31, "mm", 32) == "53.3");
    CHECK(write_length_text(53.18125, "inch", 32) == "2 3/32″");
    CHECK(write_length_text(53.18125, "inch", 16) == "2 1/8″");
    CHECK(write_length_text(NAN, "mm", 32).empty());
    CHECK(write_length_text(5, "cubit", 32).empty());
}

TEST_CASE("a typed length lies on the link's grid") {
    const auto mm = [](const char* typed, const char* unit) {
        return Json::parse(read_length_json(typed, unit))["mm"].get<double>();
    };
    CHECK(mm("53.3", "mm") == 53.3);
    CHECK(mm("53.3349", "mm") == 53.33);
    CHECK(mm("8,765", "mm") == 8.77);
    CHECK(mm("1 15/32", "inch") == 37.30625);  // whole 64ths stay what they are
    CHECK(mm("0.3456", "inch") == 8.78);
}

// tests/core/verbs/opening_test.cpp: sound holes to begin with, and the breath they want.
#include "core/verbs/voice/opening.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "core/api.hpp"
#include "core/document/json_text.hpp"

using namespace canewright;

namespace {

Json ask(const char* verb, const Json& document) {
    return Json::parse(run_workshop(verb, document.dump()));
}

Json tube(double bore_mm, double wall_mm, double end_mm, const char* lowest) {
    return {{"format", "canewright/1"},
            {"tube",
             {{"bore", {{{"at_mm", 0}, {"diameter_mm", bore_mm}}}},
              {"wall_mm", wall_mm},
              {"end_mm", end_mm}}},
            {"song", {{"lowest", lowest}, {"scale", "minor pentatonic"}, {"holes", 5}}}};
}

const Json& tubes() {
    static const Json all = {tube(8.7, 1.4, 200, "A5"), tube(12, 2, 280, "D5"),
                             tube(18, 3, 430, "G4"), tube(21, 3, 520, "E4")};
    return all;
}

}  // namespace

TEST_CASE("a sound hole to begin with: what is said of it is what voice says", "[opening]") {
    for (const Json& document : tubes()) {
        CAPTURE(document.dump());
        const Json answer = ask("opening", document)["answer"];
        REQUIRE(answer["choices"].size() == 2);
        for (const Json& choice : answer["choices"]) {
            CHECK(choice["tube_reaches"] == true);
            Json taken = document;
            taken["sound_hole"] = choice["sound_hole"];
            taken["track"] = choice["track"];
            taken["foot_mm"] = choice["foot_mm"];
            const Json voice = ask("voice", taken)["answer"];
            CHECK(voice["voice"]["band"] == choice["band"]);
            CHECK(voice["notes"][0]["hz"].get<double>() ==
                  Approx(answer["lowest_hz"].get<double>()).epsilon(1e-4));
            if (!choice["pa"].is_object()) continue;
            // a ramp of whole tenths is not the proposed one to the last digit
            CHECK(voice["notes"][0]["pa"]["at_pitch"].get<double>() ==
                  Approx(choice["pa"]["at_pitch"].get<double>()).epsilon(0.01));
        }
    }
}

// Source     common practice, no source: small flutes take a few ml/s and jump when pushed.
TEST_CASE("the breath wanted is met, or the limit in the way is named", "[opening][trade]") {
    for (const Json& document : tubes()) {
        CAPTURE(document.dump());
        const Json answer = ask("opening", document)["answer"];
        for (const Json& choice : answer["choices"]) {
            CAPTURE(choice["breath"].get<std::string>());
            if (choice["band"] == "out") continue;
            const double asked = choice["wanted_pa"], got = choice["pa"]["at_pitch"];
            if (choice["limit"].is_null()) CHECK(std::abs(std::log(got / asked)) < std::log(1.5));
            CHECK(choice["pa"]["soft"] < choice["pa"]["at_pitch"]);
            if (choice["jump_over_pitch"].is_number()) CHECK(choice["jump_over_pitch"] > 1.0);
        }
        const double usual = answer["choices"][0]["sound_hole"]["length_mm"];
        const double soft = answer["choices"][1]["sound_hole"]["length_mm"];
        CHECK(soft <= usual);  // a softer jet is slower: it must not have so far to go
        const double bore = document["tube"]["bore"][0]["diameter_mm"];
        for (const double length : {usual, soft}) {
            CHECK(length >= kShortestOpening * bore - 0.051);
            CHECK(length <= kLongestOpening * bore + 0.051);
        }
    }
}

TEST_CASE("a sound hole to begin with needs a tube and a lowest note", "[opening]") {
    Json free = tubes()[2];
    free["song"]["lowest"] = "free";
    CHECK(ask("opening", free)["violations"][0]["path"] == "song.lowest");
    Json none = tubes()[2];
    none.erase("song");
    CHECK(ask("opening", none)["violations"][0]["path"] == "song");
    Json bare = tubes()[2];
    bare.erase("tube");
    CHECK(ask("opening", bare)["violations"][0]["path"] == "tube");
    Json high = tubes()[2];
    high["tube"]["end_mm"] = 300;
    const Json answer = ask("opening", high)["answer"];
    for (const Json& choice : answer["choices"]) {
        CHECK(choice["tube_reaches"] == false);
        CHECK(choice["foot_mm"].get<double>() == Approx(300.0));
    }
}

// Nothing is left above the sound hole: a track has no length there, and all else is answered.
TEST_CASE("a tube sawn off at its sound hole has an opening too", "[opening][corner]") {
    for (const double above_mm : {0.0, 0.5, 3.0}) {
        CAPTURE(above_mm);
        Json document = tube(15, 2, 272, "F#5");
        document["tube"]["above_mm"] = above_mm;
        const Json reply = ask("opening", document);
        REQUIRE(reply.contains("answer"));
        for (const Json& choice : reply["answer"]["choices"]) {
            CHECK(choice["sound_hole"]["length_mm"].get<double>() > 0.0);
            CHECK(choice["track"]["length_mm"].is_null() == (above_mm < 1.0));
        }
    }
}

// tests/core/verbs/suits_test.cpp: what a tube carries, and what would do where limits bind.
#include "core/verbs/choose/suits.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "core/api.hpp"
#include "core/document/json_text.hpp"
#include "tests/support/draw.hpp"

using namespace canewright;

namespace suits_test {  // its own where tests are compiled together
namespace {

Json ask(const char* verb, const Json& document) {
    const Json reply = Json::parse(run_workshop(verb, document.dump()));
    REQUIRE(reply.contains("answer"));
    return reply["answer"];
}

Json tube(double bore_mm, double wall_mm, double end_mm) {
    return {{"format", "canewright/1"},
            {"tube",
             {{"bore", {{{"at_mm", 0}, {"diameter_mm", bore_mm}}}},
              {"wall_mm", wall_mm},
              {"end_mm", end_mm}}},
            {"sound_hole", {{"length_mm", 0.3 * bore_mm}, {"width_mm", 0.5 * bore_mm}}},
            {"shop", {{"spacing_mm", {{"min", 16}, {"max", 38}}}}}};
}

Json taken(const Json& document, const Json& choice) {
    Json with = document;
    with["song"] = {
        {"lowest", choice["lowest"]}, {"scale", choice["scale"]}, {"holes", choice["holes"]}};
    return with;
}

// The best of a tube is laid out as it says, with nothing in the way; one that is refused is not.
void check_tube(const Json& document) {
    CAPTURE(document.dump());
    const Json answer = ask("suits", document);
    double before = 101.0;
    for (const Json& choice : answer["choices"]) {
        CHECK(choice["score"].get<double>() <= before);
        before = choice["score"].get<double>();
        for (const Json& reason : choice["reasons"])
            CHECK((reason["ok"] == false || reason["value"].is_number()));
    }
    if (!answer["choices"].empty()) {
        const Json& best = answer["choices"][0];
        const Json layout = ask("layout", taken(document, best));
        CHECK(layout["binding"].empty());
        CHECK(layout["converged"] == true);
        CHECK(layout["foot_mm"].get<double>() ==
              Approx(best["layout"]["foot_mm"].get<double>()).margin(1e-6));
        for (std::size_t i = 0; i < layout["finger_holes"].size(); ++i)
            CHECK(layout["finger_holes"][i]["at_mm"].get<double>() ==
                  Approx(best["layout"]["finger_holes"][i]["at_mm"].get<double>()).margin(1e-6));
    }
    // Every seventh of the refused: all would cost a minute.
    for (std::size_t i = 0; i < answer["refused"].size(); i += 7) {
        const Json& refused = answer["refused"][i];
        if (refused["code"] != "limits") continue;
        CAPTURE(refused.dump());
        const Json layout = ask("layout", taken(document, refused));
        CHECK((layout["converged"] == false || !layout["binding"].empty() ||
               layout["worst_cents"].get<double>() > kLayoutError_cents));
    }
}

bool has(const Json& choice, const char* code) {
    for (const Json& reason : choice["reasons"])
        if (reason["code"] == code && reason["ok"] == false) return true;
    return false;
}

}  // namespace

TEST_CASE("what suits a tube lays out with nothing in the way", "[suits][property]") {
    check_tube(tube(12, 2, 300));
}

TEST_CASE("forty tubes of 6 to 25 mm: the best lays out, the refused do not",
          "[suits][property][sweep]") {
    testing::Draw draw(41, 0);
    constexpr int kTubes = 40;
    for (int i = 0; i < kTubes; ++i) {
        const double bore_mm = 6.0 + 19.0 * i / (kTubes - 1);
        Json one = tube(bore_mm, bore_mm * draw.between(0.08, 0.2), bore_mm * draw.between(11, 30));
        if (i % 4 == 3)  // three bits, and no other
            for (const double share : {0.3, 0.4, 0.5})
                one["shop"]["bits"].push_back({{"mm", std::round(20.0 * share * bore_mm) / 20.0}});
        check_tube(one);
    }
}

TEST_CASE("a first choice is one that the tube carries", "[suits]") {
    const Json document = tube(12, 2, 300);
    const Json choice = ask("suits_first", document)["choice"];
    REQUIRE(choice.is_object());
    CHECK(choice["score"].get<double>() >= kGoodFirst);
    const Json layout = ask("layout", taken(document, choice));
    CHECK(layout["binding"].empty());
    CHECK(layout["foot_mm"].get<double>() ==
          Approx(choice["layout"]["foot_mm"].get<double>()).margin(1e-6));
    CHECK(ask("suits_first", tube(25, 3, 120))["choice"].is_null());
}

TEST_CASE("the shop's own limits are what a choice is held to", "[suits]") {
    Json narrow = tube(18, 3, 430);
    narrow["shop"]["spacing_mm"] = {{"min", 10}, {"max", 24}};
    for (const Json& choice : ask("suits", narrow)["choices"])
        for (const Json& reason : choice["reasons"])
            if (reason["code"] == "stretch") CHECK(reason["value"].get<double>() < 24.0 + 1e-6);
}

TEST_CASE("a wish below what the tube reaches names the nearest it carries", "[suits]") {
    Json document = tube(18, 3, 300);
    document["song"] = {{"lowest", "C4"}, {"scale", "minor pentatonic"}, {"holes", 5}};
    const Json answer = ask("suits", document);
    CHECK(answer["wish"]["reached"] == false);
    REQUIRE(answer["wish"]["nearest"].size() == kMostNearest);
    const Json& nearest = answer["wish"]["nearest"][0];
    document["song"]["lowest"] = nearest["lowest"];
    CHECK(ask("layout", document)["foot_mm"].get<double>() ==
          Approx(nearest["foot_mm"].get<double>()).margin(1e-6));
    CHECK(ask("suits", document)["wish"]["reached"] == true);
}

TEST_CASE("a tube that is hardly longer than wide carries nothing", "[suits]") {
    const Json answer = ask("suits", tube(25, 3, 120));
    CHECK(answer["choices"].empty());
    CHECK(answer["worth"] == false);
    CHECK(!answer["refused"].empty());
}

TEST_CASE("a tube that is not worth the work says what else it could become", "[suits]") {
    CHECK(ask("suits", tube(13, 2, 320))["instead"].is_null());

    // Hands and bits that leave no five holes: fewer are laid out with nothing in the way.
    Json narrow = tube(13, 2, 320);
    narrow["shop"] = {{"spacing_mm", {{"min", 40}, {"max", 42}}},
                      {"diameter_mm", {{"min", 4}, {"max", 8}}}};
    const Json answer = ask("suits", narrow);
    REQUIRE(answer["worth"] == false);
    const Json& fewer = answer["instead"]["fewer_holes"];
    REQUIRE(fewer.is_object());
    CHECK(fewer["holes"].get<int>() < 4);
    const Json layout = ask("layout", taken(narrow, fewer));
    CHECK(layout["binding"].empty());
    CHECK(layout["foot_mm"].get<double>() == Approx(fewer["foot_mm"].get<double>()).margin(1e-6));

    // A stub is too short for any holes; it is still a whistle of one note.
    const Json stub = ask("suits", tube(25, 3, 120))["instead"];
    CHECK(stub["fewer_holes"].is_null());
    CHECK(stub["no_holes"]["bores"].get<double>() == Approx(120.0 / 25));
    CHECK(stub["no_holes"]["hz"] == ask("suits", tube(25, 3, 120))["reaches"]["hz"]);
}

TEST_CASE("a tube that is short for its bore is called so", "[suits]") {
    const Json squat = ask("suits", tube(22, 2.5, 250)), slim = ask("suits", tube(13, 2, 320));
    REQUIRE(!squat["choices"].empty());
    REQUIRE(!slim["choices"].empty());
    CHECK(has(squat["choices"][0], "length_to_bore"));
    CHECK(!has(slim["choices"][0], "length_to_bore"));
    CHECK(squat["choices"][0]["score"].get<double>() < slim["choices"][0]["score"].get<double>());
}

// Half a wave between two open ends. At the foot 0.6 of the bore's radius (Levine & Schwinger
// 1948); at the sound hole its area's share of the bore's, 5.2, times wall and two flanged ends of
// 0.85 radii each (Rayleigh, Theory of Sound, sec. 307; from memory): 5.2 (0.167 + 1.7 x 0.219) D
// = 2.8 D. In all 3.1 D, of textbook formulas that are good to a fifth here.
TEST_CASE("the tube to look for is half a wave less its ends", "[suits][derived]") {
    Json document = tube(18, 3, 300);
    for (const char* lowest : {"A4", "D5", "A5"}) {
        document["song"] = {{"lowest", lowest}, {"scale", "minor pentatonic"}, {"holes", 5}};
        const Json look = ask("suits", document)["look_for"];
        const double half_mm = 0.5 * 345e3 / look["lowest_hz"].get<double>();
        for (const auto& [bore, length] : {std::pair("max", "min"), std::pair("min", "max")}) {
            const double wide_mm = look["bore_mm"][bore].get<double>();
            const double ends_mm = half_mm - look["length_mm"][length].get<double>() / 1.08;
            CAPTURE(lowest, wide_mm, ends_mm);
            CHECK(ends_mm == Approx(3.1 * wide_mm).epsilon(0.2));
        }
    }
}

namespace {

// Sets `a.b.c` of a document.
void put(Json& document, const std::string& path, const Json& value) {
    Json* at = &document;
    std::size_t from = 0;
    for (std::size_t dot; (dot = path.find('.', from)) != std::string::npos; from = dot + 1)
        at = &(*at)[path.substr(from, dot - from)];
    (*at)[path.substr(from)] = value;
}

int check_mends(const Json& document) {
    CAPTURE(document.dump());
    const Json answer = ask("mends", document);
    for (const Json& mend : answer["mends"]) {
        CAPTURE(mend.dump());
        Json with = document;
        for (const Json& one : mend["set"]) put(with, one["path"], one["value"]);
        const Json layout = ask("layout", with);
        CHECK(layout["worst_cents"].get<double>() ==
              Approx(mend["worst_cents"].get<double>()).margin(1e-6));
        CHECK(mend["gains_cents"].get<double>() ==
              Approx(answer["worst_cents"].get<double>() - mend["worst_cents"].get<double>()));
        CHECK(mend["in_tune"] == (mend["worst_cents"].get<double>() <= 10.0));
    }
    return static_cast<int>(answer["mends"].size());
}

}  // namespace

TEST_CASE("a mend does what it says", "[mends][property]") {
    Json document = tube(18, 3, 430);
    document["song"] = {{"lowest", "G4"}, {"scale", "minor pentatonic"}, {"holes", 5}};
    CHECK(ask("mends", document)["mends"].empty());
    document["shop"] = {{"diameter_mm", {{"min", 6.8}, {"max", 7.6}}},
                        {"spacing_mm", {{"min", 16}, {"max", 24}}}};
    CHECK(check_mends(document) > 0);
    document["shop"] = {{"bits", {{{"mm", 4}}, {{"mm", 9}}}}, {"spacing_mm", {{"max", 30}}}};
    CHECK(check_mends(document) > 0);
    document["tube"]["end_mm"] = 300;
    CHECK(check_mends(document) > 0);
}

TEST_CASE("one more bit is offered by the name that its owner would ask for", "[mends]") {
    Json document = tube(18, 3, 430);
    document["song"] = {{"lowest", "G4"}, {"scale", "minor pentatonic"}, {"holes", 5}};
    document["shop"] = {
        {"bits",
         {{{"mm", 3.96875}, {"label", "5/32 in"}}, {{"mm", 9.128125}, {"label", "23/64 in"}}}},
        {"spacing_mm", {{"max", 30}}}};
    const Json answer = ask("mends", document);
    bool told = false;
    for (const Json& mend : answer["mends"]) {
        if (mend["code"] != "one_more_bit") continue;
        told = true;
        CHECK(mend["label"].get<std::string>().find("/64 in") != std::string::npos);
        CHECK(mend["set"][0]["value"].back()["label"] == mend["label"]);
        CHECK(mend["set"][0]["value"][0]["label"] == "5/32 in");
    }
    CHECK(told);
    CHECK(check_mends(document) > 0);
}

TEST_CASE("mends of random tubes do what they say", "[mends][property][sweep]") {
    testing::Draw draw(42, 0);
    int told = 0;
    for (int i = 0; i < 6; ++i) {
        const double bore_mm = draw.between(8, 24);
        Json document = tube(bore_mm, 0.12 * bore_mm, bore_mm * draw.between(14, 26));
        const Json suits = ask("suits", document);
        if (suits["choices"].empty()) continue;
        document = taken(document, suits["choices"][0]);
        document["shop"]["spacing_mm"]["max"] = std::round(draw.between(17, 22));
        document["shop"]["diameter_mm"] = {{"min", 0.38 * bore_mm}, {"max", 0.42 * bore_mm}};
        told += check_mends(document);
    }
    CHECK(told > 3);
}

TEST_CASE("a flute that was heard has its mends on the bench", "[mends]") {
    Json document = tube(18, 3, 430);
    document["song"] = {{"lowest", "G4"}, {"scale", "minor pentatonic"}, {"holes", 5}};
    document["log"] = {{{"read", {{"open", Json::array()}, {"hz", 380}}}}};
    const Json answer = ask("mends", document);
    CHECK(answer["heard"] == true);
    CHECK(answer["mends"].empty());
}

}  // namespace suits_test

// tests/core/verbs/suits_test.cpp: what a tube carries, and what would do where limits bind.
#include "core/verbs/choose/suits.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <set>
#include <string>

#include "tests/support/bare_tubes.hpp"
#include "tests/support/draw.hpp"

using namespace canewright;
using namespace canewright::testing;

namespace suits_test {  // its own where tests are compiled together
namespace {

// The best of a tube is laid out as it says, with nothing in the way; one that is refused is not.
void check_tube(const Json& document) {
    CAPTURE(document.dump());
    const Json answer = asked_of("suits", document);
    double before = 101.0;
    for (const Json& choice : answer["choices"]) {
        CHECK(choice["score"].get<double>() <= before);
        before = choice["score"].get<double>();
        for (const Json& reason : choice["reasons"])
            CHECK((reason["ok"] == false || reason["value"].is_number()));
    }
    if (!answer["choices"].empty()) {
        const Json& best = answer["choices"][0];
        const Json layout = asked_of("layout", taken(document, best));
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
        CAPTURE(refused.dump());
        const Json layout = asked_of("layout", taken(document, refused));
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
    Draw draw(41, 0);
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

namespace {

Json part(const Json& document, int from, int to) {
    return asked_of("suits_part", {{"document", document}, {"from", from}, {"to", to}});
}

}  // namespace

TEST_CASE("in parts it is the same as at once, and soon there is a good one", "[suits]") {
    Json document = tube(16, 2.2, 330);
    document["shop"]["bits"] = {{{"mm", 6}}, {{"mm", 7}}, {{"mm", 8}}};
    document["song"] = {{"lowest", "D5"}, {"scale", {{"cents", {0, 150, 300, 500}}}}, {"holes", 3}};
    const Json first = part(document, 0, 12);
    REQUIRE(first["best"].is_object());
    CHECK(first["best"]["score"].get<double>() >= 75.0);
    const Json layout = asked_of("layout", taken(document, first["best"]));
    CHECK(layout["binding"].empty());
    CHECK(layout["foot_mm"].get<double>() ==
          Approx(first["best"]["layout"]["foot_mm"].get<double>()).margin(1e-6));

    Json tried = first["tried"];
    const int all = first["of"].get<int>();
    for (int from = 12; from < all; from += 50) {
        const Json more = part(document, from, from + 50);
        for (const Json& one : more["tried"]) tried.push_back(one);
    }
    CHECK(static_cast<int>(tried.size()) == all);
    const Json told = asked_of("suits_of", {{"document", document}, {"tried", tried}});
    CHECK(told.dump() == asked_of("suits", document).dump());
}

TEST_CASE("what came of the parts has to be each of them, once", "[suits]") {
    const Json document = tube(25, 3, 120);
    const auto refused = [&](const Json& tried) {
        const Json asked = {{"document", document}, {"tried", tried}};
        const Json reply = Json::parse(run_workshop("suits_of", asked.dump()));
        return reply.value("violations", Json::array())[0].value("path", "");
    };
    const Json all = part(document, 0, 1000)["tried"];
    Json twice = all, few = all, odd = all;
    twice[1] = twice[0];
    few.erase(0);
    odd[0] = {{"wish", 0}};
    for (const Json& wrong : {twice, few, odd, Json("all")}) CHECK(refused(wrong) == "tried");
    CHECK(part(document, 5, 5)["tried"].empty());
    CHECK(part(document, 0, 1000)["best"].is_null());
    const Json reply = Json::parse(run_workshop("suits_part", Json({{"from", 1}}).dump()));
    CHECK(reply["violations"][0]["path"] == "document");
}

TEST_CASE("the shop's own limits are what a choice is held to", "[suits]") {
    Json narrow = tube(18, 3, 430);
    narrow["shop"]["spacing_mm"] = {{"min", 10}, {"max", 24}};
    for (const Json& choice : asked_of("suits", narrow)["choices"])
        for (const Json& reason : choice["reasons"])
            if (reason["code"] == "stretch") CHECK(reason["value"].get<double>() < 24.0 + 1e-6);
}

TEST_CASE("a wish below what the tube reaches names the nearest it carries", "[suits]") {
    Json document = tube(18, 3, 300);
    document["song"] = {{"lowest", "C4"}, {"scale", "minor pentatonic"}, {"holes", 5}};
    const Json answer = asked_of("suits", document);
    CHECK(answer["wish"]["reached"] == false);
    REQUIRE(answer["wish"]["nearest"].size() == kMostNearest);
    const Json& nearest = answer["wish"]["nearest"][0];
    document["song"]["lowest"] = nearest["lowest"];
    CHECK(asked_of("layout", document)["foot_mm"].get<double>() ==
          Approx(nearest["foot_mm"].get<double>()).margin(1e-6));
    CHECK(asked_of("suits", document)["wish"]["reached"] == true);
}

TEST_CASE("a tube that is hardly longer than wide carries nothing", "[suits]") {
    const Json answer = asked_of("suits", tube(25, 3, 120));
    CHECK(answer["choices"].empty());
    CHECK_FALSE(answer["worth"].get<bool>());
    CHECK(answer["not_tried"].get<int>() + static_cast<int>(answer["refused"].size()) > 100);
}

TEST_CASE("a tube that is not worth the work says what else it could become", "[suits]") {
    CHECK(asked_of("suits", tube(13, 2, 320))["instead"].is_null());

    // Hands and bits that leave no five holes: fewer are laid out with nothing in the way.
    Json narrow = tube(13, 2, 320);
    narrow["shop"] = {{"spacing_mm", {{"min", 40}, {"max", 42}}},
                      {"diameter_mm", {{"min", 4}, {"max", 8}}}};
    const Json answer = asked_of("suits", narrow);
    REQUIRE(answer["worth"] == false);
    const Json& fewer = answer["instead"]["fewer_holes"];
    REQUIRE(fewer.is_object());
    CHECK(fewer["holes"].get<int>() < 4);
    const Json layout = asked_of("layout", taken(narrow, fewer));
    CHECK(layout["binding"].empty());
    CHECK(layout["foot_mm"].get<double>() == Approx(fewer["foot_mm"].get<double>()).margin(1e-6));

    // A stub is too short for any holes; it is still a whistle of one note.
    const Json stub = asked_of("suits", tube(25, 3, 120))["instead"];
    CHECK(stub["fewer_holes"].is_null());
    CHECK(stub["no_holes"]["bores"].get<double>() == Approx(120.0 / 25));
    CHECK(stub["no_holes"]["hz"] == asked_of("suits", tube(25, 3, 120))["reaches"]["hz"]);
}

TEST_CASE("what hands and bits stand in the way of is not the tube's fault", "[suits]") {
    Json document = tube(18, 3, 430);
    document["shop"] = {{"spacing_mm", {{"min", 5}, {"max", 9}}}};
    const Json close = asked_of("suits", document);
    CHECK_FALSE(close["worth"].get<bool>());
    CHECK(close["without_shop"].get<bool>());
    CHECK_FALSE(asked_of("suits", tube(25, 3, 120))["without_shop"].get<bool>());
    CHECK_FALSE(asked_of("suits", tube(13, 2, 320))["without_shop"].get<bool>());  // it is worth it
}

TEST_CASE("a tube that is short for its bore is called so", "[suits]") {
    const Json squat = asked_of("suits", tube(22, 2.5, 250)),
               slim = asked_of("suits", tube(13, 2, 320));
    REQUIRE(!squat["choices"].empty());
    REQUIRE(!slim["choices"].empty());
    CHECK(has(squat["choices"][0], "length_to_bore"));
    CHECK(!has(slim["choices"][0], "length_to_bore"));
    CHECK(squat["choices"][0]["score"].get<double>() < slim["choices"][0]["score"].get<double>());
}

// Half a wave between two open ends. At the foot 0.6 of the bore's radius (Levine & Schwinger
// 1948); at the sound hole its area's share of the bore's, 5.2, times wall w and two flanged ends
// of 0.85 radii each (Rayleigh, Theory of Sound, sec. 307; from memory): 5.2 (w + 1.7 x 0.219 D).
// Of textbook formulas that are good to a fifth here.
TEST_CASE("the tube to look for is half a wave less its ends", "[suits][derived]") {
    Json document = tube(18, 3, 300);
    for (const char* lowest : {"A4", "D5", "A5"}) {
        document["song"] = {{"lowest", lowest}, {"scale", "minor pentatonic"}, {"holes", 5}};
        const Json look = asked_of("suits", document)["look_for"];
        const double half_mm = 0.5 * 345e3 / look["lowest_hz"].get<double>();
        const double wall_mm =
            std::sqrt(look["wall_mm"]["min"].get<double>() * look["wall_mm"]["max"].get<double>());
        for (const auto& [bore, length] : {std::pair("max", "min"), std::pair("min", "max")}) {
            const double wide_mm = look["bore_mm"][bore].get<double>();
            const double ends_mm = half_mm - look["length_mm"][length].get<double>() / 1.08;
            CAPTURE(lowest, wide_mm, ends_mm);
            CHECK(ends_mm ==
                  Approx(0.3 * wide_mm + 5.2 * (wall_mm + 0.372 * wide_mm)).epsilon(0.2));
        }
    }
}

TEST_CASE("a tube to look for carries the song with the maker's hands", "[suits]") {
    Json document = tube(18, 3, 300);
    document["song"] = {{"lowest", "C4"}, {"scale", "minor pentatonic"}, {"holes", 5}};
    // A grown-up's reach: not every bore that C4 would speak on has its holes under the fingers.
    document["shop"] = {{"spacing_mm", {{"min", 20}, {"max", 60}}}, {"diameter_mm", {{"max", 11}}}};
    const Json look = asked_of("suits", document)["look_for"];
    REQUIRE(look["carries"].get<bool>());
    const auto span = [&](const char* key) {
        return std::pair(look[key]["min"].get<double>(), look[key]["max"].get<double>());
    };
    const auto [narrow_mm, wide_mm] = span("bore_mm");
    const auto [thin_mm, thick_mm] = span("wall_mm");
    CHECK(thin_mm < thick_mm);
    for (const double bore_mm : {narrow_mm, std::sqrt(narrow_mm * wide_mm), wide_mm})
        for (const double wall_mm : {thin_mm, thick_mm}) {
            const double factor = bore_mm / 18;
            Json found = document;
            found["tube"] = {{"bore", {{{"at_mm", 0}, {"diameter_mm", bore_mm}}}},
                             {"wall_mm", wall_mm},
                             {"end_mm", span("length_mm").second}};
            found["sound_hole"] = {{"length_mm", 5.4 * factor}, {"width_mm", 9 * factor}};
            const Json layout = asked_of("layout", found);
            CAPTURE(bore_mm, wall_mm);
            CHECK(layout["worst_cents"].get<double>() < 1.0);
            CHECK(layout["binding"].empty());
        }
    document["shop"]["diameter_mm"] = {{"min", 3}, {"max", 4}};
    const Json none = asked_of("suits", document)["look_for"];
    CHECK(!none["carries"].get<bool>());
}

TEST_CASE("bits that are many, and an octave that is ready, are told", "[suits]") {
    Json document = tube(12, 1.7, 384);
    for (int k = 0; k < 24; ++k) document["shop"]["bits"].push_back({{"mm", 3.0 + 0.2 * k}});
    const auto value = [](const Json& choice, const char* code) {
        for (const Json& reason : choice["reasons"])
            if (reason["code"] == code) return reason["value"].get<double>();
        return 0.0;
    };
    const Json answer = asked_of("suits", document);
    REQUIRE(!answer["choices"].empty());
    for (const Json& choice : answer["choices"]) {
        std::set<double> sizes;
        for (const Json& hole : choice["layout"]["finger_holes"])
            sizes.insert(std::round(100 * hole["diameter_mm"].get<double>()));
        CHECK(value(choice, "bits") == static_cast<double>(sizes.size()));
        // The smooth wall's share of losses falls with frequency, the radiated grows: from theory
        // (any text on duct acoustics) the octave's factor is between half and twice the first's.
        CHECK(value(choice, "octave_strength") > 0.5);
        CHECK(value(choice, "octave_strength") < 2.0);
    }
}

}  // namespace suits_test

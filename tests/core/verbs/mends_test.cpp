// tests/core/verbs/mends_test.cpp: what would put a layout right does so.
#include "core/verbs/choose/mends.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "tests/support/bare_tubes.hpp"
#include "tests/support/draw.hpp"

using namespace canewright;
using namespace canewright::testing;

namespace mends_test {  // its own where tests are compiled together
namespace {

// Sets `a.b.c` of a document.
void put(Json& document, const std::string& path, const Json& value) {
    Json* at = &document;
    std::size_t from = 0;
    for (std::size_t dot; (dot = path.find('.', from)) != std::string::npos; from = dot + 1)
        at = &(*at)[path.substr(from, dot - from)];
    (*at)[path.substr(from)] = value;
}

double value_at(const Json& document, const std::string& path) {
    const Json* at = &document;
    std::size_t from = 0;
    for (std::size_t dot; (dot = path.find('.', from)) != std::string::npos; from = dot + 1)
        at = &(*at)[path.substr(from, dot - from)];
    return (*at)[path.substr(from)].get<double>();
}

int check_mends(const Json& document) {
    CAPTURE(document.dump());
    const Json answer = asked_of("mends", document);
    for (const Json& mend : answer["mends"]) {
        CAPTURE(mend.dump());
        Json with = document;
        for (const Json& one : mend["set"]) put(with, one["path"], one["value"]);
        const Json layout = asked_of("layout", with);
        CHECK(layout["worst_cents"].get<double>() ==
              Approx(mend["worst_cents"].get<double>()).margin(1e-6));
        CHECK(mend["gains_cents"].get<double>() ==
              Approx(answer["worst_cents"].get<double>() - mend["worst_cents"].get<double>()));
        CHECK(mend["in_tune"] == (mend["worst_cents"].get<double>() <= 10.0));
        CHECK(mend["worst_cents"].get<double>() <= 50.0);
        // The least change: a step less of a limit is not in tune.
        const std::string code = mend["code"];
        const bool spacing = code == "wider_spacing" || code == "closer_spacing";
        if (!mend["in_tune"].get<bool>() ||
            !(spacing || code == "larger_holes" || code == "smaller_holes"))
            continue;
        const double sign = code == "wider_spacing" || code == "larger_holes" ? 1.0 : -1.0;
        const double less_mm = mend["amount_mm"].get<double>() - sign * (spacing ? 1.0 : 0.5);
        const std::string path = mend["set"][0]["path"];
        const double given_mm = value_at(document, path);
        if (sign * (less_mm - given_mm) <= 0.0) continue;
        with = document;
        put(with, path, less_mm);
        CHECK(asked_of("layout", with)["worst_cents"].get<double>() > 10.0);
        if (spacing) CHECK(mend["amount_mm"].get<double>() <= 35.0);
    }
    return static_cast<int>(answer["mends"].size());
}

}  // namespace

TEST_CASE("a mend does what it says", "[mends][property]") {
    Json document = tube(18, 3, 430);
    document["song"] = {{"lowest", "G4"}, {"scale", "minor pentatonic"}, {"holes", 5}};
    CHECK(asked_of("mends", document)["mends"].empty());
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
    const Json answer = asked_of("mends", document);
    bool told = false;
    for (const Json& mend : answer["mends"]) {
        if (mend["code"] != "one_more_bit") continue;
        told = true;
        CHECK(mend["label"].get<std::string>().find(" in") != std::string::npos);
        CHECK(mend["set"][0]["value"].back()["label"] == mend["label"]);
        CHECK(mend["set"][0]["value"][0]["label"] == "5/32 in");
    }
    CHECK(told);
    CHECK(check_mends(document) > 0);
}

TEST_CASE("mends of random tubes do what they say", "[mends][property][sweep]") {
    Draw draw(42, 0);
    int told = 0;
    for (int i = 0; i < 12; ++i) {
        const double bore_mm = draw.between(8, 24);
        Json document = tube(bore_mm, 0.12 * bore_mm, bore_mm * draw.between(14, 26));
        const Json suits = asked_of("suits", document);
        if (suits["choices"].empty()) continue;
        document = taken(document, suits["choices"][0]);
        document["shop"]["spacing_mm"]["max"] = std::round(draw.between(17, 22));
        if (i % 3 == 2)  // two bits far apart
            document["shop"]["bits"] = {{{"mm", std::round(0.25 * bore_mm)}},
                                        {{"mm", std::round(0.55 * bore_mm)}}};
        else
            document["shop"]["diameter_mm"] = {{"min", 0.38 * bore_mm}, {"max", 0.42 * bore_mm}};
        told += check_mends(document);
    }
    CHECK(told > 7);
}

TEST_CASE("a flute that was heard has its mends on the bench", "[mends]") {
    Json document = tube(18, 3, 430);
    document["song"] = {{"lowest", "G4"}, {"scale", "minor pentatonic"}, {"holes", 5}};
    document["log"] = {{{"read", {{"open", Json::array()}, {"hz", 380}}}}};
    const Json answer = asked_of("mends", document);
    CHECK(answer["heard"] == true);
    CHECK(answer["mends"].empty());
}

TEST_CASE("of notes that a tube cannot reach no mend is told that leaves another note", "[mends]") {
    Json document = tube(18, 3, 430);
    document["song"] = {{"lowest", "C3"}, {"scale", "minor pentatonic"}, {"holes", 5}};
    const Json answer = asked_of("mends", document);
    for (const Json& mend : answer["mends"]) {
        CAPTURE(mend.dump());
        CHECK(mend["worst_cents"].get<double>() <= 50.0);
        if (mend["code"] == "higher_lowest") CHECK(mend["in_tune"].get<bool>());
    }
    check_mends(document);
}

}  // namespace mends_test

// tests/core/verbs/hand_test.cpp -- finished flutes in, a hand out, and the next flute with it.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

#include "core/api.hpp"
#include "core/link/behind.hpp"
#include "core/link/link.hpp"
#include "core/task/build.hpp"
#include "tests/core/document/samples.hpp"

using namespace canewright;
using samples::with;
using samples::without;

namespace {

// A blown tube with a voice flatter than modelled by what `hz` says.
Json hand_flute(const std::string& name, double hz) {
    Json json = Json::parse(R"json({
      "format": "canewright/1",
      "tube": {"bore": [{"at_mm": 0, "diameter_mm": 18}], "wall_mm": 3, "end_mm": 430},
      "sound_hole": {"length_mm": 5, "width_mm": 9.5},
      "song": {"lowest": "G4", "scale": "minor pentatonic", "holes": 5},
      "log": [{"foot": {"at_mm": 390}}, {"read": {"open": [], "hz": 383, "sigma_cents": 2}}]
    })json");
    json["name"] = name;
    json["log"][1]["read"]["hz"] = hz;
    return json;
}

Json hand_reply(const Json& documents) {
    return Json::parse(run_workshop("hand", Json({{"documents", documents}}).dump()));
}

Json hand_of_three() {
    return hand_reply({hand_flute("one", 383), hand_flute("two", 384.5), hand_flute("three", 382)});
}

std::string first_fault(const Json& reply) {
    if (!reply.contains("violations")) return "nothing";
    return reply["violations"][0]["code"].get<std::string>() + " " +
           reply["violations"][0]["path"].get<std::string>();
}

}  // namespace

TEST_CASE("a hand is what several flutes taught, and the next tube's pattern", "[hand]") {
    const Json hand = hand_of_three()["answer"];
    CHECK(hand["of"] == Json({"one", "two", "three"}));
    CHECK(hand["flutes"] == 3);
    CHECK(hand["converged"] == true);
    CHECK(hand["mean"][0].get<double>() > 0.03);  // the voices sound flat: they act longer
    Json next = without(hand_flute("next", 383), "/log");
    const Json plain = Json::parse(run_workshop("layout", next.dump()))["answer"];
    next["pattern"] = hand;
    const Json taught = Json::parse(run_workshop("layout", next.dump()))["answer"];
    CHECK(taught["foot_mm"].get<double>() < plain["foot_mm"].get<double>() - 2.0);
    CHECK(taught["pattern"] == hand);
    // as narrow as the maker repeats, and no narrower
    const BuildState build = build_of(samples::read(next).document);
    for (std::size_t n = 0; n < kCarried.size(); ++n) {
        const double between = hand["between"][n][n], mean = hand["covariance"][n][n];
        CHECK(build.before.mean(kCarried[n]) == hand["mean"][n].get<double>());
        CHECK(build.before.sigma(kCarried[n]) == Approx(std::sqrt(between + mean)));
    }
    CHECK(build.before.sigma(kSoundHole) < build.stranger.sigma(kSoundHole));
    CHECK(build.before.sigma(kBore) == build.stranger.sigma(kBore));
}

TEST_CASE("what a rod burns wider than itself is learned from both sizes, and allowed for",
          "[hand]") {
    const auto burned = [](const std::string& name, double wider_mm) {
        Json json = hand_flute(name, 383);
        for (int hole = 5; hole > 2; --hole)
            json["log"].push_back({{"hole",
                                    {{"number", hole},
                                     {"at_mm", 100 + 40 * hole},
                                     {"diameter_mm", 5.5 + wider_mm},
                                     {"bit_mm", 5.5}}}});
        return json;
    };
    CHECK_FALSE(hand_of_three()["answer"].contains("burn"));  // no bit in any log
    const Json hand =
        hand_reply({burned("one", 0.5), burned("two", 0.6), burned("three", 0.4)})["answer"];
    const Json burn = hand["burn"];
    CHECK(burn["holes"] == 9);
    CHECK(burn["mean_mm"].get<double>() == Approx(0.5).margin(0.06));
    CHECK(burn["sigma_mm"].get<double>() < 0.2);
    CHECK(burn["between_mm"].get<double>() > 0.03);  // they do differ by 0.1
    // the next flute's drill is the smaller, its hole as wide as without a hand
    Json next = hand_flute("next", 383);
    const auto step_of = [&next](const Json& pattern) {
        next["pattern"] = pattern;
        const Json reply = Json::parse(run_workshop("next", next.dump()));
        REQUIRE(reply.contains("answer"));
        return reply["answer"]["step"];
    };
    next["log"] = Json::parse(R"([{"foot": {"at_mm": 390}},
        {"read": {"open": [], "hz": 391, "sigma_cents": 2}},
        {"foot": {"at_mm": 388}}, {"read": {"open": [], "hz": 392, "sigma_cents": 2}}])");
    const Json plain = step_of(without(hand, "/burn")), told = step_of(hand);
    REQUIRE(plain["do"] == "hole");
    REQUIRE(plain.contains("diameter_mm"));
    CHECK_FALSE(plain.contains("wide_mm"));
    const double bit_mm = told["diameter_mm"], wide_mm = told["wide_mm"];
    CHECK(wide_mm - bit_mm == Approx(burn["mean_mm"].get<double>()));
    CHECK(wide_mm < plain["diameter_mm"].get<double>());  // less sure: a little smaller
    CHECK(wide_mm == Approx(plain["diameter_mm"].get<double>()).margin(0.3));
    // by the maker's bits alone, holes are laid out as wide as these make them
    Json drilled = hand_flute("drilled", 383);
    drilled.erase("log");
    drilled.erase("finger_holes");
    drilled["pattern"] = hand;
    drilled["shop"]["bits"] = {{{"mm", 4.5}}, {{"mm", 5.5}}, {{"mm", 6.5}}};
    const Json laid = Json::parse(run_workshop("layout", drilled.dump()));
    REQUIRE(laid.contains("answer"));
    REQUIRE(laid["answer"]["finger_holes"].size() == 5);
    for (const Json& hole : laid["answer"]["finger_holes"]) {
        const double made_mm = hole["diameter_mm"], by_mm = burn["mean_mm"];
        CAPTURE(made_mm);
        CHECK(std::min({std::abs(made_mm - by_mm - 4.5), std::abs(made_mm - by_mm - 5.5),
                        std::abs(made_mm - by_mm - 6.5)}) < 1e-6);
    }
}

TEST_CASE("what cannot teach is refused with the flute's path", "[hand]") {
    const Json good = hand_flute("one", 383);
    CHECK(first_fault(hand_reply(Json::array())) == "too_small documents");
    CHECK(first_fault(Json::parse(run_workshop("hand", "{}"))) == "missing documents");
    CHECK(first_fault(hand_reply({good, with(good, "/tube/wall_mm", -1)})) ==
          "too_small documents[1].tube.wall_mm");
    CHECK(first_fault(hand_reply({without(good, "/log"), good})) == "needs documents[0].log");
    CHECK(first_fault(hand_reply({good, without(good, "/song")})) == "needs documents[1].song");
    const Json moved = with(good, "/log/2", {{"block", "moved"}});
    CHECK(first_fault(hand_reply(Json::array({moved}))) == "needs documents[0].log");
    CHECK(first_fault(hand_reply(Json::array({1}))) == "wrong_type documents[0]");
}

TEST_CASE("a broken hand is refused with its path", "[hand]") {
    const Json good = hand_of_three()["answer"];
    const auto wrong = [](const Json& hand) {
        const Json document = with(hand_flute("next", 383), "/pattern", hand);
        return first_fault(Json::parse(run_workshop("next", document.dump())));
    };
    CHECK(wrong(good) == "nothing");
    CHECK(wrong(with(good, "/of/1", 7)) == "wrong_type pattern.of[1]");
    CHECK(wrong(with(good, "/flutes", 0)) == "too_small pattern.flutes");
    CHECK(wrong(with(good, "/between/0/0", -1)) == "wrong_format pattern.between");
    CHECK(wrong(with(good, "/between/2", {1, 2})) == "wrong_type pattern.between[2]");
    CHECK(wrong(with(good, "/luck", 1)) == "unknown_key pattern.luck");
    CHECK(wrong(with(good, "/burn", {{"mean_mm", 0.3}})) == "missing pattern.burn.sigma_mm");
}

TEST_CASE("a link carries a hand behind all that older pages know", "[hand][link]") {
    Json next = without(hand_flute("next", 383), "/log");
    next["pattern"] = hand_of_three()["answer"];
    const Document document = samples::read(next).document;
    const Linked linked = link_of(document);
    REQUIRE(linked.violations.empty());
    const ReadDocument back = document_of_link(linked.text);
    REQUIRE(back.violations.empty());
    CHECK(Json::parse(back.document.pattern) == next["pattern"]);
    CHECK(link_of(back.document).text == linked.text);
    // what is packed as version 1 has no pattern in it, and the entry stands alone
    Document old = document;
    Behind behind = taken_out(old);
    CHECK(old.pattern.empty());
    CHECK(Json::parse(behind.hand) == next["pattern"]);
    CHECK(put_back(old, behind));
    CHECK(old.pattern == document.pattern);
    CHECK_FALSE(put_back(old, behind));  // there is a pattern already
}

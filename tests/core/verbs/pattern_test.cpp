// tests/core/verbs/pattern_test.cpp -- what one flute teaches the next.
#include <Eigen/Cholesky>
#include <catch2/catch.hpp>
#include <cmath>

#include "core/api.hpp"
#include "core/task/build.hpp"
#include "tests/core/document/samples.hpp"

using namespace canewright;

namespace pattern_test {  // its own where tests are compiled together
using samples::with;
using samples::without;

namespace {

Json tube(double bore_mm) {
    Json json = Json::parse(R"json({
      "format": "canewright/1", "name": "first",
      "tube": {"bore": [{"at_mm": 0, "diameter_mm": 18}], "wall_mm": 3, "end_mm": 430},
      "sound_hole": {"length_mm": 5, "width_mm": 9.5},
      "song": {"lowest": "G4", "scale": "minor pentatonic", "holes": 5}
    })json");
    json["tube"]["bore"][0]["diameter_mm"] = bore_mm;
    return json;
}

Json ask(const std::string& verb, const Json& document) {
    return Json::parse(run_workshop(verb, document.dump()));
}

// A voice much flatter than modelled, well heard.
Json heard() {
    Json json = tube(18);
    json["log"] =
        Json::array({{{"foot", {{"at_mm", 410}}}},
                     {{"read", {{"open", Json::array()}, {"hz", 366}, {"sigma_cents", 2}}}},
                     {{"foot", {{"at_mm", 390}}}},
                     {{"read", {{"open", Json::array()}, {"hz", 383}, {"sigma_cents", 2}}}}});
    return json;
}

Json unknown(const Json& next, const std::string& name) {
    for (const Json& each : next["answer"]["unknowns"])
        if (each["name"] == name) return each;
    return {};
}

}  // namespace

TEST_CASE("a pattern carries the voice to another tube, a little less sure", "[pattern]") {
    const Json pattern = ask("pattern", heard())["answer"];
    REQUIRE(pattern["unknowns"].size() == 4);
    CHECK(pattern["of"] == "first");
    CHECK(pattern["readings"] == 2);
    const Json taught = with(tube(16), "/pattern", pattern);
    const Json first = unknown(ask("next", heard()), "sound_hole");
    const Json next = ask("next", taught);
    const Json carried = unknown(next, "sound_hole");
    const Json stranger = unknown(ask("next", tube(16)), "sound_hole");
    CHECK_THAT(carried["mean"].get<double>(), Catch::WithinAbs(first["mean"].get<double>(), 1e-5));
    CHECK(carried["sigma"].get<double>() > first["sigma"].get<double>());
    CHECK(carried["sigma"].get<double>() < stranger["sigma"].get<double>());
    // the tube's own: not carried
    CHECK(unknown(next, "bore")["mean"] == 0.0);
    // never surer than a new voice allows
    CHECK(carried["sigma"].get<double>() > kNew * stranger["sigma"].get<double>());
}

TEST_CASE("a pattern moves the marks of the next tube the way its voice was off", "[pattern]") {
    const Json pattern = ask("pattern", heard())["answer"];
    const Json plain = ask("layout", tube(16))["answer"];
    const Json taught = ask("layout", with(tube(16), "/pattern", pattern))["answer"];
    CHECK(taught["foot_mm"].get<double>() < plain["foot_mm"].get<double>() - 2.0);
    CHECK(taught["finger_holes"][0]["at_mm"] < plain["finger_holes"][0]["at_mm"]);
    CHECK(taught["pattern"] == pattern);
    const Json sound = ask("sound", taught)["answer"];
    for (const Json& note : sound["notes"]) CHECK(std::abs(note["cents"].get<double>()) < 0.1);
}

TEST_CASE("the belief of a pattern is a covariance, whatever was told and not", "[pattern]") {
    Json document = with(tube(16), "/pattern", ask("pattern", heard())["answer"]);
    const ReadDocument read = samples::read(document);
    const BuildState build = build_of(read.document);
    const Eigen::LLT<Eigen::MatrixXd> root(build.before.covariance);
    CHECK(root.info() == Eigen::Success);
    const Belief stranger = build_of(samples::read(tube(16)).document).before;
    for (int n = 0; n < kCommonUnknowns; ++n)
        CHECK(build.before.sigma(n) <= stranger.sigma(n) + 1e-12);
}

TEST_CASE("a broken pattern is refused with its path", "[pattern]") {
    const Json good = ask("pattern", heard())["answer"];
    const auto wrong = [](const Json& pattern) {
        const Json json = ask("next", with(tube(16), "/pattern", pattern));
        return json.contains("violations")
                   ? json["violations"][0]["code"].get<std::string>() + " " +
                         json["violations"][0]["path"].get<std::string>()
                   : std::string("nothing");
    };
    CHECK(wrong(good) == "nothing");
    // As much as a maker may say of the breath, and what readings add.
    CHECK(wrong(with(good, "/mean/3", 63.035)) == "nothing");
    CHECK(wrong(with(good, "/mean/3", 121)) == "too_large pattern.mean[3]");
    CHECK(wrong(Json::object()) == "missing pattern.unknowns");
    CHECK(wrong(without(good, "/mean")) == "missing pattern.mean");
    CHECK(wrong(with(good, "/mean/0", "x")) == "wrong_type pattern.mean[0]");
    CHECK(wrong(with(good, "/mean", {1, 2})) == "wrong_type pattern.mean");
    CHECK(wrong(with(good, "/unknowns/0", "luck")) == "unknown_name pattern.unknowns[0]");
    CHECK(wrong(with(good, "/covariance/0/0", -1)) == "wrong_format pattern.covariance");
    CHECK(wrong(with(good, "/covariance/0/1", 0.5)) == "wrong_format pattern.covariance");
    CHECK(wrong(with(good, "/luck", 1)) == "unknown_key pattern.luck");
}

}  // namespace pattern_test

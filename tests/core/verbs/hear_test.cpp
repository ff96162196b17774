// tests/core/verbs/hear_test.cpp -- sound, strokes, attempts and typed pitches across the
// boundary.
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <vector>

#include "core/api.hpp"
#include "core/base/units.hpp"
#include "tests/core/document/samples.hpp"

using namespace canewright;
using Catch::Matchers::WithinAbs;

namespace {

constexpr double kRate_Hz = 48000.0;

std::vector<float> tone(double frequency_Hz) {
    std::vector<float> samples;
    for (int n = 0; n < 8192; ++n) {
        const double phase = 2.0 * kPi * frequency_Hz * n / kRate_Hz;
        samples.push_back(static_cast<float>(0.3 * std::sin(phase) + 0.08 * std::sin(2.0 * phase)));
    }
    return samples;
}

Json frame(const std::vector<float>& samples) {
    return Json::parse(pitch_frame_text(samples.data(), samples.size(), kRate_Hz));
}

}  // namespace

TEST_CASE("frames go out and come back as a held tone", "[hear]") {
    const Json pitch = frame(tone(587.33));
    CHECK(pitch["tone"] == true);
    CHECK_THAT(pitch["hz"].get<double>(), Catch::WithinAbs(587.33, 0.05));
    Json frames = Json::array();
    for (int n = 0; n < 25; ++n) frames.push_back({{"s", 0.05 * n}, {"pitch", pitch}});
    const Json held = Json::parse(held_tone_text(frames.dump(), 587.0));
    CHECK(held["state"] == "ready");
    CHECK_THAT(held["hz"].get<double>(), Catch::WithinAbs(587.33, 0.05));
    // an octave above what was expected
    const Json jumped = Json::parse(held_tone_text(frames.dump(), 293.7));
    CHECK(jumped["state"] == "jumped");
}

TEST_CASE("what is no sound is answered, not believed", "[hear]") {
    CHECK(frame(std::vector<float>(8192, 0.0F))["why_not"] == "silence");
    CHECK(frame({})["tone"] == false);
    std::vector<float> broken = tone(440);
    broken[7] = std::numeric_limits<float>::quiet_NaN();
    CHECK(frame(broken)["why_not"] == "bad_input");
    CHECK(Json::parse(held_tone_text("[]", 0))["state"] == "no_tone");
    CHECK(Json::parse(held_tone_text("{}", 0)).contains("violations"));
    CHECK(Json::parse(held_tone_text(R"([{"s": "x"}])", 0)).contains("violations"));
    const Json silence = frame(std::vector<float>(8192, 0.0F));
    const Json backwards =
        Json::array({{{"s", 1}, {"pitch", silence}}, {{"s", 0}, {"pitch", silence}}});
    CHECK(Json::parse(held_tone_text(backwards.dump(), 0))["violations"][0]["code"] ==
          "out_of_order");
}

TEST_CASE("strokes and attempts are asked in JSON", "[hear]") {
    const auto ask = [](const char* verb, const char* text) {
        return Json::parse(run_workshop(verb, text));
    };
    const Json far =
        ask("strokes", R"({"blows":[{"strokes":0,"hz":500}],"stop_hz":521})")["answer"];
    CHECK(far["what"] == "more");
    CHECK(far["count"].get<int>() >= 2);
    const Json there = ask("strokes", R"({"blows":[{"hz":521.5},{"hz":521.6}],"stop_hz":521,
                                          "scatter_cents":1,"scatter_blows":40})")["answer"];
    CHECK(there["what"] == "stop");
    CHECK(there["scatter_blows"] == 40);
    CHECK(there["mark_hz"] == 521);
    const char* const rising = R"({"blows":[{"hz":490},{"hz":495},{"hz":500}],"stop_hz":521)";
    CHECK(ask("strokes", (rising + std::string("}")).c_str())["answer"]["opened_untold"] == true);
    CHECK(
        ask("strokes",
            (rising + std::string(R"(,"tapping":"tapped"})")).c_str())["answer"]["opened_untold"] ==
        false);
    const Json wrong = ask("strokes", (rising + std::string(R"(,"tapping":"x"})")).c_str());
    CHECK(wrong["violations"][0]["code"] == "unknown_name");
    CHECK(wrong["violations"][0]["path"] == "tapping");
    // blown sharper than known: the mark moves up
    const Json moved = ask("strokes", R"({"blows":[{"hz":500}],"stop_hz":521,"now_hz":497,
                                          "now_sigma_cents":2,"moment_cents":6})")["answer"];
    CHECK(moved["mark_hz"] > 521.0);
    CHECK(moved["first_hz"] == 500);
    CHECK(ask("strokes", R"({"blows":[],"stop_hz":521})")["violations"][0]["path"] == "blows");
    CHECK(ask("strokes", R"({"blows":[{"hz":-1}],"stop_hz":521})")["violations"][0]["path"] ==
          "blows[0].hz");
    CHECK(ask("attempts", R"({"hz":[500,501,560]})")["answer"]["hz"] == 501);
    CHECK(ask("attempts", R"({"hz":[]})")["violations"][0]["path"] == "hz");
    CHECK(ask("attempts", "nonsense")["violations"][0]["code"] == "not_json");
}

// What the page asks when somebody types off a meter. The arithmetic is core/listen's, and its
// test's: here are the keys.
TEST_CASE("a typed reading is asked in JSON", "[hear]") {
    const auto ask = [](const char* text) { return Json::parse(run_workshop("reading", text)); };
    const auto hz = [&](const char* text) { return ask(text)["answer"]["hz"].get<double>(); };
    const auto code = [&](const char* text) { return ask(text)["violations"][0]["code"]; };
    CHECK_THAT(hz(R"({"text":"587,3 Hz"})"), WithinAbs(587.3, 1e-9));
    CHECK_THAT(hz(R"({"text":"+0","note_hz":300})"), WithinAbs(300, 1e-9));
    // Where the note has a name, a meter counts from equal temperament and its own pitch standard.
    CHECK_THAT(hz(R"({"text":"+0","note_hz":300,"name":"A4","a4_hz":415})"), WithinAbs(415, 1e-9));
    CHECK(code(R"({"text":"+0"})") == "not_a_pitch");
    CHECK(code(R"({"text":"600","expected_hz":300})") == "second_register");
    CHECK(code(R"({"text":"+0","name":"H4"})") == "not_a_note");
    CHECK(code(R"({})") == "missing");
    CHECK(code(R"({"text":7})") == "wrong_type");
    CHECK(code(R"({"text":"+0","typo":1})") == "unknown_key");
}

// tests/whole/second_hz_test.cpp: the second register along a sweep.
#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "tests/support/answers.hpp"

using namespace canewright::testing;

// A resonance of the tube below the open holes touches zero at some lengths of the tube and at
// others not: where it hardly does no register is promised, and between two that are told of lies
// no jump.
TEST_CASE("a second register comes and goes with a word", "[whole][second]") {
    Json tube = stored("second_register_touches");
    const double end_mm = tube["tube"]["end_mm"];
    double last_Hz = 0.0;
    int told = 0, untold = 0;
    for (int step = -30; step <= 60; ++step) {
        tube["tube"]["end_mm"] = end_mm + 0.05 * step;
        CAPTURE(step);
        const Json sounds = answer_to("sound", answer_to("layout", tube));
        for (const Json& note : sounds["notes"]) {
            if (note["open"] != Json::array({2, 3, 4, 5})) continue;
            if (!note["second_hz"].is_number()) {
                CHECK(note["second_why"] == "faint_register");
                last_Hz = 0.0;
                ++untold;
                continue;
            }
            const double now_Hz = note["second_hz"];
            if (last_Hz > 0.0) CHECK(std::abs(1200.0 * std::log2(now_Hz / last_Hz)) < 10.0);
            last_Hz = now_Hz;
            ++told;
        }
    }
    CHECK(told > 10);
    CHECK(untold > 0);
}

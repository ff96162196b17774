// tests/whole/repro_build_test.cpp: builds whose next step was once wrong without a word.
#include <catch2/catch.hpp>
#include <cmath>

#include "tests/support/answers.hpp"
#include "tests/support/properties.hpp"

using namespace canewright::testing;

// Air that is given for comparison with calculations is that of a build, too.
TEST_CASE("a log changes nothing of given air", "[whole][property]") {
    const Json build = stored("lossless_build");
    Json before = build;
    before.erase("log");
    const Json marks = answer_to("layout", before);
    CHECK(furthest_mm(marks, answer_to("layout", build)) < kSame_mm);
    CHECK(furthest_mm(marks, answer_to("next", before)) < kSame_mm);
    CHECK(furthest_mm(marks, answer_to("next", build)) < kSame_mm);
    check_sound_agrees(marks);
}

// A first reading a little off the plan: what was planned stays near it, though the lowest note may
// be any.
TEST_CASE("where the lowest note floats one reading leaves the plan standing",
          "[whole][property]") {
    const Json build = stored("floating_plan_wanders");
    const Json next = answer_to("next", build);
    CHECK(next["converged"] == true);
    for (std::size_t i = 0; i < 5; ++i) {
        CAPTURE(i);
        CHECK(std::abs(next["finger_holes"][i]["at_mm"].get<double>() -
                       build["finger_holes"][i]["at_mm"].get<double>()) < 30.0);
        CHECK(next["notes"][i + 1]["hz"].is_number());
    }
    CHECK(next["prospect"]["within_cents"].get<double>() < 30.0);
}

// What the plan leaves off is not promised: the tube's own bits are too few for its notes.
TEST_CASE("what a build comes to counts what its plan leaves over", "[whole][property]") {
    Json tube = stored("one_bit");
    const Json held = answer_to("next", tube);
    CHECK(held["prospect"]["within_cents"].get<double>() > 20.0);
    CHECK(held["prospect"]["chance"].get<double>() < 0.01);
    // the top note's hole may be opened beyond the bit: it ends nearer than it is planned, and off
    const Json& top = held["notes"].back();
    const double planned_cents =
        1200.0 * std::log2(top["hz"].get<double>() / top["target_hz"].get<double>());
    CHECK(planned_cents < -60.0);
    CHECK(top["ends_cents"].get<double>() > planned_cents + 20.0);
    CHECK(top["ends_cents"].get<double>() < -held["prospect"]["tolerance_cents"].get<double>());
    tube["shop"].erase("bits");
    const Json free = answer_to("next", tube);
    CHECK(free["prospect"]["within_cents"].get<double>() < 15.0);
    for (const Json& note : free["notes"]) CHECK(std::abs(note["ends_cents"].get<double>()) < 4.0);
}

// tests/whole/hair_test.cpp: what a hair may decide, and what is said where it does.
//
// An edge is found by halving, or by what a layout says itself, where a digit of the acoustics
// would move it.
#include <algorithm>
#include <catch2/catch.hpp>
#include <utility>

#include "tests/support/answers.hpp"

using namespace canewright::testing;

namespace {

Json bamboo() {
    return Json::parse(R"({"format": "canewright/1",
        "tube": {"bore": [{"at_mm": 0, "diameter_mm": 16}], "wall_mm": 2.5, "end_mm": 420},
        "plug": {"offset_mm": 0}, "sound_hole": {"length_mm": 5, "width_mm": 9},
        "song": {"lowest": {"hz": 440}, "scale": "major pentatonic", "holes": 5}})");
}

double size_mm(const Json& layout, std::size_t hole) {
    return layout["finger_holes"][hole]["diameter_mm"].get<double>();
}

// Of two documents that differ by one number and are answered with different bits, the pair on
// either side of the edge between them, `near` apart.
template <class Set>
std::pair<Json, Json> edge(double low, double high, double near, Set set) {
    const Json at_low = answer_to("layout", set(low));
    while (high - low > near) {
        const double middle = 0.5 * (low + high);
        const bool below = size_mm(answer_to("layout", set(middle)), 0) == size_mm(at_low, 0);
        (below ? low : high) = middle;
    }
    return {answer_to("layout", set(low)), answer_to("layout", set(high))};
}

}  // namespace

// Many flutes are in tune, 64 mm apart, and a hair decides which start loses a register on its way.
TEST_CASE("where a hair decides between flutes, layout says how far the other lies", "[whole]") {
    Json tube = stored("hint_of_a_register");
    const Json here = answer_to("layout", tube);
    tube["tube"]["wall_mm"] = tube["tube"]["wall_mm"].get<double>() + 0.01;
    const Json there = answer_to("layout", tube);
    REQUIRE(furthest_mm(here, there) > kContinuous_mm);
    CHECK(std::max(here["loose_mm"].get<double>(), there["loose_mm"].get<double>()) >
          furthest_mm(here, there) - kContinuous_mm);
    CHECK(!answer_to("layout", stored("a_hair_too_short")).contains("loose_mm"));
}

// Between two of the maker's bits all holes may go over to the other one at once.
TEST_CASE("where a hair decides between two bits, layout says how far the other lies", "[whole]") {
    const auto [one, other] = edge(14.0, 18.0, 0.001, [](double bore_mm) {
        Json tube = bamboo();
        tube["shop"]["bits"] = Json::parse(R"([{"mm": 5.5}, {"mm": 7.5}])");
        tube["tube"]["bore"][0]["diameter_mm"] = bore_mm;
        return tube;
    });
    REQUIRE(size_mm(one, 0) != size_mm(other, 0));
    const double moved_mm = furthest_mm(one, other);
    REQUIRE(moved_mm > kContinuous_mm);
    for (const Json& each : {one, other}) {
        REQUIRE(each.contains("loose_mm"));
        CHECK(each["loose_mm"].get<double>() > moved_mm - kContinuous_mm);
    }
}

// The end of the tube costs no note a tenth of a cent, and the octaves count as before; the one of
// these where a walk gives up along the end says that it stands at an edge.
TEST_CASE("octaves that count do so on a tube a hair too short", "[whole][property]") {
    Json tube = bamboo();
    tube["song"]["octaves_weight"] = 0.5;
    const Json wanted = answer_to("layout", tube);
    const double asked = wanted["octaves_counted"].get<double>();
    REQUIRE(asked == 0.5);
    int as_asked = 0;
    for (const double by_mm : {0.0003, 0.001, 0.003, 0.01, 0.03}) {
        CAPTURE(by_mm);
        tube["tube"]["end_mm"] = wanted["foot_mm"].get<double>() - by_mm;
        const Json cut = answer_to("layout", tube);
        const double counted = cut["octaves_counted"].get<double>();
        CHECK(counted > 0.0);
        CHECK(furthest_mm(cut, wanted) < kContinuous_mm + cut.value("loose_mm", 0.0));
        as_asked += counted == asked;
    }
    CHECK(as_asked >= 4);
}

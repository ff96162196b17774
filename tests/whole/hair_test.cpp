// tests/whole/hair_test.cpp: what a hair may decide, and what is said where it does.
//
// An edge is found by halving, or by what a layout says itself, where a digit of the acoustics
// would move it.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
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

// Of two documents that differ by one number and are answered in different ways, the pair on either
// side of the edge between them, `near` apart.
template <class Set, class Way>
std::pair<Json, Json> edge(double low, double high, double near, Set set, Way way) {
    const auto way_at_low = way(answer_to("layout", set(low)));
    while (high - low > near) {
        const double middle = 0.5 * (low + high);
        const bool below = way(answer_to("layout", set(middle))) == way_at_low;
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
    const auto set = [](double bore_mm) {
        Json tube = bamboo();
        tube["shop"]["bits"] = Json::parse(R"([{"mm": 5.5}, {"mm": 7.5}])");
        tube["tube"]["bore"][0]["diameter_mm"] = bore_mm;
        return tube;
    };
    const auto bit_mm = [](const Json& layout) { return size_mm(layout, 0); };
    const auto [one, other] = edge(14.0, 18.0, 0.001, set, bit_mm);
    REQUIRE(size_mm(one, 0) != size_mm(other, 0));
    const double moved_mm = furthest_mm(one, other);
    REQUIRE(moved_mm > kContinuous_mm);
    for (const Json& each : {one, other}) {
        REQUIRE(each.contains("loose_mm"));
        CHECK(each["loose_mm"].get<double>() > moved_mm - kContinuous_mm);
    }
}

// A sound hole a hair wider, and hardly an octave counts any more: all holes lie elsewhere, 18 mm
// away.
TEST_CASE("where a hair lets octaves count or not, layout says how far the marks would go",
          "[whole]") {
    const Json tube = stored("octaves_on_an_edge");
    const double wide_mm = tube["sound_hole"]["width_mm"].get<double>();
    const auto set = [&tube](double width_mm) {
        Json other = tube;
        other["sound_hole"]["width_mm"] = width_mm;
        return other;
    };
    const auto asked = [&tube](const Json& layout) {
        return layout["octaves_counted"] == tube["song"]["octaves_weight"];
    };
    const auto [one, other] = edge(wide_mm - 0.2, wide_mm + 0.2, 0.001, set, asked);
    REQUIRE(asked(one));
    REQUIRE(!asked(other));
    const double moved_mm = furthest_mm(one, other);
    REQUIRE(moved_mm > kContinuous_mm);
    for (const Json& each : {one, other}) {
        REQUIRE(each.contains("loose_mm"));
        CHECK(each["loose_mm"].get<double>() > moved_mm - kContinuous_mm);
    }
}

// Two resonances of the top note had met, and a rounding decided which of them was its first: 228
// cents between what two verbs said of one flute. No maker stands on such an edge.
TEST_CASE("a layout stands clear of where a note goes over to another register", "[whole]") {
    int converged = 0;
    for (const char* name :
         {"on_the_edge_of_a_register", "on_the_edge_with_octaves", "on_the_edge_of_the_bore"}) {
        CAPTURE(name);
        const Json laid_out = answer_to("layout", stored(name));
        check_sound_agrees(laid_out);
        if (!laid_out["converged"].get<bool>()) continue;
        ++converged;
        for (const double share : {0.995, 1.005}) {
            Json cut = laid_out;
            for (Json& hole : cut["finger_holes"])
                for (const char* key : {"diameter_mm", "inner_diameter_mm"})
                    hole[key] = share * hole[key].get<double>();
            const Json sounds = answer_to("sound", cut);
            for (std::size_t n = 0; n < sounds["notes"].size(); ++n)
                CHECK(std::abs(1200.0 * std::log2(sounds["notes"][n]["hz"].get<double>() /
                                                  laid_out["notes"][n]["hz"].get<double>())) <
                      60.0);
        }
    }
    CHECK(converged > 0);
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

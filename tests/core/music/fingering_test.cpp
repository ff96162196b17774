// tests/core/music/fingering_test.cpp -- the fingering table and how fingerings are resolved.
#include "core/music/fingering.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>
#include <vector>

using namespace canewright;
using Open = std::vector<int>;
using Steps = std::vector<double>;

namespace {

Steps steps_of(const ResolvedFingerings& resolved) {
    Steps steps;
    for (const FingeredStep& step : resolved.steps) steps.push_back(step.step_cents);
    return steps;
}

OwnFingerings open_of(const ResolvedFingerings& resolved) {
    OwnFingerings open;
    for (const FingeredStep& step : resolved.steps) open.push_back(step.open);
    return open;
}

Scale own_scale(Steps steps) { return {"", std::move(steps)}; }

struct Expected {
    Code code;
    std::string path;
    double value;
    double limit;
};

void check_found(const ResolvedFingerings& resolved, const std::vector<Expected>& expected) {
    CHECK(resolved.steps.empty());
    REQUIRE(resolved.violations.size() == expected.size());
    for (std::size_t i = 0; i < expected.size(); ++i) {
        const Violation& found = resolved.violations[i];
        CHECK(std::string(name(found.code)) == name(expected[i].code));
        CHECK(found.path == expected[i].path);
        CHECK(found.value == expected[i].value);
        CHECK(found.limit == expected[i].limit);
    }
}

// What every set of fingerings must fulfil: rising steps from 0, hole numbers that exist and rise,
// and no step that opens a subset of the holes of a lower one, since opening a hole of a passive
// tube never lowers its resonances (it only removes constraint; Rayleigh's principle).
void check_sound(const std::vector<FingeredStep>& steps, int holes) {
    REQUIRE_FALSE(steps.empty());
    CHECK(steps.front().step_cents == 0.0);
    for (std::size_t high = 0; high < steps.size(); ++high) {
        const Open& open = steps[high].open;
        CHECK(std::is_sorted(open.begin(), open.end()));
        CHECK(std::adjacent_find(open.begin(), open.end()) == open.end());
        for (const int number : open) CHECK((number >= 1 && number <= holes));
        for (std::size_t low = 0; low < high; ++low) {
            CHECK(steps[low].step_cents < steps[high].step_cents);
            const Open& below = steps[low].open;
            CHECK_FALSE(std::includes(below.begin(), below.end(), open.begin(), open.end()));
        }
    }
}

}  // namespace

TEST_CASE("every entry of the table is sound", "[fingering][property]") {
    for (const FingeringEntry& entry : fingering_table()) {
        CAPTURE(entry.scale, entry.holes);
        const Scale* scale = find_scale(entry.scale);
        REQUIRE(scale != nullptr);
        CHECK((entry.holes >= kFewestHoles && entry.holes <= kMostHoles));
        check_sound(entry.steps, entry.holes);
        CHECK(entry.steps.front().open.empty());
        const Steps degrees = continued_steps(scale->step_cents, 15);
        for (const FingeredStep& step : entry.steps) {
            CHECK(std::count(degrees.begin(), degrees.end(), step.step_cents) == 1);
        }
        const auto same = [&](const FingeringEntry& other) {
            return other.scale == entry.scale && other.holes == entry.holes;
        };
        CHECK(std::count_if(fingering_table().begin(), fingering_table().end(), same) == 1);
    }
}

TEST_CASE("every named scale can be played with any number of holes", "[fingering][property]") {
    for (const Scale& scale : named_scales()) {
        for (int holes = kFewestHoles; holes <= kMostHoles; ++holes) {
            CAPTURE(scale.name, holes);
            const ResolvedFingerings resolved = resolve_fingerings(scale, holes);
            CHECK(resolved.violations.empty());
            check_sound(resolved.steps, holes);
        }
    }
}

// Common practice, no source.
TEST_CASE("six holes, minor pentatonic: hole 3 stays covered", "[fingering][trade]") {
    const ResolvedFingerings resolved = resolve_fingerings(*find_scale("minor pentatonic"), 6);
    CHECK(steps_of(resolved) == Steps{0, 300, 500, 700, 1000, 1200});
    CHECK(open_of(resolved) ==
          OwnFingerings{{}, {6}, {5, 6}, {4, 5, 6}, {2, 4, 5, 6}, {1, 2, 4, 5, 6}});
}

TEST_CASE("without an entry one hole after the other is opened", "[fingering][trade]") {
    const ResolvedFingerings five = resolve_fingerings(*find_scale("minor pentatonic"), 5);
    CHECK(steps_of(five) == Steps{0, 300, 500, 700, 1000, 1200});
    CHECK(open_of(five) ==
          OwnFingerings{{}, {5}, {4, 5}, {3, 4, 5}, {2, 3, 4, 5}, {1, 2, 3, 4, 5}});
    CHECK(steps_of(resolve_fingerings(*find_scale("minor pentatonic"), 4)) ==
          Steps{0, 300, 500, 700, 1000});
    CHECK(steps_of(resolve_fingerings(*find_scale("major pentatonic"), 6)) ==
          Steps{0, 200, 400, 700, 900, 1200, 1400});
    CHECK(steps_of(resolve_fingerings(*find_scale("major"), 5)) ==
          Steps{0, 200, 400, 500, 700, 900});
    const ResolvedFingerings six = resolve_fingerings(*find_scale("major"), 6);
    CHECK(steps_of(six) == Steps{0, 200, 400, 500, 700, 900, 1100});
    CHECK(open_of(six).back() == Open{1, 2, 3, 4, 5, 6});
    CHECK(steps_of(resolve_fingerings(*find_scale("natural minor"), 8)).back() == 1400.0);
    CHECK(steps_of(resolve_fingerings(*find_scale("major"), 1)) == Steps{0, 200});
}

// A cross fingering covers holes below the first open one. The note with those holes open is a
// semitone higher; the note with the first open one covered instead is lower.
TEST_CASE("five holes, natural minor: seven degrees by one cross fingering",
          "[fingering][trade]") {  // common practice, no source
    const Scale& scale = *find_scale("natural minor");
    const ResolvedFingerings resolved = resolve_fingerings(scale, 5);
    CHECK(steps_of(resolved) == Steps{0, 200, 300, 500, 700, 800, 1000});
    int crossed = 0;
    for (std::size_t i = 1; i + 1 < resolved.steps.size(); ++i) {
        const Open& open = resolved.steps[i].open;
        const Open row = lowest_holes(6 - open.front(), 5);
        if (open == row) continue;
        ++crossed;
        CHECK(std::includes(row.begin(), row.end(), open.begin(), open.end()));
        CHECK(resolved.steps[i + 1].open == row);
        CHECK(resolved.steps[i + 1].step_cents - resolved.steps[i].step_cents == 100.0);
        CHECK(resolved.steps[i - 1].open == lowest_holes(5 - open.front(), 5));
    }
    CHECK(crossed == 1);
}

TEST_CASE("one's own scale: every step or a violation", "[fingering]") {
    const Steps eight = {0, 200, 300, 500, 700, 800, 1000, 1200};
    check_found(resolve_fingerings(own_scale(eight), 6),
                {{Code::missing_fingering, "song.scale", 8, 7}});
    CHECK(steps_of(resolve_fingerings(own_scale(eight), 7)) == eight);
    // More holes than steps: the scale goes on.
    const ResolvedFingerings more = resolve_fingerings(own_scale({0, 300, 500, 700}), 5);
    CHECK(steps_of(more) == Steps{0, 300, 500, 700, 1200, 1500});
    CHECK(open_of(more).back() == Open{1, 2, 3, 4, 5});
    // Own cents never take an entry of the table, even where they equal a named scale.
    CHECK(open_of(resolve_fingerings(own_scale({0, 300, 500, 700, 1000, 1200}), 6))[4] ==
          Open{3, 4, 5, 6});
}

TEST_CASE("one's own fingerings replace the default", "[fingering]") {
    const Scale& scale = *find_scale("minor pentatonic");
    const OwnFingerings own = {{}, {5}, {5, 4}, {4, 3, 5}, {2, 4, 5}, {1, 2, 4, 5}};
    const ResolvedFingerings resolved = resolve_fingerings(scale, 5, own);
    CHECK(resolved.violations.empty());
    CHECK(steps_of(resolved) == scale.step_cents);
    CHECK(open_of(resolved) == OwnFingerings{{}, {5}, {4, 5}, {3, 4, 5}, {2, 4, 5}, {1, 2, 4, 5}});

    const Scale eight = own_scale({0, 200, 400, 500, 700, 900, 1100, 1200});
    CHECK(
        resolve_fingerings(
            eight, 6,
            OwnFingerings{
                {}, {6}, {5}, {5, 6}, {4, 5, 6}, {3, 4, 5, 6}, {2, 3, 4, 5, 6}, {1, 2, 3, 4, 5, 6}})
            .violations.empty());
}

TEST_CASE("what is wrong with one's own fingerings, all at once", "[fingering]") {
    const Scale three = own_scale({0, 300, 500});
    const std::string path = "song.fingerings";
    const auto own = [&](OwnFingerings lists) { return resolve_fingerings(three, 3, lists); };

    check_found(own({}), {{Code::missing_fingering, path, 0, 3}});
    check_found(own({{}, {3}}), {{Code::missing_fingering, path, 2, 3}});
    check_found(own({{}, {3}, {2, 3}, {1}}), {{Code::too_large, path, 4, 3}});
    check_found(own({{0}, {4, 3}, {3, 2, 3}}), {{Code::bad_hole_number, path + "[0][0]", 0, 3},
                                                {Code::bad_hole_number, path + "[1][0]", 4, 3},
                                                {Code::overlap, path + "[2][2]", 3, 3}});
    check_found(own({{}, {-2}}), {{Code::missing_fingering, path, 2, 3},
                                  {Code::bad_hole_number, path + "[1][0]", -2, 3}});
    check_found(own({{}, {3}, {3}}), {{Code::overlap, path + "[2]", 500, 300}});
    check_found(own({{}, {3, 2}, {3}}), {{Code::out_of_order, path + "[2]", 500, 300}});
    check_found(own({{3}, {2, 3}, {}}), {{Code::out_of_order, path + "[2]", 500, 0}});
}

TEST_CASE("one to eight holes", "[fingering]") {
    const Scale& scale = *find_scale("major");
    check_found(resolve_fingerings(scale, 0), {{Code::too_small, "song.holes", 0, 1}});
    check_found(resolve_fingerings(scale, -3), {{Code::too_small, "song.holes", -3, 1}});
    check_found(resolve_fingerings(scale, 9), {{Code::too_large, "song.holes", 9, 8}});
    check_found(resolve_fingerings(scale, 9, OwnFingerings{}),
                {{Code::too_large, "song.holes", 9, 8}});
    CHECK(steps_of(resolve_fingerings(scale, 8)).size() == 9);
}

TEST_CASE("holes from the foot up", "[fingering][analytic]") {
    CHECK(lowest_holes(0, 5).empty());
    CHECK(lowest_holes(2, 5) == Open{4, 5});
    CHECK(lowest_holes(5, 5) == Open{1, 2, 3, 4, 5});
}

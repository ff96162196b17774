// tests/core/layout/place_holes_test.cpp: what a layout must give where nothing stands in its way.
#include "core/layout/place_holes.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/base/units.hpp"
#include "core/flute/resonance.hpp"
#include "tests/support/layouts.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {

constexpr double kInTune_cents = 0.1;  // what is asked of a layout with free diameters

void check_in_tune(const LayoutTask& task, const Air& air) {
    const LayoutResult result = place_holes(task, air);
    CHECK(result.converged);
    CHECK(finite(result));
    CHECK(result.worst_cents < kLayoutError_cents);
    CHECK(result.binding.empty());
    CHECK(heard_errors_cents(task, result, air) < kInTune_cents);
    CHECK(result.notes.size() == task.notes.size());
    for (std::size_t i = 1; i < result.flute.holes.size(); ++i)
        CHECK(result.flute.holes[i].at_m > result.flute.holes[i - 1].at_m);
    CHECK(result.flute.foot_m > result.flute.holes.back().at_m);
    CHECK(result.flute.foot_m <= task.end_m * (1.0 + 1e-9));
}

}  // namespace

// Property: the network asked again, apart from the layout, sounds the targets.
TEST_CASE("layout then sound returns the targets", "[layout][property]") {
    check_in_tune(easy_task(), played_air());
    check_in_tune(easy_task(), lossless_air());
}

// Holes that were given, but that nothing holds, are a start and no more: bunched at the foot or
// spread at random, the notes are met all the same.
TEST_CASE("given holes are only a start", "[layout][property]") {
    for (const double pitch_m : {0.006, 0.012, 0.035}) {
        CAPTURE(pitch_m);
        LayoutTask task = easy_task();
        for (int i = 0; i < task.hole_count; ++i) {
            FingerHole hole;
            hole.at_m = 0.20 - pitch_m * (task.hole_count - 1 - i);
            hole.diameter_m = hole.inner_diameter_m = i % 2 ? 0.0095 : 0.0018;
            hole.wall_m = task.flute.wall_m;
            task.flute.holes.push_back(hole);
        }
        check_in_tune(task, played_air());
    }
}

// A lowest note that falls where the tube has it: the foot stays, the intervals hold.
TEST_CASE("the lowest note may float", "[layout][property]") {
    LayoutTask task = easy_task();
    task.lowest_free = true;
    task.flute.foot_m = task.end_m = 0.2134;
    const Air air = played_air();
    check_in_tune(task, air);
    const LayoutResult result = place_holes(task, air);
    CHECK(result.flute.foot_m == 0.2134);
    // followed to it
    CHECK(std::abs(cents_between(result.notes.front().sounding_Hz,
                                 pitch_Hz(result.flute, air, {}))) < kNearError_cents);
}

// A cross-fingering decides its own hole together with all the others.
TEST_CASE("cross-fingerings are solved with the rest", "[layout][property]") {
    LayoutTask task = easy_task();
    task.hole_count = 6;
    task.end_m = task.flute.foot_m = 0.27;
    task.notes.clear();
    const std::vector<std::pair<Fingering, double>> notes = {{{}, 0.0},
                                                             {{6}, 200.0},
                                                             {{5, 6}, 400.0},
                                                             {{4, 5, 6}, 500.0},
                                                             {{3, 4, 5, 6}, 700.0},
                                                             {{2, 3, 4, 5, 6}, 900.0},
                                                             {{2, 4, 5, 6}, 850.0}};
    for (const auto& [open, cents] : notes) {
        NoteTarget note;
        note.open = open;
        note.interval_cents = cents;
        note.target_Hz = shifted_Hz(587.33, cents);
        task.notes.push_back(note);
    }
    const Air air = played_air();
    const LayoutResult result = place_holes(task, air);
    CHECK(finite(result));
    CHECK(result.converged);
    CHECK(heard_errors_cents(task, result, air) < kInTune_cents);
    CHECK(result.notes.back().open == Fingering{2, 4, 5, 6});
}

// Six holes of which one is never opened: it stands between its neighbours.
TEST_CASE("a hole that no note opens finds a place", "[layout][property]") {
    LayoutTask task = easy_task();
    task.hole_count = 6;
    task.notes.clear();
    const std::vector<Fingering> opens = {{},        {6},          {5, 6},
                                          {4, 5, 6}, {2, 4, 5, 6}, {1, 2, 4, 5, 6}};
    for (std::size_t i = 0; i < opens.size(); ++i) {
        NoteTarget note;
        note.open = opens[i];
        note.interval_cents = kMinorPentatonic[i];
        note.target_Hz = shifted_Hz(659.26, note.interval_cents);
        task.notes.push_back(note);
    }
    check_in_tune(task, played_air());
    const LayoutResult result = place_holes(task, played_air());
    const auto& holes = result.flute.holes;
    const double middle_m = 0.5 * (holes[1].at_m + holes[3].at_m);
    CHECK(std::abs(holes[2].at_m - middle_m) < 0.25 * (holes[3].at_m - holes[1].at_m));
}

TEST_CASE("tapered, oval, undercut and plugged tubes are laid out too", "[layout][property]") {
    LayoutTask task = easy_task();
    task.flute.bore = {{0.0, 0.0125, 0.0125}, {0.1, 0.0128, 0.0122}, {0.25, 0.0115, 0.0115}};
    check_in_tune(task, played_air());
    task = easy_task();
    task.flute.bore = {{0.0, 0.0118, 0.0132}};
    check_in_tune(task, played_air());
    task = easy_task();
    task.flute.plug_offset_m = 0.004;
    task.flute.ridge = Ridge{0.09, 0.011};
    check_in_tune(task, played_air());
    task = easy_task();
    task.flute.foot_plug = FootPlug{0.009, 0.003};
    check_in_tune(task, played_air());
}

// An undercut hole keeps its shape while it is sized.
TEST_CASE("a given flare is kept", "[layout][property]") {
    LayoutTask task = easy_task();
    const LayoutResult straight = place_holes(task, played_air());
    task.flute.holes = straight.flute.holes;
    for (FingerHole& hole : task.flute.holes) hole.inner_diameter_m = 1.2 * hole.diameter_m;
    const LayoutResult result = place_holes(task, played_air());
    CHECK(result.worst_cents < kInTune_cents);
    for (const FingerHole& hole : result.flute.holes)
        CHECK_THAT(hole.inner_diameter_m, WithinRel(1.2 * hole.diameter_m, 1e-9));
}

// What moving a hole does, by moving it: a difference of whole solves, apart from the layout.
// Tolerance  1 % of a slope.
TEST_CASE("slopes are what a knife would find", "[layout][property]") {
    const Air air = played_air();
    const LayoutTask task = easy_task();
    const LayoutResult result = place_holes(task, air);
    const double step_m = 2e-5;
    for (const NoteResult& note : result.notes) {
        const auto moved = [&](auto change) {
            Flute flute = result.flute;
            change(flute);
            return cents_between(pitch_Hz(flute, air, note.open), note.sounding_Hz) / step_m;
        };
        CHECK_THAT(moved([&](Flute& f) { f.foot_m += step_m; }),
                   WithinAbs(note.cents_per_foot_m, 0.01 * std::abs(note.cents_per_foot_m) + 2.0));
        if (note.open.empty()) {
            CHECK(std::isnan(note.cents_per_m));
            CHECK(std::isnan(note.cents_per_diameter_m));
            continue;
        }
        const std::size_t own = static_cast<std::size_t>(note.open.front() - 1);
        CHECK(note.cents_per_m < 0.0);
        CHECK(note.cents_per_diameter_m > 0.0);
        CHECK_THAT(moved([&](Flute& f) { f.holes[own].at_m += step_m; }),
                   WithinRel(note.cents_per_m, 0.01));
        CHECK_THAT(moved([&](Flute& f) {
                       f.holes[own].diameter_m += step_m;
                       f.holes[own].inner_diameter_m += step_m;
                   }),
                   WithinRel(note.cents_per_diameter_m, 0.01));
    }
}

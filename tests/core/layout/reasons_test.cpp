// tests/core/layout/reasons_test.cpp: what holds notes back, where no limit does it alone.
#include "core/layout/reasons.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "tests/support/layouts.hpp"

using namespace canewright;
using namespace canewright::testing;
using Catch::WithinRel;

namespace {

// One drill of 3 mm, and fingers for which holes have to measure just that: neither alone is to
// blame.
LayoutTask one_size() {
    LayoutTask task = easy_task();
    task.shop.bits_m = {0.003};
    task.shop.diameter_min_m = task.shop.diameter_max_m = 0.003;
    task.shop.spacing_min_m = 0.016;
    task.shop.spacing_max_m = 0.0165;
    return task;
}

}  // namespace

// Each set is put to the test by layouts of their own: without all of it the notes come nearer by
// what was said, without all but one of it they do not.
TEST_CASE("limits that only hold together are named together", "[layout][reasons]") {
    LayoutTask task = one_size();
    task.shop.spacing_min_m = 0.0;
    task.shop.spacing_max_m = kNoLimit;
    task.end_m = 0.235;
    const LayoutResult held = place_holes(task, played_air());
    CAPTURE(held.errors_cents, held.worst_cents);
    REQUIRE(held.converged);
    REQUIRE(held.worst_cents > 3.0);
    double costs_cents = 0.0;
    bool bits = false, least = false, most = false;
    for (const Binding& binding : held.binding) {
        UNSCOPED_INFO(name(binding.limit) << " " << binding.costs_cents << " " << binding.together);
        if (!binding.together) continue;
        costs_cents = binding.costs_cents;
        bits = bits || binding.limit == Limit::bits;
        least = least || binding.limit == Limit::diameter_min;
        most = most || binding.limit == Limit::diameter_max;
    }
    CHECK(bits);
    CHECK((least || most));
    const auto errors_without = [&](bool drill, bool smaller, bool larger) {
        LayoutTask other = task;
        if (drill) other.shop.bits_m.clear();
        if (smaller) other.shop.diameter_min_m = 0.0;
        if (larger) other.shop.diameter_max_m = kNoLimit;
        return place_holes(other, played_air(), Explain::no).errors_cents;
    };
    // what it costs is sought roughly (kRoughSteps)
    CHECK_THAT(held.errors_cents - errors_without(bits, least, most), WithinRel(costs_cents, 0.05));
    CHECK(errors_without(true, false, false) > held.errors_cents - kBindingCost_cents);
    CHECK(errors_without(false, least, most) > held.errors_cents - kBindingCost_cents);
}

// Two notes from one fingering: no wall is to blame.
TEST_CASE("fingerings that cannot give the notes are named", "[layout][reasons]") {
    LayoutTask task = easy_task();
    task.notes[3].open = task.notes[2].open;
    const LayoutResult held = place_holes(task, played_air());
    REQUIRE(held.worst_cents > 3.0);
    REQUIRE(held.binding.size() == 1);
    CHECK(held.binding[0].limit == Limit::fingerings);
    CHECK(held.binding[0].hole == -1);
}

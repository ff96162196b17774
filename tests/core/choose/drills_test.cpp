// tests/core/choose/drills_test.cpp: drill sizes against the published table.
#include "core/choose/drills.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>

using namespace canewright;

namespace drills_test {  // its own where tests are compiled together
namespace {

double mm(const DrillSet& set, const std::string& label) {
    for (const Drill& drill : set.drills)
        if (drill.label == label) return drill.diameter_m * 1000;
    return 0.0;
}

}  // namespace

// Millimetres as the standard's own table rounds them: ASME B94.11M (numbers and letters; some from
// charts after it, read 2026, some from memory). The core has inches.
TEST_CASE("drills have the sizes of the published table", "[drills][published]") {
    const auto sets = drill_sets();
    REQUIRE(sets.size() == 4);
    const DrillSet &metric = sets[0], &fractions = sets[1], &numbers = sets[2], &letters = sets[3];
    CHECK(mm(metric, "6.5 mm") == Approx(6.5));
    CHECK(metric.drills.size() == 20);
    CHECK(mm(fractions, "9/64 in") == Approx(3.572).margin(5e-4));
    CHECK(mm(fractions, "1/4 in") == Approx(6.35).margin(5e-4));
    CHECK(mm(fractions, "1/2 in") == Approx(12.7).margin(5e-4));
    CHECK(mm(numbers, "#1") == Approx(5.791).margin(6e-4));
    CHECK(mm(numbers, "#7") == Approx(5.105).margin(6e-4));
    CHECK(mm(numbers, "#10") == Approx(4.915).margin(6e-4));
    CHECK(mm(numbers, "#21") == Approx(4.039).margin(6e-4));
    CHECK(mm(numbers, "#30") == Approx(3.264).margin(6e-4));
    CHECK(mm(letters, "A") == Approx(5.944).margin(6e-4));
    CHECK(mm(letters, "F") == Approx(6.528).margin(6e-4));
    CHECK(mm(letters, "Q") == Approx(8.433).margin(6e-4));
    CHECK(mm(letters, "Z") == Approx(10.490).margin(6e-4));
    for (const DrillSet& set : sets)
        for (std::size_t i = 1; i < set.drills.size(); ++i)
            CHECK(set.drills[i].diameter_m > set.drills[i - 1].diameter_m);
}

}  // namespace drills_test

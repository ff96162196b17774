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

// Millimetres as the standard's own table rounds them: ASME B94.11M (numbers and letters; the ends
// and a few between from charts after it, read 2026, the rest from memory). The core has inches.
TEST_CASE("drills have the sizes of the published table", "[drills][published]") {
    const auto sets = drill_sets();
    REQUIRE(sets.size() == 4);
    const DrillSet &metric = sets[0], &fractions = sets[1], &numbers = sets[2], &letters = sets[3];
    CHECK(mm(metric, "6.5 mm") == Approx(6.5));
    CHECK(metric.drills.size() == 20);
    CHECK(mm(fractions, "9/64 in") == Approx(3.572).margin(5e-4));
    CHECK(mm(fractions, "1/4 in") == Approx(6.35).margin(5e-4));
    CHECK(mm(fractions, "1/2 in") == Approx(12.7).margin(5e-4));
    // Numbers from 1 on, letters from A on.
    const std::vector<double> by_number = {5.791, 5.613, 5.410, 5.309, 5.220, 5.182, 5.105, 5.055,
                                           4.978, 4.915, 4.851, 4.801, 4.699, 4.623, 4.572, 4.496,
                                           4.394, 4.305, 4.216, 4.089, 4.039, 3.988, 3.912, 3.861,
                                           3.797, 3.734, 3.658, 3.569, 3.454, 3.264};
    const std::vector<double> by_letter = {5.944, 6.045, 6.147,  6.248,  6.350, 6.528, 6.629,
                                           6.756, 6.909, 7.036,  7.137,  7.366, 7.493, 7.671,
                                           8.026, 8.204, 8.433,  8.611,  8.839, 9.093, 9.347,
                                           9.576, 9.804, 10.084, 10.262, 10.490};
    REQUIRE(numbers.drills.size() == by_number.size());
    for (std::size_t i = 0; i < by_number.size(); ++i)
        CHECK(mm(numbers, "#" + std::to_string(i + 1)) == Approx(by_number[i]).margin(6e-4));
    REQUIRE(letters.drills.size() == by_letter.size());
    for (std::size_t i = 0; i < by_letter.size(); ++i)
        CHECK(mm(letters, std::string(1, static_cast<char>('A' + i))) ==
              Approx(by_letter[i]).margin(6e-4));
    for (const DrillSet& set : sets)
        for (std::size_t i = 1; i < set.drills.size(); ++i)
            CHECK(set.drills[i].diameter_m > set.drills[i - 1].diameter_m);
}

namespace {

std::string names(const std::vector<Drill>& drills) {
    std::string all;
    for (const Drill& drill : drills)
        all += (drill.label.empty() ? std::to_string(drill.diameter_m * 1000).substr(0, 3)
                                    : drill.label) +
               " ";
    return all;
}

}  // namespace

// A quarter and 9/32 inch are 6.35 and 7.14 mm, letter F 6.53 (as above).
TEST_CASE("a bit more is one of the kind that its owner buys", "[drills]") {
    CHECK(names(drills_on_offer({{0.006, ""}}, 0.005, 0.007)) == "5.0 5.5 6.5 7.0 ");
    CHECK(names(drills_on_offer({{0.00635, "1/4 in"}}, 0.006, 0.0075)) == "17/64 in 9/32 in ");
    CHECK(names(drills_on_offer({{0.00635, "1/4 in"}, {0.008, ""}}, 0.0065, 0.0071)) ==
          "7.0 17/64 in ");
    CHECK(names(drills_on_offer({{0.005944, "A"}}, 0.0063, 0.0068)) == "E F G H ");
    // a rod by a name of its own is no drill set
    CHECK(names(drills_on_offer({{0.0062, "6 mm rod"}}, 0.0055, 0.007)) == "5.5 7.0 ");
}

}  // namespace drills_test

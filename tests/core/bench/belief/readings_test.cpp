// tests/core/bench/belief/readings_test.cpp: how sure this maker's next reading is.
#include "core/bench/belief/readings.hpp"

#include <catch2/catch.hpp>

#include "tests/core/bench/workshop.hpp"

namespace canewright {
namespace {

using Catch::WithinRel;
using testing::Dice;
using testing::Workshop;

// By hand: four usual readings of 2.7 cents and n of 6: the root of their mean square.
TEST_CASE("the next reading is as sure as this maker's were", "[bench][readings][analytic]") {
    Dice dice(31);
    Workshop shop(dice, 6.0);
    CHECK_THAT(reading_sigma_cents(shop.history()), WithinRel(2.7, 1e-12));
    for (int n = 1; n <= 8; ++n) {
        shop.hear({});
        CHECK_THAT(reading_sigma_cents(shop.history()),
                   WithinRel(std::sqrt((4.0 * 2.7 * 2.7 + n * 36.0) / (4.0 + n)), 1e-12));
    }
}

// What is blown right before and after a cut leans on the blows between: it says nothing of how a
// note is read by itself.
TEST_CASE("an opening is no reading by itself", "[bench][readings]") {
    Dice dice(32);
    Workshop shop(dice, 1.0);
    shop.saw(0.365);
    shop.drill(5, 0.300, 5e-3);
    const double before = reading_sigma_cents(shop.history());
    shop.hear({5});
    shop.drill(5, 0.300, 5.4e-3);
    shop.hear({5});
    CHECK(reading_sigma_cents(shop.history()) == before);
    shop.hear({});
    CHECK(reading_sigma_cents(shop.history()) < before);
}

}  // namespace
}  // namespace canewright

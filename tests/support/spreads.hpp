// tests/support/spreads.hpp: flutes with errors that several tests use.
#pragma once

#include "core/layout/builds.hpp"
#include "tests/support/random_tubes.hpp"

namespace canewright::testing {

inline const ModelErrors kPerfectModel{0.0, 0.0, 0.0, 0.0, 0.0};
inline const ShopErrors kPerfectShop{0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0};

// A flute opened hole by hole from the foot, in a room of 20 C, with the default errors.
inline SpreadTask spread_task(const Flute& flute) {
    SpreadTask task;
    task.plan.flute = flute;
    task.plan.room = AirState{};
    task.plan.refresh_air();
    const int holes = static_cast<int>(flute.holes.size());
    for (int opened = 0; opened <= holes; ++opened) {
        Fingering open;
        for (int hole = holes - opened + 1; hole <= holes; ++hole) open.push_back(hole);
        task.open.push_back(open);
    }
    return task;
}

inline SpreadTask easy_spread() {
    return spread_task(place_holes(easy_task(), played_air()).flute);
}

// A flute laid out on a tube as they come.
inline SpreadTask random_spread(Dice& dice) {
    const Air air = played_air();
    return spread_task(place_holes(random_tube(dice, 0.03, air), air).flute);
}

// Errors that are small against everything they touch: 0.5 % of the bore in lengths, a tenth of
// the default in the rest.
inline SpreadTask with_small_errors(SpreadTask task) {
    const double small_m = 0.005 * bore_diameter_m(task.plan.flute, 0.0);
    task.shop = {small_m, 0.3 * small_m, small_m, small_m, 0.5 * small_m, 0.5 * small_m, 0.3};
    task.model = {0.01, 0.02, 0.03, 0.005, 0.2};
    return task;
}

}  // namespace canewright::testing

// tests/support/random_tubes.hpp: tubes as they come, each with a song that its length allows.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "tests/support/layouts.hpp"

namespace canewright::testing {

// What a maker may bring: bore 6 to 25 mm, 12 to 28 bores long, wall 0.8 to 5 mm and at most 0.3
// of the bore, 4 to 6 holes, spacing 0.8 to 2 bores within a hand; tapers up to `taper` of the bore
// either way, one in five oval by up to 5 %.
inline LayoutTask random_tube(Dice& dice, double taper, const Air& air) {
    static const std::vector<double> kScales[] = {{0.0, 300.0, 500.0, 700.0, 1000.0},
                                                  {0.0, 300.0, 500.0, 700.0, 1000.0, 1200.0},
                                                  {0.0, 200.0, 300.0, 500.0, 700.0, 800.0, 1000.0}};
    const double bore_m = dice.between(0.006, 0.025);
    const double length_m = bore_m * dice.between(12.0, 28.0);
    LayoutTask task;
    task.flute = plain_tube(bore_m, std::min(dice.between(0.0008, 0.005), 0.3 * bore_m), length_m);
    task.flute.sound_hole.length_m = bore_m * dice.between(0.25, 0.45);
    task.flute.sound_hole.width_m = bore_m * dice.between(0.4, 0.7);
    task.flute.plug_offset_m = bore_m * dice.between(0.0, 0.2);
    task.end_m = 1.05 * length_m;
    const double far = 1.0 + dice.between(-taper, taper);
    task.flute.bore.push_back({task.end_m, bore_m * far, bore_m * far});
    if (dice.whole(1, 5) == 1) {
        const double root = std::sqrt(1.0 + dice.between(0.0, 0.05));
        for (BoreStation& station : task.flute.bore) {
            station.diameter_m *= root;
            station.across_m /= root;
        }
    }
    task.hole_count = dice.whole(4, 6);
    task.shop.spacing_min_m = 0.8 * bore_m;
    task.shop.spacing_max_m = 2.0 * bore_m;
    task.shop.hands = {task.hole_count / 2, task.hole_count - task.hole_count / 2};
    task.notes = opened_in_order(task.hole_count, pitch_Hz(task.flute, air, {}),
                                 kScales[task.hole_count - 4]);
    return task;
}

}  // namespace canewright::testing

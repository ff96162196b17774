// core/choose/grid.cpp -- the wishes that are tried on a tube.
#include "core/choose/grid.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"
#include "core/music/pitch_name.hpp"

namespace canewright {

std::vector<Wish> wishes(double whole_Hz, double a4_Hz) {
    // A hair below is that note still: a tube is sawn to its note, never found at it.
    const double hair_cents = 1.0;
    const double above_a4 = (cents_between(whole_Hz, a4_Hz) - hair_cents) / (kCentsPerOctave / 12);
    const int first = kA4 + static_cast<int>(std::ceil(above_a4));
    std::vector<Wish> all;
    for (int note = std::max(first, kLowestNote); note <= std::min(first + kGridSpan, kHighestNote);
         ++note) {
        for (const Scale& scale : named_scales()) {
            const int steps = static_cast<int>(scale.step_cents.size());
            const int most = std::min(steps - 1, kUsualHoles);
            for (int holes = most; holes >= (most < kUsualHoles ? most - 1 : most); --holes)
                all.push_back({note, &scale, holes});
        }
    }
    return all;
}

}  // namespace canewright

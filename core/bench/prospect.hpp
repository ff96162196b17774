// core/bench/prospect.hpp: where a build stands. Layer: bench.
#pragma once

namespace canewright {

struct Prospect {
    double within_cents = 0.0;  // every note, probably: of the flute as it is where all_cut, else
                                // as it will be, once every hole is cut and opened;
                                // infinite where a note is planned that does not speak
    bool all_cut = false;       // every hole is cut: one may stop here
    double good_enough_cents = 0.0;  // the finish line
    double chance = 0.0;             // that every note is within it
    int steps_left = 0;              // about, to the finish line
};

}  // namespace canewright

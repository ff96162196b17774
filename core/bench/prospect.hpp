// core/bench/prospect.hpp: where a build stands. Layer: bench.
#pragma once

#include <vector>

namespace canewright {

struct Prospect {
    double within_cents = 0.0;  // every note, probably: of the flute as it is where all_cut, else
                                // as it will be, once every hole is cut and opened;
                                // infinite where a note is planned that does not speak
    // Where each note of the aim will end (Cuts::end_cents); empty where all_cut.
    std::vector<double> end_cents;
    bool all_cut = false;            // every hole is cut: one may stop here
    double good_enough_cents = 0.0;  // the finish line
    double chance = 0.0;             // that every note is within it
    double tolerance_cents = 0.0;    // beyond which a note is out of tune
    int steps_left = 0;              // about, to the finish line
};

}  // namespace canewright

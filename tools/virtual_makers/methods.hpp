// tools/virtual_makers/methods.hpp: three ways to make a flute of the same tube.
#pragma once

#include "tools/virtual_makers/hands.hpp"

namespace virtual_makers {

// How well what was believed held: departures in standard deviations of their own.
struct Calibration {
    long counted = 0, within_68 = 0, within_95 = 0;
    double sum = 0.0;
    void add(double departure) {
        ++counted;
        sum += departure;
        within_68 += std::abs(departure) < 0.994458;  // normal quantiles of 0.84 and 0.975
        within_95 += std::abs(departure) < 1.959964;
    }
};

struct Made {
    std::vector<double> errors_cents;  // of each note at the end, where it is to be played
    bool rescued = false;
    bool finished = true;  // false: stopped after kMostBuildSteps
    int steps = 0, cuts = 0, readings = 0;
    double steps_said = 0.0, steps_left = 0.0;  // over all steps: left as said, and as it came out
    double slowest_s = 0.0;                     // one answer of the planner
    Calibration during, at_end;
    std::vector<std::string> diary;  // what happened, for reading
};

inline constexpr int kMostBuildSteps = 150;

// Follows the planner to the word.
Made by_canewright(const Blank& blank, Random& random, bool mishaps, const Setting& setting);
double good_enough_cents(const Setting& setting);
// A good flute's marks copied onto this tube, the foot cut to pitch, holes drilled undersize and
// opened by ear from the foot up.
Made by_pattern(const Blank& blank, const TrueFlute& pattern, Random& random, bool mishaps);
// The first layout drilled as computed, then opened by ear where flat.
Made by_first_layout(const Blank& blank, Random& random, bool mishaps);
// The first layout cut as computed, by hands as steady as the others', and never listened to: what
// knowing alone is worth. `floor` has the same with all of the flute known: what the hands do.
struct Unheard {
    Made made, floor;
};
Unheard by_knowing(const Blank& blank, Random& random);

}  // namespace virtual_makers

// tools/virtual_makers/tally.hpp: what many builds come to, and how it is written.
#pragma once

#include <string>

#include "tools/virtual_makers/methods.hpp"

namespace virtual_makers {

// Of one way to make flutes.
struct Tally {
    int builds = 0, within_10 = 0, within_5 = 0, sharp = 0, rescued = 0, finished = 0;
    std::vector<double> cuts_per_note, steps, readings, errors;
    Calibration during, at_end;
    double slowest_s = 0.0;
    double steps_said = 0.0, steps_left = 0.0;  // of all steps: left as said, and as it came out

    void add(const Made& made);
};

// Tubes put away before a build, and how far the other formulas are from the core's.
struct Tubes {
    int rejected_notes = 0, rejected_foot = 0, without_pattern = 0;
    std::vector<double> lowest, intervals;

    void add(const Blank& blank);
};

// JSON objects. `planned`: with what only the planner's maker has.
std::string json(const Tally& tally, bool planned);
std::string json(const Tubes& tubes);
std::string json_departures(const Tubes& tubes);

}  // namespace virtual_makers

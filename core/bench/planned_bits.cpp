// core/bench/planned_bits.cpp: tries them.
#include "core/bench/planned_bits.hpp"

#include <cmath>
#include <utility>

namespace canewright {
namespace {

// Of each uncut hole; nothing where one was planned of another size.
std::vector<double> planned_bits_m(const LayoutTask& task) {
    std::vector<double> planned_m(task.flute.holes.size(), 0.0);
    for (std::size_t i = 0; i < planned_m.size(); ++i) {
        const FingerHole& hole = task.flute.holes[i];
        if (hole.diameter_fixed || task.cut_diameter_m[i] > 0.0) continue;
        for (const double bit_m : task.shop.bits_m)
            if (std::abs(bit_m - hole.diameter_m) < kHair * hole.diameter_m) planned_m[i] = bit_m;
        if (planned_m[i] == 0.0) return {};
    }
    return planned_m;
}

}  // namespace

void keep_planned_bits(const LayoutTask& task, const Air& air, const Placement& unlimited,
                       Placement& found) {
    Rules rules;
    rules.bit_m = planned_bits_m(task);
    if (rules.bit_m.empty() || rules.bit_m == found.bit_m) return;
    Placement planned = limited_placement(task, air, unlimited, rules);
    const long evaluations = found.evaluations + planned.evaluations;
    const int steps = found.steps + planned.steps;
    if (planned.walk.converged &&
        planned.walk.errors_cents() < found.walk.errors_cents() + kKeepsBits_cents)
        found = std::move(planned);
    found.evaluations = evaluations;
    found.steps = steps;
}

}  // namespace canewright

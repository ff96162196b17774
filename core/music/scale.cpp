// core/music/scale.cpp -- the named scales, the check of a maker's own, and the continuation.
#include "core/music/scale.hpp"

#include <algorithm>
#include <cmath>

#include "core/base/units.hpp"

namespace canewright {

const std::vector<Scale>& named_scales() {
    static const std::vector<Scale> scales = {
        {"minor pentatonic", {0, 300, 500, 700, 1000, 1200}},
        {"major pentatonic", {0, 200, 400, 700, 900, 1200}},
        {"natural minor", {0, 200, 300, 500, 700, 800, 1000, 1200}},
        {"major", {0, 200, 400, 500, 700, 900, 1100, 1200}},
    };
    return scales;
}

const Scale* find_scale(std::string_view name) {
    const auto& scales = named_scales();
    const auto found = std::find_if(scales.begin(), scales.end(),
                                    [&](const Scale& scale) { return scale.name == name; });
    return found == scales.end() ? nullptr : &*found;
}

std::vector<Violation> check_steps(const std::vector<double>& step_cents, const std::string& path) {
    const auto count = static_cast<double>(step_cents.size());
    if (step_cents.size() < kFewestSteps) {
        return {violation(Code::too_small, path, count, static_cast<double>(kFewestSteps))};
    }
    if (step_cents.size() > kMostSteps) {
        return {violation(Code::too_large, path, count, static_cast<double>(kMostSteps))};
    }
    std::vector<Violation> found;
    for (std::size_t i = 0; i < step_cents.size(); ++i) {
        const double step = step_cents[i];
        const double highest = i == 0 ? 0.0 : kHighestStep_cents;  // the first is the lowest note
        const std::string here = path + "[" + std::to_string(i) + "]";
        if (!std::isfinite(step)) {
            found.push_back(violation(Code::not_finite, here));
        } else if (!(step >= 0)) {
            found.push_back(violation(Code::too_small, here, step, 0.0));
        } else if (!(step <= highest)) {
            found.push_back(violation(Code::too_large, here, step, highest));
        } else if (i > 0 && std::isfinite(step_cents[i - 1]) && step <= step_cents[i - 1]) {
            found.push_back(violation(Code::out_of_order, here, step, step_cents[i - 1]));
        }
    }
    return found;
}

std::vector<double> continued_steps(const std::vector<double>& step_cents, std::size_t count) {
    std::vector<double> steps(
        step_cents.begin(),
        step_cents.begin() + static_cast<std::ptrdiff_t>(std::min(count, step_cents.size())));
    if (steps.empty()) return steps;
    // Ends: the first octave always holds step 0, so that each round adds at least one degree as
    // soon as it is above the last given one.
    for (double octave_cents = kCentsPerOctave; steps.size() < count;
         octave_cents += kCentsPerOctave) {
        for (const double step : step_cents) {
            const bool first_octave = step < kCentsPerOctave - kSameDegree_cents;
            if (first_octave && steps.size() < count &&
                octave_cents + step > steps.back() + kSameDegree_cents) {
                steps.push_back(octave_cents + step);
            }
        }
    }
    return steps;
}

}  // namespace canewright

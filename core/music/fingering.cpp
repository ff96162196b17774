// core/music/fingering.cpp -- which holes are open for which step of a scale.
#include "core/music/fingering.hpp"

#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>

namespace canewright {

namespace {

const char* const kPath = "song.fingerings";

std::string at(const std::string& path, std::size_t index) {
    return path + "[" + std::to_string(index) + "]";
}

// One list of hole numbers, sorted; adds what is wrong with it.
FingeredStep checked_step(double step_cents, const std::vector<int>& open, int holes,
                          const std::string& path, std::vector<Violation>& found) {
    std::vector<int> seen;
    for (std::size_t i = 0; i < open.size(); ++i) {
        const int number = open[i];
        if (number < 1 || number > holes) {
            found.push_back(violation(Code::bad_hole_number, at(path, i),
                                      static_cast<double>(number), static_cast<double>(holes)));
        } else if (std::find(seen.begin(), seen.end(), number) != seen.end()) {
            const auto value = static_cast<double>(number);
            found.push_back(violation(Code::overlap, at(path, i), value, value));
        } else {
            seen.push_back(number);
        }
    }
    std::sort(seen.begin(), seen.end());
    return {step_cents, std::move(seen)};
}

// Opening a hole never lowers a note, so a higher step must open some hole that each lower one
// covers. Against the first such lower step only: one sentence for each field.
void check_rising(const std::vector<FingeredStep>& steps, std::vector<Violation>& found) {
    for (std::size_t high = 1; high < steps.size(); ++high) {
        const std::vector<int>& open = steps[high].open;
        for (std::size_t low = 0; low < high; ++low) {
            const std::vector<int>& below = steps[low].open;
            if (std::includes(below.begin(), below.end(), open.begin(), open.end())) {
                found.push_back(violation(below == open ? Code::overlap : Code::out_of_order,
                                          at(kPath, high), steps[high].step_cents,
                                          steps[low].step_cents));
                break;
            }
        }
    }
}

ResolvedFingerings resolve_own(const Scale& scale, int holes, const OwnFingerings& own) {
    ResolvedFingerings resolved;
    const std::size_t wanted = scale.step_cents.size();
    if (own.size() != wanted) {
        resolved.violations.push_back(
            violation(own.size() < wanted ? Code::missing_fingering : Code::too_large, kPath,
                      static_cast<double>(own.size()), static_cast<double>(wanted)));
    }
    for (std::size_t i = 0; i < std::min(own.size(), wanted); ++i) {
        resolved.steps.push_back(
            checked_step(scale.step_cents[i], own[i], holes, at(kPath, i), resolved.violations));
    }
    if (resolved.violations.empty()) check_rising(resolved.steps, resolved.violations);
    if (!resolved.violations.empty()) resolved.steps.clear();
    return resolved;
}

const FingeringEntry* find_entry(const Scale& scale, int holes) {
    for (const FingeringEntry& entry : fingering_table()) {
        if (entry.scale == scale.name && entry.holes == holes) return &entry;
    }
    return nullptr;
}

}  // namespace

std::vector<int> lowest_holes(int count, int holes) {
    std::vector<int> open;
    for (int number = holes - count + 1; number <= holes; ++number) open.push_back(number);
    return open;
}

ResolvedFingerings resolve_fingerings(const Scale& scale, int holes,
                                      const std::optional<OwnFingerings>& own) {
    if (holes < kFewestHoles || holes > kMostHoles) {
        const bool few = holes < kFewestHoles;
        return {{},
                {violation(few ? Code::too_small : Code::too_large, "song.holes",
                           static_cast<double>(holes),
                           static_cast<double>(few ? kFewestHoles : kMostHoles))}};
    }
    if (own) return resolve_own(scale, holes, *own);
    if (const FingeringEntry* entry = find_entry(scale, holes)) return {entry->steps, {}};

    const std::size_t playable = static_cast<std::size_t>(holes) + 1;
    if (scale.name.empty() && scale.step_cents.size() > playable) {
        return {{},
                {violation(Code::missing_fingering, "song.scale",
                           static_cast<double>(scale.step_cents.size()),
                           static_cast<double>(playable))}};
    }
    ResolvedFingerings resolved;
    for (const double step : continued_steps(scale.step_cents, playable)) {
        const int count = static_cast<int>(resolved.steps.size());
        resolved.steps.push_back({step, lowest_holes(count, holes)});
    }
    return resolved;
}

}  // namespace canewright

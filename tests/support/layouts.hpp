// tests/support/layouts.hpp: layout tasks that several tests use.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "core/base/units.hpp"
#include "core/layout/place_holes.hpp"
#include "tests/support/flutes.hpp"

namespace canewright::testing {

inline const std::vector<double> kMinorPentatonic = {0.0, 300.0, 500.0, 700.0, 1000.0, 1200.0};

// Holes opened one after the other from the foot, one step a hole.
inline std::vector<NoteTarget> opened_in_order(int holes, double lowest_Hz,
                                               const std::vector<double>& steps_cents) {
    std::vector<NoteTarget> notes;
    for (int opened = 0; opened <= holes; ++opened) {
        NoteTarget note;
        for (int hole = holes - opened + 1; hole <= holes; ++hole) note.open.push_back(hole);
        note.interval_cents = steps_cents[static_cast<std::size_t>(opened)];
        note.target_Hz = shifted_Hz(lowest_Hz, note.interval_cents);
        notes.push_back(note);
    }
    return notes;
}

// A tube of 12.5 mm bore that easily gives a minor pentatonic on G5, nothing limited.
inline LayoutTask easy_task() {
    LayoutTask task;
    task.flute = plain_tube(0.0125, 0.002, 0.25);
    task.end_m = 0.25;
    task.hole_count = 5;
    task.notes = opened_in_order(5, 659.26, kMinorPentatonic);
    return task;
}

// The sum of the errors of a result's flute, from a network of its own and not from the result.
inline double heard_errors_cents(const LayoutTask& task, const LayoutResult& result,
                                 const Air& air) {
    double sum = 0.0, lowest_Hz = 0.0;
    if (task.lowest_free) lowest_Hz = pitch_Hz(result.flute, air, {});
    for (const NoteTarget& note : task.notes) {
        const double target_Hz =
            task.lowest_free ? shifted_Hz(lowest_Hz, note.interval_cents) : note.target_Hz;
        sum += std::pow(cents_between(pitch_Hz(result.flute, air, note.open), target_Hz), 2);
    }
    return std::sqrt(sum);
}

inline const Binding* binding(const LayoutResult& result, Limit limit) {
    for (const Binding& b : result.binding)
        if (b.limit == limit) return &b;
    return nullptr;
}

inline bool finite(const LayoutResult& result) {
    bool all = std::isfinite(result.flute.foot_m) && std::isfinite(result.worst_cents) &&
               std::isfinite(result.errors_cents);
    for (const FingerHole& hole : result.flute.holes)
        all = all && std::isfinite(hole.at_m) && std::isfinite(hole.diameter_m);
    for (const NoteResult& note : result.notes) all = all && std::isfinite(note.sounding_Hz);
    return all;
}

}  // namespace canewright::testing

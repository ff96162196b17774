// core/layout/lift.cpp: how high a note lies, and what the breath makes of it.
#include "core/layout/lift.hpp"

#include <algorithm>

namespace canewright {

double above_lowest_cents(const std::vector<NoteTarget>& notes, const Fingering& open) {
    const auto uppermost = [](const Fingering& f) { return f.empty() ? 99 : f.front(); };
    double lowest_cents = 0.0, above_cents = 0.0;
    for (const NoteTarget& note : notes) {
        if (note.open.empty()) lowest_cents = note.interval_cents;
        if (uppermost(note.open) >= uppermost(open))
            above_cents = std::max(above_cents, note.interval_cents);
    }
    for (const NoteTarget& note : notes)
        if (note.open == open) above_cents = note.interval_cents;
    return above_cents - lowest_cents;
}

std::vector<double> lifts_cents(const LayoutTask& task) {
    std::vector<double> lifts;
    for (const NoteTarget& note : task.notes)
        lifts.push_back(lift_cents(task.lift_cents, above_lowest_cents(task.notes, note.open)));
    return lifts;
}

}  // namespace canewright

// core/layout/lift.hpp: how a player's breath lifts higher notes. Layer: layout.
#pragma once

#include <vector>

#include "core/base/units.hpp"
#include "core/layout/plan.hpp"

namespace canewright {

// How high a fingering lies above the lowest note of a scale [cents]. One that is no note of the
// scale lies as high as the note of its uppermost open hole.
double above_lowest_cents(const std::vector<NoteTarget>& notes, const Fingering& open);

// Players blow high notes harder. What that adds to a note so high above the lowest, where a note
// an octave above it is lifted by `octave_cents` [cents].
inline double lift_cents(double octave_cents, double above_cents) {
    return octave_cents * above_cents / kCentsPerOctave;
}

// To each note of a task.
std::vector<double> lifts_cents(const LayoutTask& task);

}  // namespace canewright

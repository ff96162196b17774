// core/bench/belief/note_model.hpp: one note of a build under a set of unknowns, and its slopes.
// Layer: bench.
#pragma once

#include "core/bench/belief/unknowns.hpp"

namespace canewright {

struct NoteModel {
    double frequency_Hz = 0.0;  // as sounded: passive resonance lifted by the breath's drift
    Eigen::VectorXd slope;      // cents per unit of each unknown
    bool speaks = false;
};

// A fingering (numbers of the plan; uncut holes are not there) on the flute of a stage.
//   above_lowest_cents   height of the note in the scale, for the breath's drift
//   near_Hz              a guess, which saves time and changes nothing else; 0 for none
NoteModel note_model(const History& history, const Stage& stage, const Fingering& open,
                     double room_C, const Eigen::VectorXd& unknowns, double above_lowest_cents,
                     double near_Hz = 0.0);

// The same without slopes: the frequency as sounded, NaN where it does not speak.
double note_Hz(const History& history, const Stage& stage, const Fingering& open, double room_C,
               const Eigen::VectorXd& unknowns, double above_lowest_cents, double near_Hz = 0.0);

// Standard deviation of a note under a belief [cents].
double sigma_cents(const NoteModel& note, const Belief& belief);

}  // namespace canewright

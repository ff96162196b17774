// core/jet/calibrate.hpp: one measured pressure, and what it says of a voice's jet. Layer: jet.
#pragma once

#include "core/jet/regime.hpp"

namespace canewright {

// What a maker can see on a clear hose with water at the mouth end.
enum class PressureMark { at_pitch, jumps_up, falls_back };

struct Calibration {
    bool found = false;
    // Why not: "no_mark" (the model has no such place for this note), "not_this_jet" (no speed of
    // the wave between kLeastFitted and kMostFitted gives that pressure).
    const char* why = "";
    double convection = 0.0;         // c_v that gives the pressure; NaN unless found
    double convection_factor = 0.0;  // over the voice's own
    bool quoted = false;             // whether it lies in the range that papers quote
};

// The speed of the jet's wave that puts a mark of one note at a measured pressure.
//
// Model    thresholds are set by phase, so nearly p ~ 1 / c_v^2 (in a track ruled by friction
//          1 / c_v); solved with the whole model.
// Valid    a voice whose band is good or rough. Everything that makes the jet late or early goes
//          into the factor, a wrong depth of the track too: it belongs to this voice alone.
// Error    kPressureError of the pressure it gives back. What is left for other marks:
//          remaining_factor().
// Source   common practice of fitting one constant; no source.
Calibration calibrate(const Blowing& blowing, const NoteLoops& loops, int register_number,
                      PressureMark mark, double measured_Pa);

// By what factor, either way, another pressure of the same voice may still be off.
//
// Model    the same mark of other notes: kSameMark. Between a jump and the design breath
//          kJumpToPitch, between the two jumps kJumpToJump, since the model's gap is too wide.
// Error    judgement. kJumpToJump is the model's gap (1.95 in its prototype) over the mean
//          measured on a recorder (1.22; data of arXiv 2107.08727, our analysis), kJumpToPitch its
//          root; kSameMark what f^2.2 (measured, jumps up) and f^2 (model) differ over an octave.
double remaining_factor(PressureMark measured, PressureMark asked);

inline constexpr double kSameMark = 1.15;
inline constexpr double kJumpToPitch = 1.26;
inline constexpr double kJumpToJump = 1.6;
inline constexpr double kLeastFitted = 0.2, kMostFitted = 0.8;

}  // namespace canewright

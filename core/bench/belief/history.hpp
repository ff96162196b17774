// core/bench/belief/history.hpp: a build as it happened, stage by stage. Layer: bench.
#pragma once

#include <limits>
#include <optional>
#include <vector>

#include "core/air/air.hpp"
#include "core/flute/geometry.hpp"

namespace canewright {

// A finger hole at one stage of the build. What is known of its size is a number and an error.
struct HoleNow {
    bool cut = false;
    double at_m = 0.0;
    double diameter_m = 0.0;    // best guess without readings
    double size_sigma_m = 0.0;  // one standard deviation of that guess
    double flare = 1.0;         // inner diameter over outer
    double wall_m = 0.0;        // where it goes through; 0: the tube's
    double aspect = 1.0;        // as in FingerHole
    bool at_fixed = false;      // the maker holds its place, or its size
    bool diameter_fixed = false;
    int times_cut = 0;  // 1: drilled, more: opened since
    int cutting = -1;   // the same number is the same opening; -1: no unknown of its own
};

// The flute between two cuts.
struct Stage {
    double foot_m = 0.0;
    double foot_sigma_m = 0.0;
    int foot_cutting = -1;  // the same number is the same saw cut; -1: no unknown of its own
    SoundHole sound_hole;
    std::optional<FootPlug> foot_plug;
    std::vector<HoleNow> holes;  // all of the plan, from the sound hole to the foot
};

// A pitch heard, with the flute as it was then. `open` counts the holes of the plan.
struct Heard {
    Fingering open;
    double frequency_Hz = 0.0;
    double above_cents = 0.0;  // of the note above the scale's lowest, for the breath's lift
    double sigma_cents = 0.0;  // of the reading itself
    double room_C = 20.0;
    std::size_t stage = 0;
    int entry = -1;                  // of the log, for naming it
    bool voice_moved_since = false;  // the block or the sound hole was changed after it
};

struct History {
    Flute blank;    // bore, wall, plug, ridge, fingers; no holes
    AirState room;  // humidity and pressure; the temperature of each reading is its own
    std::optional<Air> given_air;  // in place of every room's, for comparison with calculations
    std::vector<Stage> stages;     // at least one: the tube before anything was cut
    std::vector<Heard> heard;
    int cuttings = 0;      // cuts of holes and foot, counted together
    int dried_entry = -1;  // of the log: when the finished flute had dried; -1: not yet
    double breath = 1.0;   // blowing pressure of this player over the design's (core/jet/sounding)

    const Stage& now() const { return stages.back(); }
};

// A hole of a stage, cut or to be, in the measured flute.
FingerHole made_of(const HoleNow& hole, double tube_wall_m);

// The flute of a stage with its uncut holes left out.
Flute flute_at(const History& history, const Stage& stage);

// The same fingering counted over the cut holes only, as flute_at() numbers them. Holes that are
// not cut are dropped.
Fingering over_cut_holes(const Stage& stage, const Fingering& open);

}  // namespace canewright
